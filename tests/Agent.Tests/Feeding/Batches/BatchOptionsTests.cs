using CaptureAgent.Agent.Configuration;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding.Batches;

/// <summary>The defaults against what is published.</summary>
public sealed class BatchOptionsTests
{
    private static readonly BatchOptions Defaults = new();

    [Fact]
    public void The_band_holds_what_two_publications_feed_at()
    {
        // Stanley, Lorikeets, in Duerr and Gage (editors), Hand-Rearing Birds, 2nd edition, 2020, p. 616: 38 to 40.5 °C (100 to 105 °F).
        Assert.InRange(38m, Defaults.LowCelsius, Defaults.HighCelsius);
        Assert.InRange(40.5m, Defaults.LowCelsius, Defaults.HighCelsius);

        // Superb Parrot husbandry manual, Western Sydney TAFE, 11.8: about 40 °C.
        Assert.Equal(40, Defaults.TargetCelsius);
    }

    [Fact]
    public void The_stop_line_keeps_clear_of_what_burns()
    {
        // Rivera, Pediatric avian medicine: traumatic conditions, 2008: above 43.3 °C (110 °F) crops burn.
        Assert.Equal(43.3, (110 - 32) / 1.8, 0.05);
        Assert.True(Defaults.StopCelsius <= 43.3m - 0.5m - 0.3m);
    }

    [Fact]
    public void The_hard_stop_is_that_of_powdered_infant_formula()
    {
        // WHO and FAO, Safe preparation, storage and handling of powdered infant formula, 2007: within two hours. The twenty minutes: common practice, no source.
        var book = new RuleBook();
        BatchOptionRules.Check(new BatchOptions { DiscardMinutes = 120 }, book);
        Assert.Empty(book.Faults);
        BatchOptionRules.Check(new BatchOptions { DiscardMinutes = 121 }, book);
        Assert.Equal("feeding.batch.discardMinutes", Assert.Single(book.Faults).Path);
        Assert.Equal(20, Defaults.DiscardMinutes);
    }

    [Fact]
    public void All_faults_of_a_batch_are_named_at_once()
    {
        var book = new RuleBook();
        BatchOptionRules.Check(new BatchOptions { LowCelsius = 42, HighCelsius = 41, StopCelsius = 45, WarningMinutes = 30, Show = "K" }, book);
        Assert.Equal(
            ["feeding.batch.highCelsius", "feeding.batch.show", "feeding.batch.stopCelsius", "feeding.batch.targetCelsius", "feeding.batch.warningMinutes"],
            book.Faults.Select(fault => fault.Path).Order(StringComparer.Ordinal));
    }
}
