using CaptureAgent.Store.Schema;
using Xunit;

namespace CaptureAgent.Store.Tests;

/// <summary>The tare after a weighing: layout 4.</summary>
public sealed class TareAfterTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_note_is_read_back_as_it_was_written_after_reopening()
    {
        var (weighing, other) = (Rows.Accepted("AM-0147", 186.4m), Rows.Rejected("AM-0147", 190, "unsettled"));
        var tare = Rows.TareAfter(weighing.Id);
        var slip = Rows.TareAfter(other.Id, driftFree: null) with { AfterMilligrams = 7000, Slip = true };
        using (var store = folder.Open())
        {
            store.Add(weighing, null);
            store.Add(other, null);
            store.Add(tare);
            store.Add(slip);
            store.Add(tare);
        }

        using var again = folder.Open();
        Assert.Equal(tare, again.TareAfter(weighing.Id));
        Assert.Equal(slip, again.TareAfter(other.Id));
        Assert.Equal(-1200, slip.ChangeMilligrams);
        Assert.Null(again.TareAfter(Guid.NewGuid()));
        again.Verify();
    }

    [Fact]
    public void A_weighing_that_was_judged_again_keeps_the_tare_after_it()
    {
        using var store = folder.Open();
        var weighing = Rows.Accepted("AM-0147", 186.4m);
        var later = weighing with { Id = Guid.NewGuid(), Milligrams = 186_100, Origin = Origin.Rejudged, Replaces = weighing.Id };
        var correction = Rows.Accepted("AM-0147", 187, replaces: later.Id);
        var tare = Rows.TareAfter(weighing.Id);
        store.Add(weighing, null);
        store.Add(tare);
        store.Rejudge([later]);
        store.Add(correction, null);
        Assert.Equal(tare, store.TareAfter(later.Id));
        Assert.Null(store.TareAfter(correction.Id));
    }

    [Fact]
    public void A_note_to_a_weighing_that_is_not_there_or_has_one_is_refused()
    {
        using var store = folder.Open();
        Assert.Throws<ArgumentException>(() => store.Add(Rows.TareAfter(Guid.NewGuid())));
        var weighing = Rows.Accepted("AM-0147", 186.4m);
        store.Add(weighing, null);
        store.Add(Rows.TareAfter(weighing.Id));
        Assert.Throws<ArgumentException>(() => store.Add(Rows.TareAfter(weighing.Id)));
    }

    [Fact]
    public void A_file_of_the_layout_before_gets_the_table_and_keeps_its_rows()
    {
        var weighing = Rows.Accepted("AM-0147", 186.4m);
        using (var raw = folder.Raw())
            Migrations.Execute(raw, $"{Version1.Sql} {Version2.Sql}; {Version3.Sql} PRAGMA application_id = {Migrations.ApplicationId}; PRAGMA user_version = 3");
        using var store = folder.Open();
        store.Add(weighing, null);
        store.Add(Rows.TareAfter(weighing.Id));
        Assert.Equal(weighing.Id, Assert.Single(store.Weighings()).Id);
        Assert.Equal(Migrations.Latest, store.Read("test", db => Migrations.Number(db.Connection, "PRAGMA user_version")));
    }
}
