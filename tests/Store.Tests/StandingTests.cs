using Xunit;

namespace CaptureAgent.Store.Tests;

public sealed class StandingTests : IDisposable
{
    private readonly StoreFolder folder = new();
    private readonly CaptureStore store;

    public StandingTests() => store = CaptureStore.Open(":memory:", folder.Time);

    public void Dispose()
    {
        store.Dispose();
        folder.Dispose();
    }

    [Fact]
    public void Every_field_comes_back()
    {
        var accepted = Rows.Accepted("AM-0147", 186.412m) with { Written = new(1, 2, 0) };
        var rejected = Rows.Rejected(null, null, "no-code", "unsettled");
        store.Add(accepted, null);
        store.Add(rejected, null);
        Assert.Equal([Rows.Text(accepted), Rows.Text(rejected)], Rows.Texts(store.Weighings()));

        var feed = Rows.Feed("AM-0147") with { Batch = null, BatchState = null };
        store.Add(feed);
        Assert.Equal(feed, Assert.Single(store.Feeds(feed.At)));
        Assert.Empty(store.Feeds(feed.At.AddMicroseconds(1)));
    }

    [Fact]
    public void A_replaced_row_stays_out_of_the_record_and_in_the_store()
    {
        var first = Rows.Accepted("AM-0147", 186.4m);
        var second = Rows.Accepted("AM-0147", 187.0m, replaces: first.Id);
        store.Add(first, null);
        store.Add(second, null);
        Assert.Equal(second.Id, Assert.Single(store.Weighings()).Id);
        Assert.Equal([WeighingState.Replaced, WeighingState.Stands], store.AllWeighings().Select(stored => stored.State));
    }

    [Fact]
    public void Taking_back_a_replacement_lets_the_first_row_stand_again()
    {
        var first = Rows.Accepted("AM-0147", 186.4m);
        var second = Rows.Accepted("AM-0147", 187.0m, replaces: first.Id);
        store.Add(first, null);
        store.Add(second, null);
        store.Add(Rows.Undo(second.Id));
        Assert.Equal(first.Id, Assert.Single(store.Weighings()).Id);
        Assert.Equal([WeighingState.Stands, WeighingState.TakenBack], store.AllWeighings().Select(stored => stored.State));
    }

    [Fact]
    public void A_feed_taken_back_stands_no_more()
    {
        var (first, second) = (Rows.Feed("AM-0147", "05:50"), Rows.Feed("AM-0147", "05:40"));
        store.Add(first);
        store.Add(second);
        store.Add(first);
        Assert.Equal([second, first], store.Feeds(DateTimeOffset.MinValue));
        var undo = Rows.Undo(first.Id);
        store.Add(undo);
        store.Add(undo);
        Assert.Equal([second], store.Feeds(DateTimeOffset.MinValue));
    }

    [Fact]
    public void Rows_are_found_by_chick_day_and_verdict()
    {
        var (early, late) = (Rows.Monday.AddDays(-1), Rows.Monday.AddDays(1));
        store.Add(Rows.Accepted("AM-0147", 3, late), null);
        store.Add(Rows.Accepted("AM-0147", 1, early), null);
        store.Add(Rows.Accepted("CN-0321", 2), null);
        store.Add(Rows.Rejected("CN-0321", 4, "already-weighed"), null);

        decimal?[] Grams(IEnumerable<WeighingRow> rows) => [.. rows.Select(row => row.Milligrams / 1000m)];
        Assert.Equal([1, 2, 4, 3], Grams(store.Weighings()));
        Assert.Equal([1, 3], Grams(store.Weighings("AM-0147")));
        Assert.Equal([2, 4], Grams(store.Weighings(from: Rows.Monday, to: Rows.Monday)));
        Assert.Equal([2, 3], Grams(store.Weighings(from: Rows.Monday, verdict: Verdict.Accepted)));
        Assert.Equal([1], Grams(store.Weighings("AM-0147", to: Rows.Monday)));
    }

    [Fact]
    public void A_change_of_the_register_is_a_new_row()
    {
        Chick first = new("AM-0147", "amazon", new(2026, 2, 6)), second = first with { Band = "978123", Note = "" };
        store.Register(first);
        folder.Time.Advance(TimeSpan.FromHours(1));
        store.Register(second);
        store.Register(second);
        store.Register(new("AA-0001", null, null, "c", "b", null, new(2026, 3, 1), "left"));
        Assert.Equal(["AA-0001", "AM-0147"], store.Chicks().Select(chick => chick.Code));
        Assert.Equal([new(first, folder.Time.Start), new ChickVersion(second, folder.Time.Start.AddHours(1))], store.ChickVersions("AM-0147"));
    }

    [Fact]
    public void Who_left_before_a_day_is_left_out_by_the_newest_row()
    {
        Chick stays = new("AM-0147", null, null), leaves = stays with { Code = "CN-0321", Left = new(2026, 3, 1) }, returns = leaves with { Code = "GR-0096" };
        foreach (var chick in (Chick[])[stays, leaves, returns, returns with { Left = null }])
            store.Register(chick);

        Assert.Equal(["AM-0147", "CN-0321", "GR-0096"], store.ChicksNotLeftBefore(new(2026, 3, 1)).Select(chick => chick.Code));
        Assert.Equal(["AM-0147", "GR-0096"], store.ChicksNotLeftBefore(new(2026, 3, 2)).Select(chick => chick.Code));
    }
}
