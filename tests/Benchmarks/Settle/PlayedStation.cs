using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Simulators.Instruments.Encoders;
using CaptureAgent.Simulators.Physics.Placings;
using CaptureAgent.Simulators.Physics.Scales;
using CaptureAgent.Store;
using Placing = CaptureAgent.Simulators.Physics.Placings.Placing;

namespace CaptureAgent.Benchmarks.Settle;

/// <summary>One placing played to the real core as a recorded trace: lines of a scale, one code of a scanner, one chick with three mornings' weights.</summary>
internal static class PlayedStation
{
    public const string Chick = "CH-0001";
    private const string Scale = "scale";
    private const string Scanner = "scanner";
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    /// <summary>All that the station decided, in order; moments are seconds of the script.</summary>
    public static (IReadOnlyList<WeighingEvent> Weighings, IReadOnlyList<TareEvent> Tares) Play(Placing placing, IReadOnlyList<Delivered> readings)
    {
        var events = Events(placing, readings);
        return ([.. events.OfType<WeighingEvent>()], [.. events.OfType<TareEvent>()]);
    }

    /// <summary>Everything that the station told, in order.</summary>
    /// <param name="motions">What is known of how the chick, and the nursery's others, moved on earlier mornings; null: nothing.</param>
    /// <param name="newSettler">By what it is weighed; null: as the station does.</param>
    public static IReadOnlyList<StationEvent> Events(
        Placing placing, IReadOnlyList<Delivered> readings, MotionMemory? motions = null, Func<ISettler>? newSettler = null)
    {
        // Scales without a stability mark speak a dialect that has none.
        IScaleEncoder encoder = placing.Scale.Flag == FlagConduct.Absent ? new SignValue() : new HeaderComma();
        var core = new StationCore(Options(placing, encoder), Known(placing.ExpectedGrams, motions), newSettler);
        List<StationEvent> events = [];
        var code = placing.CodeAt ?? double.PositiveInfinity;
        for (var next = 0; next < readings.Count;)
        {
            var at = readings[next].ArrivesAt;
            if (code <= at)
            {
                core.Accept(new(Moment(code), Scanner, Encoding.ASCII.GetBytes(Chick + "\r")), events);
                code = double.PositiveInfinity;
            }

            // What a link held back comes in one piece.
            var lump = new StringBuilder();
            for (; next < readings.Count && readings[next].ArrivesAt == at; next++)
                lump.Append(encoder.Encode(readings[next].Sample));
            core.Accept(new(Moment(at), Scale, Encoding.ASCII.GetBytes(lump.ToString())), events);
        }

        core.Expire(Moment(placing.Seconds + 5), events);
        return events;
    }

    public static double Seconds(StationEvent told) => (told.At - Start).TotalSeconds;

    private static DateTimeOffset Moment(double seconds) => Start.AddSeconds(seconds);

    private static StationOptions Options(Placing placing, IScaleEncoder encoder) => new()
    {
        Devices =
        [
            new()
            {
                Id = Scale,
                Role = "scale",
                Dialect = encoder is SignValue ? "sign-value" : "header-comma",
                DivisionGrams = placing.Scale.DivisionGrams,
                CapacityGrams = (decimal)Math.Round(placing.Scale.CapacityGrams),
            },
            new() { Id = Scanner, Role = "scanner", Dialect = "line" },
        ],
    };

    // Five per cent a day up to what is expected today.
    private static Ledger Known(double expectedGrams, MotionMemory? motions) => new(
        [new Chick(Chick, null, new DateOnly(2026, 2, 10))],
        [.. Enumerable.Range(1, 3).Select(days => Weighed(DateOnly.FromDateTime(Start.Date).AddDays(-days), expectedGrams / Math.Pow(1.05, days))).Reverse()],
        [])
    {
        Motions = motions ?? new MotionMemory([]),
    };

    private static WeighingRow Weighed(DateOnly day, double grams) => new(
        Guid.NewGuid(), Chick, null, "Etc/UTC", day, (long)Math.Round(grams * 1000), null, null, Verdict.Accepted, [], null, null, Origin.Imported, "history", null);

    /// <summary>One line for a list.</summary>
    public static string Describe(IReadOnlyList<WeighingEvent> weighings, IReadOnlyList<TareEvent> tares)
    {
        var said = weighings.Select(told => string.Create(CultureInfo.InvariantCulture,
            $"{told.Verdict} {told.Grams} g u {told.UncertaintyGrams} at {Seconds(told):0.0} s, tare {told.TareGrams} [{string.Join(", ", told.Reasons)}]"));
        var tared = tares.Select(told => string.Create(CultureInfo.InvariantCulture, $"{told.Grams:0.0}@{Seconds(told):0.0}"));
        return $"{(weighings.Count == 0 ? "nothing" : string.Join("; ", said))}; tares {string.Join(' ', tared)}";
    }
}
