using System.Text;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Simulators.Instruments.Encoders;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Placings;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Benchmarks.Rounds;

/// <summary>The trace of a long round: chick after chick that sleeps, walks or flaps, on a scale that sends ten lines a second, with a probe beside it.</summary>
internal sealed class GeneratedRound
{
    private const ulong Seed = 20260302;

    private static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private static readonly string[] Families = ["sleeper", "calm", "restless", "flapper", "hatchling", "macaw that flaps", "soiled liner"];

    private readonly HeaderComma encoder = new();

    public int Placings { get; private set; }

    public int Records { get; private set; }

    /// <summary>Seconds of trace.</summary>
    public double Seconds { get; private set; }

    /// <summary>Writes placings until the round is at least so long; each is of the next chick.</summary>
    public static GeneratedRound Write(string path, double seconds)
    {
        var round = new GeneratedRound();
        var random = new SeededRandom(Seed);
        var families = PlacingFamilies.All.Where(family => Families.Contains(family.Name)).ToArray();
        using var writer = TraceWriter.Create(path);
        while (round.Seconds < seconds)
        {
            var family = families[round.Placings % families.Length];
            var draft = family.Write(random.Fork());
            draft.Scale = new ScaleSpecification { GainError = 0.0002, DriftGramsPerMinute = 0.01 };
            round.Add(writer, draft.Build(family.Name, random.NextUInt64(), mustRecord: true, mayRecord: true));
            writer.Flush();
        }

        return round;
    }

    private void Add(TraceWriter writer, Placing placing)
    {
        List<(double At, string Device, string Text)> records = [(placing.CodeAt ?? 1, "scanner", RoundFiles.Code(Placings) + "\r")];
        records.AddRange(placing.Readings().Select(read => (read.ArrivesAt, "scale", encoder.Encode(read.Sample))));
        for (var second = 0.5; second < placing.Seconds; second++)
            records.Add((second, "probe", TextProbe.Encode(39 + ((int)second % 5 / 10m))));

        foreach (var (at, device, text) in records.OrderBy(record => record.At))
            writer.Write(new TraceRecord(Moment(Seconds + at), device, Encoding.Latin1.GetBytes(text)));
        Placings++;
        Records += records.Count;
        // A script's last step may end a little after its time.
        Seconds += Math.Max(placing.Seconds, records.Max(record => record.At) + 0.001);
    }

    private static DateTimeOffset Moment(double seconds) => Start.AddMilliseconds(Math.Round(seconds * 1000));
}
