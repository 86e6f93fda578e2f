using System.Text;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

public sealed class EvidenceTextTests
{
    [Fact]
    public void The_evidence_holds_every_reading_from_before_the_load_until_the_decision()
    {
        var weighing = new Scene().Towel().Scan("AM-0147").Chick(186.4).TheWeighing;
        Assert.Equal(EvidenceText.Format, weighing.Evidence!.Format);
        var lines = Encoding.UTF8.GetString(weighing.Evidence.Samples.Span).TrimEnd().Split('\n');
        Assert.StartsWith("samples/2 from=", lines[0], StringComparison.Ordinal);
        Assert.Contains("tare=8.2", lines[0], StringComparison.Ordinal);
        Assert.Contains(lines, line => line.EndsWith(" 8.2 SG", StringComparison.Ordinal));
        Assert.InRange(lines.Length, 80, 200);
        Assert.Contains(lines, line => line.EndsWith("UG", StringComparison.Ordinal));
    }

    [Fact]
    public void A_refused_placing_keeps_its_evidence_too()
    {
        var weighing = new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Lift(194.6).TheWeighing;
        Assert.Equal("rejected", weighing.Verdict);
        Assert.True(weighing.Evidence!.Samples.Length > 500);
    }

    [Fact]
    public void The_same_morning_gives_the_same_ids()
    {
        static Guid[] Ids() => [.. new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6).Scan("!FED").Hold(1, 8.2).Scan("GR-0096").Hold(1, 8.2)
            .Events.OfType<DecisionEvent>().Select(decision => decision.Id)];
        Assert.Equal(Ids(), Ids());
        Assert.Equal(3, Ids().Distinct().Count());
    }
}
