using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using Microsoft.Extensions.Logging.Abstractions;

namespace CaptureAgent.Agent.Hosting;

/// <summary>Weighs one chick that there is not, in memory, before the devices are open: what is compiled at first use is compiled then, and the first keeper of the morning does not wait for it.</summary>
/// <remarks>Touches neither the station's store, nor its devices, nor its events.</remarks>
internal static class Rehearsal
{
    private const string Code = "REHEARSAL";

    private const int LinesASecond = 10, LinerAt = 3 * LinesASecond, ChickAt = 9 * LinesASecond, Lines = 30 * LinesASecond;

    /// <returns>Whether the weighing was accepted and stored, as it must be.</returns>
    public static bool Run()
    {
        var options = new StationOptions
        {
            Devices =
            [
                new DeviceOptions { Id = "scale", Role = "scale", Dialect = "header-comma", DivisionGrams = 0.1m },
                new DeviceOptions { Id = "scanner", Role = "scanner", Dialect = "line" },
            ],
        };
        var start = new DateTimeOffset(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);
        using var store = CaptureStore.Open(":memory:", TimeProvider.System);
        store.Register(new Chick(Code, Species: null, Hatched: null));
        var core = new StationCore(options, Ledgers.Read(store, start));
        var recorder = new Recorder(new DecisionStore(store), new DecisionRows(options.Station, options.TimeZone), new StreamEvents(Stream.Null), NullLogger.Instance);
        var events = new List<StationEvent>();
        foreach (var record in Records(start))
        {
            core.Accept(record, events);
            recorder.Take(events, record.At);
            events.Clear();
        }

        return store.Weighings(Code, verdict: Verdict.Accepted).Count == 1;
    }

    private static IEnumerable<TraceRecord> Records(DateTimeOffset start)
    {
        for (var i = 0; i < Lines; i++)
        {
            var at = start.AddSeconds(i / (double)LinesASecond);
            if (i == ChickAt)
                yield return new TraceRecord(at, "scanner", Encoding.ASCII.GetBytes(Code + "\r"));
            // A liner, then a quiet animal on it: the last digit moves.
            var grams = i < LinerAt ? 0m : i < ChickAt ? 10m : 110 + (i * 7 % 5 / 10m);
            yield return new TraceRecord(at, "scale", Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"ST,GS,+{grams,8:F1}  g\r\n")));
        }
    }
}
