using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>A morning played to the core: what lies on the pan, second by second, as lines of a scale at ten a second, and what is scanned.</summary>
internal sealed class Scene
{
    private readonly StationCore core;
    private readonly Random random = new(7);
    private readonly List<StationEvent> events = [];
    private readonly List<TraceRecord> trace = [];
    private double carry;

    public Scene(Action<StationOptions>? configure = null, Ledger? ledger = null, string dialect = "header-comma")
    {
        var options = new StationOptions
        {
            Devices =
            [
                new DeviceOptions { Id = "scale", Role = "scale", Dialect = dialect, DivisionGrams = 0.1m, CapacityGrams = 3000 },
                new DeviceOptions { Id = "scanner", Role = "scanner", Dialect = "line" },
            ],
        };
        configure?.Invoke(options);
        core = new StationCore(options, ledger ?? Nursery());
    }

    public DateTimeOffset Now { get; set; } = new(2026, 3, 2, 5, 40, 0, TimeSpan.Zero);

    /// <summary>How a line is written: grams in, text with its ending out.</summary>
    public Func<double, bool, string> Line { get; set; } = HeaderComma;

    public IReadOnlyList<StationEvent> Events => events;

    /// <summary>What was played so far.</summary>
    public IReadOnlyList<TraceRecord> Trace => trace;

    public IReadOnlyList<WeighingEvent> Weighings => [.. events.OfType<WeighingEvent>()];

    /// <summary>The weighing that the scene ended in: exactly one.</summary>
    public WeighingEvent TheWeighing => Assert.Single(Weighings);

    public static Ledger Nursery(params (string Code, string Date, decimal Grams)[] more) => new(
        [
            new Chick("AM-0147", "amazon", new DateOnly(2026, 2, 6)),
            new Chick("CN-0321", "conure", new DateOnly(2026, 2, 12)),
            new Chick("GR-0096", "grey", new DateOnly(2026, 2, 1)),
            new Chick("LB-0008", "Rosy-faced lovebird", new DateOnly(2026, 2, 25)),
            new Chick("XX-0001", null, new DateOnly(2026, 2, 10)),
        ],
        (((string Code, string Date, decimal Grams)[])
        [
            ("AM-0147", "2026-02-28", 168.9m), ("AM-0147", "2026-03-01", 177.5m),
            ("CN-0321", "2026-02-28", 52.1m), ("CN-0321", "2026-03-01", 55.4m),
            ("GR-0096", "2026-02-28", 284.0m), ("GR-0096", "2026-03-01", 297.8m),
            .. more,
        ]).Select(row => new WeighingRow(
            Guid.NewGuid(), row.Code, null, "Etc/UTC", DateOnly.Parse(row.Date, CultureInfo.InvariantCulture), (long)(row.Grams * 1000), null, null,
            Verdict.Accepted, [], null, null, Origin.Imported, "test", null)),
        []);

    /// <summary>So much lies on the pan for so long; the noise is the standard deviation of an animal's motion, which takes back what it gave.</summary>
    public Scene Hold(double seconds, double grams, double noise = 0)
    {
        for (var i = 0; i < Math.Round(seconds * 10); i++)
        {
            // A bounded motion: the force is the difference of a momentum, so that its mean over time is nothing.
            var momentum = noise * random.NextNormal();
            Send(grams + momentum - carry, noise > 0.2);
            carry = momentum;
        }

        carry = 0;
        return this;
    }

    /// <summary>A fan's hum that beats with the readings: half a cycle a second.</summary>
    public Scene Swing(double seconds, double grams, double amplitude)
    {
        for (var i = 0; i < Math.Round(seconds * 10); i++)
            Send(grams + amplitude * Math.Sin(Math.PI * i / 10), true);
        return this;
    }

    public Scene Ramp(double seconds, double from, double to)
    {
        var n = (int)Math.Round(seconds * 10);
        for (var i = 1; i <= n; i++)
            Send(from + (to - from) * i / n, true);
        return this;
    }

    /// <summary>Bare pan, then a towel of 8.2 g at rest.</summary>
    public Scene Towel(double grams = 8.2, double seconds = 4) => Hold(2, 0).Ramp(0.4, 0, grams).Hold(seconds, grams);

    /// <summary>A chick on the liner: lowered, a hand on it for a while, let go, there for so long.</summary>
    public Scene Chick(double grams, double seconds = 9, double tare = 8.2, double hand = 1.2, double noise = 0.4)
    {
        Ramp(0.6, tare, tare + 1.05 * grams);
        Hold(hand, tare + 0.85 * grams, 0.8);
        Ramp(0.2, tare + 0.85 * grams, tare + grams);
        return Hold(seconds, tare + grams, noise);
    }

    public Scene Lift(double from, double tare = 8.2, double rest = 2) => Ramp(0.4, from, tare).Hold(rest, tare);

    public Scene Scan(string code)
    {
        Take(new TraceRecord(Now, "scanner", Encoding.Latin1.GetBytes(code + "\r")));
        return this;
    }

    public Scene Link(LinkChange change)
    {
        Take(new TraceRecord(Now, "scale", Link: change));
        return this;
    }

    public Scene Say(string text, double seconds = 0.1)
    {
        Now = Now.AddSeconds(seconds);
        Take(new TraceRecord(Now, "scale", Encoding.Latin1.GetBytes(text)));
        return this;
    }

    public Scene Wait(double seconds)
    {
        Now = Now.AddSeconds(seconds);
        core.Expire(Now, events);
        return this;
    }

    public static string HeaderComma(double grams, bool moving) => string.Create(
        CultureInfo.InvariantCulture, $"{(moving ? "US" : "ST")},GS,{(grams < -0.049 ? '-' : '+')}{Math.Abs(Math.Round(grams, 1)),8:F1}  g\r\n");

    private void Take(TraceRecord record)
    {
        trace.Add(record);
        core.Accept(record, events);
    }

    private void Send(double grams, bool moving) => Say(Line(grams, moving));
}
