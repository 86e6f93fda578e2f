using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Probes;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>A station with one simulated probe, whose lines go through the whole core.</summary>
internal sealed class ProbeStation
{
    public static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly StationCore core = new(
        new StationOptions
        {
            Devices =
            [
                new DeviceOptions { Id = "probe", Role = "probe", Dialect = "text" },
                new DeviceOptions { Id = "scanner", Role = "scanner", Dialect = "line" },
            ],
        },
        new Ledger([], [], []));

    private readonly LaggingProbe probe;
    private readonly double interval;
    private readonly List<StationEvent> events = [];
    private double next;

    public ProbeStation(LaggingProbe probe, double perSecond, SeededRandom random)
    {
        this.probe = probe;
        interval = 1 / perSecond;
        next = random.Between(0, interval);
    }

    public double Now { get; private set; }

    public IReadOnlyList<StationEvent> Events => events;

    /// <summary>Every reading: seconds, and what was shown.</summary>
    public List<(double Seconds, double Celsius)> Readings { get; } = [];

    /// <summary>Lets so much time pass, with a line for every reading.</summary>
    public void Pass(double seconds, Func<bool>? until = null)
    {
        var end = Now + seconds;
        while (next <= end && until?.Invoke() != true)
        {
            var shown = probe.ReadAt(next);
            Readings.Add((next, (double)shown));
            core.Accept(new TraceRecord(At(next), "probe", Encoding.ASCII.GetBytes(shown.ToString("0.0##", CultureInfo.InvariantCulture) + " C\r\n")), events);
            Now = next;
            next += interval;
        }

        if (until is null || Now > end)
            Now = end;
        probe.GoOnTo(Now);
    }

    public void Dip(Bowl bowl, double warmer = 0)
    {
        probe.Take(bowl);
        probe.DipAt(Now, warmer);
    }

    public void Link(LinkChange change) => core.Accept(new TraceRecord(At(Now), "probe", Link: change), events);

    public void Scan(string code) => core.Accept(new TraceRecord(At(Now), "scanner", Encoding.ASCII.GetBytes(code + "\r")), events);

    public static DateTimeOffset At(double seconds) => Start.AddMilliseconds(Math.Round(seconds * 1000));

    public static double Seconds(DateTimeOffset at) => (at - Start).TotalSeconds;
}
