using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Rejudging;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Tests.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Rejudging;

/// <summary>The same rule over the stored readings gives what it gave on the day, to the last digit, however the placing went.</summary>
public sealed class EvidenceRunTests
{
    [Theory]
    [InlineData("scanned first")]
    [InlineData("scanned late")]
    [InlineData("named after the lift")]
    [InlineData("lifted too soon")]
    [InlineData("a hand that stays")]
    [InlineData("a gap in the readings")]
    [InlineData("a lost link")]
    [InlineData("a sleeper taken for the liner")]
    [InlineData("a sleeper that is lifted")]
    [InlineData("a hand taken for the liner")]
    [InlineData("a hand found out late")]
    [InlineData("in a hurry")]
    [InlineData("overloaded for a moment")]
    [InlineData("restless for a minute")]
    public void The_day_s_value_comes_out_again(string placing)
    {
        var weighing = Play(placing).Weighings[^1];
        var run = EvidenceRun.Of(EvidenceReader.Read(weighing.Evidence!), StationCore.NewSettler());

        Assert.Equal(weighing.Grams, double.IsNaN(run.Weight.Grams) ? null : Math.Round((decimal)run.Weight.Grams, 3));
        Assert.Equal(weighing.TareGrams, Math.Round((decimal)run.Weight.Tare!.Grams, 3));
        if (weighing.Verdict == "accepted")
            Assert.Equal(SettleState.Settled, run.State);
        else
            Assert.NotEqual(SettleState.Settled, run.State);
    }

    private static Scene Play(string placing)
    {
        var sleeper = Scene.Nursery(("LB-0008", "2026-03-01", 7.6m));
        var known = Scene.Nursery(("LB-0008", "2026-02-27", 6.2m), ("LB-0008", "2026-02-28", 6.8m), ("LB-0008", "2026-03-01", 7.5m));
        return placing switch
        {
            "scanned first" => new Scene().Towel().Scan("AM-0147").Chick(186.4),
            "scanned late" => new Scene().Towel().Chick(186.4, 11).Scan("AM-0147"),
            "named after the lift" => new Scene().Towel().Chick(186.4, 9).Lift(194.6, rest: 1).Scan("AM-0147"),
            "lifted too soon" => new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Lift(194.6),
            "a hand that stays" => new Scene().Towel().Scan("AM-0147").Ramp(0.5, 8.2, 150).Hold(5, 150).Lift(150),
            "a gap in the readings" => new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Wait(4).Hold(12, 194.6, 0.4),
            "a lost link" => new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Link(LinkChange.Down).Wait(3).Link(LinkChange.Up).Hold(12, 194.6, 0.4),
            "a sleeper taken for the liner" => new Scene(ledger: sleeper).Hold(2, 0).Scan("LB-0008").Ramp(0.4, 0, 8.3).Hold(20, 8.3),
            "a sleeper that is lifted" => new Scene(ledger: known).Hold(2, 0).Scan("LB-0008").Ramp(0.4, 0, 8.3).Hold(9.5, 8.3).Ramp(0.3, 8.3, 0).Hold(3, 0),
            "a hand taken for the liner" => new Scene().Hold(3, 0).Scan("AM-0147").Ramp(0.5, 0, 112).Hold(3, 112).Ramp(0.2, 112, 186.4).Hold(20, 186.4, 0.5),
            "a hand found out late" => LinerTests.Carried(),
            "in a hurry" => new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6, rest: 0.2).Scan("CN-0321").Chick(58.7, 12, noise: 0.15),
            "overloaded for a moment" => new Scene().Towel().Scan("AM-0147").Say("OL,GS,+  999999  g\r\n").Say("OL,GS,+  999999  g\r\n").Chick(186.4),
            _ => new Scene().Towel().Scan("AM-0147").Chick(186.4, 60, noise: 25),
        };
    }
}
