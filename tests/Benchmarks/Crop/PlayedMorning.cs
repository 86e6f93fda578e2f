using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Store;

namespace CaptureAgent.Benchmarks.Crop;

/// <summary>One chick's weighing played to the real core: its history in the ledger, its code, and the lines of a scale at ten a second. No feed is ever recorded.</summary>
internal static class PlayedMorning
{
    private const string Code = "CH-0001";

    private const double Towel = 8.2;

    private static readonly DateTimeOffset Start = new(2026, 6, 1, 6, 0, 0, TimeSpan.Zero);

    private static readonly StationOptions Options = new()
    {
        Devices =
        [
            new() { Id = "scale", Role = "scale", Dialect = "header-comma", DivisionGrams = 0.1m, CapacityGrams = 3000 },
            new() { Id = "scanner", Role = "scanner", Dialect = "line" },
        ],
    };

    /// <param name="before">Grams by day of age, up to the day before; NaN: not weighed.</param>
    /// <param name="species">As in the register.</param>
    /// <param name="grams">What lies on the pan.</param>
    public static WeighingEvent Weigh(IReadOnlyList<double> before, double grams, string? species, ulong seed)
    {
        var core = new StationCore(Options, Known(before, species));
        List<StationEvent> events = [];
        var random = new SeededRandom(seed);
        var line = 0;
        var momentum = 0.0;
        void Hold(double seconds, double load, double motion)
        {
            for (var i = 0; i < seconds * 10; i++)
            {
                // A bounded motion: the force is the difference of a momentum, so that its mean over time is nothing.
                var now = motion * random.Normal();
                var shown = Math.Round(load + now - momentum, 1);
                momentum = now;
                Take("scale", string.Create(CultureInfo.InvariantCulture, $"{(motion > 0.2 ? "US" : "ST")},GS,{(shown < 0 ? '-' : '+')}{Math.Abs(shown),8:F1}  g\r\n"));
            }
        }

        void Take(string device, string text) => core.Accept(new TraceRecord(Start.AddSeconds(0.1 * line++), device, Encoding.ASCII.GetBytes(text)), events);

        Hold(2, 0, 0);
        Hold(0.2, Towel / 2, 0);
        Hold(7, Towel, 0);
        Take("scanner", Code + "\r");
        Hold(0.5, Towel + 0.6 * grams, 0.008 * grams);
        Hold(1, Towel + 0.85 * grams, 0.006 * grams);
        Hold(16, Towel + grams, 0.003 * grams);
        Hold(3, Towel, 0);
        return events.OfType<WeighingEvent>().Single();
    }

    private static Ledger Known(IReadOnlyList<double> before, string? species)
    {
        var today = DateOnly.FromDateTime(Start.Date);
        var age = before.Count;
        var rows = before
            .Select((grams, day) => (Grams: grams, Day: today.AddDays(day - age)))
            .Where(morning => !double.IsNaN(morning.Grams))
            .Select(morning => new WeighingRow(
                Guid.NewGuid(), Code, null, "Etc/UTC", morning.Day, (long)Math.Round(morning.Grams * 1000), null, null, Verdict.Accepted, [], null, null, Origin.Imported, "history", null));
        return new Ledger([new Chick(Code, species, today.AddDays(-age))], rows, []);
    }
}
