using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Tests.Feeding.Batches;

/// <summary>A feeding bench played to the core: probes with a first-order lag, what they are in, cards and codes. A reading every half second.</summary>
internal sealed class Bench
{
    private static readonly DateTimeOffset Usual = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly DateTimeOffset start;
    private readonly StationCore core;
    private readonly List<StationEvent> events = [];
    private readonly List<TraceRecord> trace = [];
    private readonly Dictionary<string, Tip> tips = new(StringComparer.Ordinal);

    public Bench(Action<StationOptions>? configure = null, Ledger? ledger = null, DateTimeOffset? from = null)
    {
        Now = start = from ?? Usual;
        var options = new StationOptions
        {
            Devices =
            [
                new DeviceOptions { Id = "probe", Role = "probe", Dialect = "text" },
                new DeviceOptions { Id = "scanner", Role = "scanner", Dialect = "line" },
            ],
        };
        configure?.Invoke(options);
        core = new StationCore(options, ledger ?? new Ledger([new Chick("AM-0147", "amazon", new DateOnly(2026, 2, 6))], [], []));
        foreach (var device in options.Devices.Where(device => device.Role == "probe"))
            tips[device.Id] = new Tip();
    }

    public DateTimeOffset Now { get; private set; }

    public decimal Resolution { get; set; } = 0.1m;

    /// <summary>What stands in front of the number and its unit: another unit is another number.</summary>
    public bool Fahrenheit { get; set; }

    public IReadOnlyList<StationEvent> Events => events;

    public IReadOnlyList<TraceRecord> Trace => trace;

    public IReadOnlyList<BatchEvent> Batches => [.. events.OfType<BatchEvent>()];

    /// <summary>States as they followed one another, forecasts left out.</summary>
    public IReadOnlyList<string> States => [.. events.OfType<BatchEvent>().Where(told => told.StateChanged).Select(told => told.State)];

    public IEnumerable<string> Alerts => events.OfType<AlertEvent>().Select(alert => alert.Alert);

    public string State => Batches[^1].State;

    /// <summary>Into something of a temperature that cools by so much a second.</summary>
    public Bench Dip(double celsius, double lag = 5, string probe = "probe", double coolsBy = 0.004)
    {
        (tips[probe].Around, tips[probe].Lag, tips[probe].Cools) = (celsius, lag, coolsBy);
        return this;
    }

    public Bench Out(double room = 23, double lag = 25, string probe = "probe") => Dip(room, lag, probe, 0);

    public Bench Pass(double seconds)
    {
        for (var i = 0; i < Math.Round(seconds * 2); i++)
        {
            Now = Now.AddSeconds(0.5);
            foreach (var (id, tip) in tips)
            {
                if (tip.Silent)
                    continue;
                tip.Go(0.5);
                var shown = Math.Round((decimal)(Fahrenheit ? (tip.Celsius * 9 / 5) + 32 : tip.Celsius) / Resolution) * Resolution;
                Take(new TraceRecord(Now, id, Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{shown:0.0} C\r\n"))));
            }
        }

        return this;
    }

    /// <summary>Nothing is sent any more, and nobody says so.</summary>
    public Bench Mute(string probe = "probe", bool silent = true)
    {
        tips[probe].Silent = silent;
        return this;
    }

    public Bench Link(LinkChange change, string probe = "probe")
    {
        Take(new TraceRecord(Now, probe, Link: change));
        return this;
    }

    public Bench Scan(string code)
    {
        Take(new TraceRecord(Now, "scanner", Encoding.ASCII.GetBytes(code + "\r")));
        return this;
    }

    public Bench Wait(double seconds)
    {
        Now = Now.AddSeconds(seconds);
        core.Expire(Now, events);
        return this;
    }

    /// <summary>The station's clock steps ahead: nothing fires before the next record.</summary>
    public Bench Jump(TimeSpan by)
    {
        Now += by;
        return this;
    }

    public double SecondsOf(StationEvent told) => (told.At - start).TotalSeconds;

    private void Take(TraceRecord record)
    {
        trace.Add(record);
        core.Accept(record, events);
    }

    private sealed class Tip
    {
        public double Around { get; set; } = 23;

        public double Lag { get; set; } = 25;

        public double Cools { get; set; }

        public bool Silent { get; set; }

        public double Celsius { get; private set; } = 23;

        public void Go(double seconds)
        {
            Around -= Cools * seconds;
            Celsius += (Around - Celsius) * (1 - Math.Exp(-seconds / Lag));
        }
    }
}
