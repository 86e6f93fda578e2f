using CaptureAgent.Store.Csv;
using Xunit;

namespace CaptureAgent.Store.Tests.Csv;

public sealed class WeightsImportTests : IDisposable
{
    private const string Header = "chick,date,grams,at,verdict,reasons,uncertaintyGrams,tareGrams,ageDays\r\n";
    private readonly StoreFolder folder = new();
    private readonly CaptureStore store;

    public WeightsImportTests()
    {
        store = CaptureStore.Open(":memory:", folder.Time);
        CsvFiles.Register(store, "code,species,hatched\nAM-0147,amazon,2026-02-06\nCN-0321,conure,2026-02-12\nXX-0001,,\n");
    }

    public void Dispose()
    {
        store.Dispose();
        folder.Dispose();
    }

    [Fact]
    public void A_row_without_a_verdict_is_accepted()
    {
        Assert.Equal((1, 0, 0), Counts(CsvFiles.Weights(store, "chick,date,grams\nAM-0147,2026-02-28,168.9\n")));
        var row = Assert.Single(store.Weighings());
        Assert.Equal((Verdict.Accepted, 168_900, 22, Origin.Imported), (row.Verdict, row.Milligrams, row.AgeDays, row.Origin));
        Assert.Equal(("east-room", "Etc/UTC", null, null), (row.Station, row.Zone, row.At, row.Device));
    }

    [Fact]
    public void The_same_row_again_changes_nothing_and_another_value_is_a_correction()
    {
        CsvFiles.Weights(store, "chick,date,grams\nAM-0147,2026-02-28,168.9\n");
        Assert.Equal((0, 1, 0), Counts(CsvFiles.Weights(store, "date,grams,chick\n2026-02-28,168.90,AM-0147\n")));
        Assert.Equal((0, 0, 1), Counts(CsvFiles.Weights(store, "chick,date,grams\nAM-0147,2026-02-28,169\n")));
        var rows = store.AllWeighings();
        Assert.Equal([WeighingState.Replaced, WeighingState.Stands], rows.Select(stored => stored.State));
        Assert.Equal(rows[0].Row.Id, rows[1].Row.Replaces);
    }

    [Fact]
    public void A_captured_weight_is_the_same_in_fewer_digits_and_corrected_by_another_value()
    {
        store.Add(Rows.Accepted("AM-0147", 186.412m), null);
        Assert.Equal((0, 3, 0), Counts(CsvFiles.Weights(store, "chick,date,grams\nAM-0147,2026-03-02,186.412\nAM-0147,2026-03-02,186.41\nAM-0147,2026-03-02,186.4\n")));
        Assert.Equal((0, 0, 1), Counts(CsvFiles.Weights(store, "chick,date,grams\nAM-0147,2026-03-02,186\n")));
        Assert.Equal(186_000, Assert.Single(store.Weighings()).Milligrams);
    }

    [Theory]
    [InlineData("NO-0001,2026-03-01,177.5,,,,,,", "chick", "not in the register")]
    [InlineData(",2026-03-01,177.5,,,,,,", "chick", "empty")]
    [InlineData("CN-0321,,177.5,,,,,,", "date", "empty")]
    [InlineData("CN-0321,1.3.2026,177.5,,,,,,", "date", "no date")]
    [InlineData("CN-0321,2026-02-11,177.5,,,,,,", "date", "hatched")]
    [InlineData("CN-0321,2026-03-01,,,,,,,", "grams", "empty")]
    [InlineData("CN-0321,2026-03-01,0,,,,,,", "grams", "above 0 g")]
    [InlineData("CN-0321,2026-03-01,-5,,,,,,", "grams", "above 0 g")]
    [InlineData("CN-0321,2026-03-01,100000.1,,,,,,", "grams", "100 kg")]
    [InlineData("CN-0321,2026-03-01,99999999999999999999999999999999,,,,,,", "grams", "no number")]
    [InlineData("CN-0321,2026-03-01,\"177,5\",,,,,,", "grams", "no number")]
    [InlineData("CN-0321,2026-03-01,177.5 g,,,,,,", "grams", "no number")]
    [InlineData("CN-0321,2026-03-01,1e2,,,,,,", "grams", "no number")]
    [InlineData("CN-0321,2026-03-01,NaN,,,,,,", "grams", "no number")]
    [InlineData("CN-0321,2026-03-01,177.5001,,,,,,", "grams", "three decimals")]
    [InlineData("CN-0321,2026-03-01,177.5,05:41,,,,,", "at", "no moment")]
    [InlineData("CN-0321,2026-03-01,177.5,2026-03-01T05:41:00,,,,,", "at", "zone")]
    [InlineData("CN-0321,2026-03-01,177.5,2026-03-04T05:41:00Z,,,,,", "at", "nursery day")]
    [InlineData("CN-0321,2026-03-01,177.5,,perhaps,,,,", "verdict", "accepted")]
    [InlineData("CN-0321,2026-03-01,177.5,,rejected,\"after feed\",,,", "reasons", "list of reasons")]
    [InlineData("CN-0321,2026-03-01,177.5,,,,-0.1,,", "uncertaintyGrams", "below")]
    [InlineData("CN-0321,2026-03-01,177.5,,,,,x,", "tareGrams", "no number")]
    [InlineData("CN-0321,2026-03-01,177.5,,,,,,18", "ageDays", "register")]
    [InlineData("CN-0321,2026-03-01,177.5,,,,,,1.5", "ageDays", "whole number")]
    [InlineData("AM-0147,2026-03-01,177.6,,,,,,", "grams", "row 2")]
    public void A_bad_row_is_named_and_nothing_is_written(string row, string column, string reason)
    {
        var file = $"{Header}AM-0147,2026-03-01,177.5,,,,,,23\n{row}\n";
        var result = CsvFiles.Weights(store, file);
        var bad = Assert.Single(result.Bad);
        Assert.Equal((3, column), (bad.Row, bad.Column));
        Assert.Contains(reason, bad.Reason, StringComparison.Ordinal);
        Assert.False(result.Written);
        Assert.Empty(store.AllWeighings());

        Assert.Equal((1, 0, 0), Counts(CsvFiles.Weights(store, file, skipBad: true)));
        Assert.Equal(177_500, Assert.Single(store.AllWeighings()).Row.Milligrams);
    }

    [Fact]
    public void Every_bad_row_is_named_in_the_order_of_the_file()
    {
        var result = CsvFiles.Weights(store, "chick,date,grams\nNO-0001,2026-03-01,x\nAM-0147,2026-03-01\nAM-0147,2026-03-01,1\nAM-0147,2026-02-31,1\n");
        Assert.Equal([2, 2, 3, 5], result.Bad.Select(bad => bad.Row));
    }

    [Fact]
    public void A_rejected_row_may_lack_what_was_not_known()
    {
        const string Rows = """
            ,2026-03-01,92.400,2026-03-01T05:41:10.125Z,rejected,no-code,,8.200,
            ,2026-03-01,92.400,2026-03-01T05:42:10.125Z,rejected,no-code,,8.200,
            AM-0147,2026-03-01,,2026-03-01T05:45:00Z,rejected,link-lost;no-tare,,,23
            NO-0001,2026-03-01,55.1,,rejected,unknown-chick,0.11,,

            """;
        var file = Header + Rows.ReplaceLineEndings("\r\n");
        Assert.Equal((4, 0, 0), Counts(CsvFiles.Weights(store, file)));
        Assert.Equal((0, 4, 0), Counts(CsvFiles.Weights(store, file)));
        Assert.Equal(file, CsvFiles.Weights(store));
    }

    [Fact]
    public void A_moment_with_an_offset_is_kept_as_UTC()
    {
        CsvFiles.Weights(store, "chick,date,grams,at\nAM-0147,2026-03-01,177.5,2026-03-01T06:41:10.5+01:00\n");
        Assert.Equal(new DateTimeOffset(2026, 3, 1, 5, 41, 10, 500, TimeSpan.Zero), Assert.Single(store.Weighings()).At);
    }

    [Fact]
    public void Rows_that_an_export_of_all_marks_as_gone_are_left_out()
    {
        var first = Rows.Accepted("AM-0147", 186.4m);
        store.Add(first, null);
        store.Add(Rows.Accepted("AM-0147", 187m, replaces: first.Id), null);
        var all = CsvFiles.Weights(store, all: true);
        Assert.Contains(",replaced\r\n", all, StringComparison.Ordinal);

        using var other = CaptureStore.Open(":memory:", folder.Time);
        CsvFiles.Register(other, CsvFiles.Register(store));
        var result = CsvFiles.Weights(other, all);
        Assert.Equal((1, 1), (result.Added, result.NotStanding));
        Assert.Equal(CsvFiles.Weights(store), CsvFiles.Weights(other));
    }

    private static (int Added, int Unchanged, int Corrected) Counts(ImportResult result) => (result.Added, result.Unchanged, result.Corrected);
}
