using Xunit;

namespace CaptureAgent.Store.Tests;

public sealed class AdoptionTests : IDisposable
{
    private static readonly Chick Chick = new("AM-0147", "amazon", new(2026, 2, 6));
    private readonly StoreFolder folder = new();
    private readonly CaptureStore store;

    public AdoptionTests() => store = CaptureStore.Open(":memory:", folder.Time);

    public void Dispose()
    {
        store.Dispose();
        folder.Dispose();
    }

    [Fact]
    public void The_first_weighing_of_each_day_from_before_the_registration_counts()
    {
        var first = Rows.Rejected("AM-0147", 186.412m, "unknown-chick");
        var second = Rows.Rejected("AM-0147", 187m, "unknown-chick") with { At = Rows.At("06:00") };
        var before = Rows.Rejected("AM-0147", 180m, "unknown-chick") with { Day = Rows.Monday.AddDays(-1), At = Rows.At("05:00").AddDays(-1) };
        store.Add(second, null);
        store.Add(first, new("samples-1", new byte[] { 7 }));
        store.Add(before, null);

        Assert.Equal(2, store.Register(Chick));
        var adopted = store.Weighings(verdict: Verdict.Accepted);
        Assert.Equal([before.Id, first.Id], adopted.Select(row => row.Replaces!.Value));
        Assert.Equal([180_000, 186_412], adopted.Select(row => row.Milligrams!.Value));
        Assert.Equal([23, 24], adopted.Select(row => row.AgeDays!.Value));
        Assert.All(adopted, row => Assert.Equal((Origin.Adopted, null, 0), (row.Origin, row.Remedy, row.Reasons.Count)));
        Assert.Equal([7], store.EvidenceOf(adopted[1].Id)!.Samples.ToArray());
        Assert.Equal([second.Id], store.Weighings(verdict: Verdict.Rejected).Select(row => row.Id));
    }

    [Fact]
    public void A_code_refused_although_registered_is_adopted_when_the_register_comes_again()
    {
        Assert.Equal(0, store.Register(Chick));
        store.Add(Rows.Rejected("AM-0147", 186.4m, "unknown-chick"), null);
        Assert.Equal(1, store.Register(Chick));
        Assert.Single(store.ChickVersions("AM-0147"));
        Assert.Equal(0, store.Register(Chick));
    }

    [Fact]
    public void A_day_that_has_an_accepted_weight_adopts_none()
    {
        store.Add(Rows.Rejected("AM-0147", 186.4m, "unknown-chick"), null);
        store.Add(Rows.Accepted("AM-0147", 186.5m), null);
        Assert.Equal(0, store.Register(Chick));
    }

    [Theory]
    [InlineData("unknown-chick;unsettled", 186.4)]
    [InlineData("unsettled", 186.4)]
    [InlineData("unknown-chick", -3)]
    public void What_was_refused_for_more_than_the_register_stays_refused(string reasons, double grams)
    {
        store.Add(Rows.Rejected("AM-0147", (decimal)grams, reasons.Split(';')), null);
        Assert.Equal(0, store.Register(Chick));
        Assert.Single(store.AllWeighings());
    }

    [Fact]
    public void A_weighing_from_before_the_hatching_is_not_adopted()
    {
        store.Add(Rows.Rejected("AM-0147", 186.4m, "unknown-chick"), null);
        Assert.Equal(0, store.Register(Chick with { Hatched = Rows.Monday.AddDays(1) }));
        Assert.Equal(1, store.Register(Chick));
    }

    [Fact]
    public void An_adoption_that_was_taken_back_is_not_made_again()
    {
        store.Add(Rows.Rejected("AM-0147", 186.4m, "unknown-chick"), null);
        store.Add(Rows.Rejected("AM-0147", 187m, "unknown-chick"), null);
        store.Register(Chick);
        store.Add(Rows.Undo(Assert.Single(store.Weighings(verdict: Verdict.Accepted)).Id));
        Assert.Equal(0, store.Register(Chick with { Note = "changed" }));
        Assert.Empty(store.Weighings(verdict: Verdict.Accepted));
    }
}
