using CaptureAgent.Store.Csv;
using Xunit;

namespace CaptureAgent.Store.Tests.Csv;

public sealed class RegisterImportTests : IDisposable
{
    private readonly StoreFolder folder = new();
    private readonly CaptureStore store;

    public RegisterImportTests() => store = CaptureStore.Open(":memory:", folder.Time);

    public void Dispose()
    {
        store.Dispose();
        folder.Dispose();
    }

    [Fact]
    public void A_register_is_taken_in_and_the_same_again_changes_nothing()
    {
        const string File = "code,species,hatched\nAM-0147,amazon,2026-02-06\nCN-0321,conure,2026-02-12\n";
        Assert.Equal((2, 0, 0), Counts(CsvFiles.Register(store, File)));
        Assert.Equal((0, 2, 0), Counts(CsvFiles.Register(store, File)));
        Assert.Equal([new Chick("AM-0147", "amazon", new(2026, 2, 6)), new("CN-0321", "conure", new(2026, 2, 12))], store.Chicks());
    }

    [Fact]
    public void Columns_come_in_any_order_and_a_missing_one_leaves_what_is_known()
    {
        CsvFiles.Register(store, "note,hatched,code,species,band,clutch,brooder,left\n\"shy, bites\",2026-02-06,AM-0147,amazon,978123,K4,B2,2026-03-01\n");
        var chick = new Chick("AM-0147", "amazon", new(2026, 2, 6), "K4", "B2", "978123", new(2026, 3, 1), "shy, bites");
        Assert.Equal([chick], store.Chicks());

        Assert.Equal((0, 0, 1), Counts(CsvFiles.Register(store, "code,species,hatched,left\nAM-0147,amazon,2026-02-07,\n")));
        Assert.Equal([chick with { Hatched = new(2026, 2, 7), Left = null }], store.Chicks());
        Assert.Equal(2, store.ChickVersions("AM-0147").Count);
    }

    [Theory]
    [InlineData(",amazon,2026-02-06,", "code", "empty")]
    [InlineData("!FED,amazon,2026-02-06,", "code", "command card")]
    [InlineData(" AM-0147,amazon,2026-02-06,", "code", "blanks")]
    [InlineData("AM-0147,amazon,06.02.2026,", "hatched", "no date")]
    [InlineData("AM-0147,amazon,2026-02-30,", "hatched", "no date")]
    [InlineData("AM-0147,amazon,0206-02-06,", "hatched", "year")]
    [InlineData("AM-0147,amazon,2026-02-06,2026-02-05", "left", "before the hatching")]
    [InlineData("CN-0321,amazon,2026-02-06,", "code", "row 2")]
    public void A_bad_row_is_named_and_nothing_is_written(string row, string column, string reason)
    {
        var file = $"code,species,hatched,left\nCN-0321,conure,2026-02-12,\n{row}\n";
        var result = CsvFiles.Register(store, file);
        var bad = Assert.Single(result.Bad);
        Assert.Equal((3, column), (bad.Row, bad.Column));
        Assert.Contains(reason, bad.Reason, StringComparison.Ordinal);
        Assert.Contains("row 3", bad.ToString(), StringComparison.Ordinal);
        Assert.False(result.Written);
        Assert.Equal((0, 0, 0), Counts(result));
        Assert.Empty(store.Chicks());

        Assert.Equal(1, CsvFiles.Register(store, file, skipBad: true).Added);
        Assert.Equal("CN-0321", Assert.Single(store.Chicks()).Code);
    }

    [Fact]
    public void A_band_names_one_chick()
    {
        CsvFiles.Register(store, "code,species,hatched,band\nAM-0147,amazon,2026-02-06,978123\n");
        var bad = Assert.Single(CsvFiles.Register(store, "code,species,hatched,band\nAM-0148,amazon,2026-02-06,978123\n").Bad);
        Assert.Contains("AM-0147", bad.Reason, StringComparison.Ordinal);
        // The band moves when the file itself moves it.
        Assert.Empty(CsvFiles.Register(store, "code,species,hatched,band\nAM-0148,amazon,2026-02-06,978123\nAM-0147,amazon,2026-02-06,\n").Bad);
    }

    [Fact]
    public void The_stations_rule_for_codes_is_asked()
    {
        var options = CsvFiles.Options with { CodeFault = code => code.Length == 7 ? null : "does not match the pattern" };
        var bad = Assert.Single(CsvImport.Register(store, new StringReader("code,species,hatched\nAM-0147,,\nAM-147,,\n"), options).Bad);
        Assert.Equal("row 3, code \"AM-147\": does not match the pattern", bad.ToString());
    }

    [Fact]
    public void A_registration_adopts_what_was_weighed_before()
    {
        store.Add(Rows.Rejected("AM-0147", 186.412m, "unknown-chick"), null);
        Assert.Equal(1, CsvFiles.Register(store, "code,species,hatched\nAM-0147,amazon,2026-02-06\n").Adopted);
        Assert.Equal("chick,date,grams,at,verdict,reasons,uncertaintyGrams,tareGrams,ageDays\r\nAM-0147,2026-03-02,186.412,2026-03-02T05:43:00Z,accepted,,,,24\r\n", CsvFiles.Weights(store));
    }

    private static (int Added, int Unchanged, int Changed) Counts(ImportResult result) => (result.Added, result.Unchanged, result.Corrected);
}
