using Xunit;

namespace CaptureAgent.Store.Tests;

public sealed class GrowthRecordsTests : IDisposable
{
    private readonly StoreFolder folder = new();
    private readonly CaptureStore store;

    public GrowthRecordsTests() => store = CaptureStore.Open(":memory:", folder.Time);

    public void Dispose()
    {
        store.Dispose();
        folder.Dispose();
    }

    [Fact]
    public void Each_chick_has_its_accepted_weights_that_stand_by_day()
    {
        var first = Rows.Accepted("AM-0148", 200.0m);
        store.Add(first, null);
        store.Add(Rows.Accepted("AM-0147", 186.4m), null);
        store.Add(Rows.Rejected("AM-0147", 300m, "after-feed"), null);
        store.Add(Rows.Rejected(null, 50m, "no-code"), null);
        store.Add(Rows.Accepted("AM-0148", 201.5m, replaces: first.Id), null);
        var early = Rows.Accepted("AM-0148", 190.0m);
        store.Add(early with { Day = early.Day.AddDays(-1) }, null);

        Assert.Equal(["AM-0147: 186400", "AM-0148: 190000 201500"], Told());
    }

    [Fact]
    public void What_was_taken_back_does_not_grow()
    {
        var weighing = Rows.Accepted("AM-0147", 186.4m);
        store.Add(weighing, null);
        store.Add(new UndoRow(Guid.NewGuid(), weighing.At!.Value, "Etc/UTC", weighing.Id, "east-room"));

        Assert.Empty(Told());
    }

    private List<string> Told()
    {
        List<string> told = [];
        store.EachGrowthRecord(record => told.Add($"{record.Chick}: {string.Join(' ', record.Milligrams)}"));
        return told;
    }
}
