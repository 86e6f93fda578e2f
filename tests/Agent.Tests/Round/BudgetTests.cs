using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Rejudging;
using CaptureAgent.Agent.Round;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>What the uncertainty of a weight is made of, as the event tells it.</summary>
public sealed class BudgetTests
{
    [Fact]
    public void The_parts_are_told_and_their_squares_add_up()
    {
        var told = new Scene().Towel().Scan("AM-0147").Chick(186.4).TheWeighing;
        var budget = told.Budget!;
        decimal[] parts = [budget.RepeatabilityGrams, budget.QuantisationGrams, budget.TareGrams, budget.DriftGrams, budget.ScaleGrams];
        Assert.All(parts, part => Assert.True(part >= 0));
        Assert.Equal((double)told.UncertaintyGrams!.Value, Math.Sqrt(parts.Sum(part => (double)(part * part))), 0.002);

        // 0.05 g within the specification, rectangular: 0.029 g.
        Assert.Equal(0.029m, budget.ScaleGrams);
    }

    [Fact]
    public void A_scale_that_drifts_is_less_certain_by_it()
    {
        var scene = new Scene();
        double Zero() => (scene.Now - Start).TotalSeconds * 0.01;
        scene.Hold(2, 0).Ramp(0.4, 0, 8.2);
        Creep(10);
        for (var i = 0; i < 6; i++)
        {
            if (i > 0)
                scene.Scan("!REWEIGH").Hold(0.5, 8.2 + Zero());
            scene.Scan("AM-0147").Hold(0.5, 8.2 + Zero()).Chick(186.4, tare: 8.2 + Zero(), seconds: 10, noise: 0.05).Lift(8.2 + Zero() + 186.4, tare: 8.2 + Zero(), rest: 1);
            Creep(25);
        }

        var budgets = scene.Weighings.Select(told => told.Budget!.DriftGrams).ToList();
        Assert.InRange(budgets[0], 0, 0.005m);
        Assert.InRange(budgets[^1], 0.03m, 0.15m);
        Assert.True(scene.Weighings[^1].UncertaintyGrams > budgets[^1]);

        // A later run of the rule knows what was known then.
        var read = EvidenceReader.Read(scene.Weighings[^1].Evidence!);
        var run = EvidenceRun.Of(read, StationCore.NewSettler());
        Assert.Equal((double)budgets[^1], run.Weight.Drift, 0.0006);

        void Creep(int seconds)
        {
            for (var i = 0; i < seconds; i++)
                scene.Hold(1, 8.2 + Zero());
        }
    }

    private static DateTimeOffset Start => new(2026, 3, 2, 5, 40, 0, TimeSpan.Zero);
}
