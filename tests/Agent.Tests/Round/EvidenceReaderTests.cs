using System.Text;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol.Scales;
using CaptureAgent.Store;
using CsCheck;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

public sealed class EvidenceReaderTests
{
    private static string Text(Evidence evidence) => Encoding.UTF8.GetString(evidence.Samples.Span);

    private static Evidence Of(string format, string text) => new(format, Encoding.UTF8.GetBytes(text));

    private static string Again(RecordedPlacing recorded) =>
        Text(EvidenceText.Of(recorded.Placing, new Measured(0, 0, recorded.Placing.Tare, recorded.Division)));

    [Fact]
    public void What_was_written_is_read_and_written_again_to_the_letter()
    {
        WeighingEvent[] weighings =
        [
            new Scene().Towel().Scan("AM-0147").Chick(186.4).TheWeighing,
            new Scene().Towel().Chick(58.7, 3, noise: 0.15).Scan("CN-0321").Hold(6, 66.9, 0.15).TheWeighing,
            new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Lift(194.6).TheWeighing,
            new Scene().Towel().Chick(186.4, 9).Lift(194.6, rest: 1).Scan("AM-0147").TheWeighing,
            new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Link(LinkChange.Down).Link(LinkChange.Up).Hold(9, 194.6, 0.4).TheWeighing,
        ];
        Assert.All(weighings, weighing => Assert.Equal(Text(weighing.Evidence!), Again(EvidenceReader.Read(weighing.Evidence!))));
        Assert.Contains(weighings, weighing => Text(weighing.Evidence!).Contains("\ngap\n", StringComparison.Ordinal));
        Assert.Contains(weighings, weighing => Text(weighing.Evidence!).Contains(" judged=", StringComparison.Ordinal));
    }

    [Fact]
    public void Readings_and_knowledge_come_back_exactly()
    {
        var weighing = new Scene().Towel().Scan("AM-0147").Chick(186.4).TheWeighing;
        var placing = EvidenceReader.Read(weighing.Evidence!).Placing;
        Assert.Equal(weighing.TareGrams, Math.Round((decimal)placing.Tare!.Grams, 3));
        Assert.Equal(placing.Tare.Grams, placing.Zero);
        Assert.InRange(placing.Expected!.Value.Grams, 180, 195);
        Assert.True(placing.CodedSeconds > placing.Seconds);
        var seconds = new DateTimeOffset(2026, 3, 2, 5, 40, 0, TimeSpan.Zero).UtcTicks / (double)TimeSpan.TicksPerSecond;
        Assert.All(placing.Samples, sample => Assert.InRange(sample.Seconds - seconds, 0, 60));
    }

    [Fact]
    public void Any_readings_survive() =>
        Gen.Select(Gen.Double[0, 3], Gen.Decimal[-9999, 9999], Gen.Enum<LoadRange>(), Gen.Enum<Stability>(), Gen.Enum<WeightMark>(), Gen.Bool).List[1, 40].Sample(steps =>
        {
            // Moments as the station has them: whole ticks.
            var at = 63_900_000_000.0;
            var samples = steps.Select(step => new PanSample(
                at += Math.Round(step.Item1, 3), step.Item3 == LoadRange.Within ? Math.Round(step.Item2, 4) : 0, step.Item3, step.Item4, step.Item5, step.Item6)).ToList();
            var placing = new Placing(samples[0].Seconds, new Rest(samples[0].Seconds, 8.25, 0.031, true), samples);
            var read = EvidenceReader.Read(EvidenceText.Of(placing, new Measured(1, 1, placing.Tare, 0.1)));
            Assert.Equal(samples, read.Placing.Samples);
        });

    [Fact]
    public void The_first_layout_is_still_read()
    {
        var recorded = EvidenceReader.Read(Of("samples/1",
            "samples/1 from=63900000000.000 placed=1.500 division=0.1 tare=8.2000 tareUncertainty=0.0250 linkLost=1 overflow=0\n" +
            "0.500 8.2 SG\n1.000 8.3 SG\n1.400 8.2 SG\n1.500 95.1 UG\n1.600 + U\n1.700 194.6 \n"));
        var placing = recorded.Placing;
        Assert.Equal(("samples/1", 0.1, 6, true), (recorded.Format, recorded.Division, placing.Samples.Count, placing.LinkLost));
        Assert.Equal((8.2, 8.2, 0.025), (placing.Tare!.Grams, placing.Zero, placing.Context.TareUncertainty));
        Assert.Equal(0.0577, placing.Context.StillDeviation, 4);
        Assert.Equal(LoadRange.Overload, placing.Samples[4].Range);
        Assert.Null(placing.Expected);
    }

    [Theory]
    [InlineData("samples/3", "samples/3 from=0", "newer version")]
    [InlineData("samples/2", "samples/1 from=0", "must begin with 'samples/2'")]
    [InlineData("samples/2", "samples/2 placed=1 division=0.1 overflow=0", "no 'from'")]
    [InlineData("samples/2", "samples/2 from=x placed=1", "from is 'x'; it must be a number")]
    [InlineData("samples/2", "samples/2 from=0 from=1", "each key once")]
    [InlineData("samples/2", "samples/2 from=0 placed=1 division=0.1 overflow=0\n0.1 8,2 SG\n", "line 2 is '0.1 8,2 SG'")]
    [InlineData("samples/2", "samples/2 from=0 placed=1 division=0.1 overflow=0\n0.1 8.2 SG\n0.2 8.2 XY\n", "line 3")]
    [InlineData("samples/2", "samples/2 from=0 placed=1 division=0.1 overflow=0\n\n0.2 8.2 S\n", "line 2 is empty")]
    public void What_cannot_be_read_is_said_with_its_line(string format, string text, string problem) =>
        Assert.Contains(problem, Assert.Throws<EvidenceException>(() => EvidenceReader.Read(Of(format, text))).Message, StringComparison.Ordinal);
}
