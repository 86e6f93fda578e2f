using System.Globalization;
using CaptureAgent.Store.Csv;
using CsCheck;
using Xunit;

namespace CaptureAgent.Store.Tests.Csv;

public sealed class RoundTripTests : IDisposable
{
    private static readonly string[] Codes = ["AM-0147", "CN-0321", "GR-0096"];
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static readonly Gen<string?> FreeText =
        Gen.OneOf(Gen.Char['a', 'e'], Gen.OneOf(',', '"', '\n', ' ', '\u00e9')).Array[0, 6].Select(chars => chars.Length == 0 ? null : new string(chars));

    [Fact]
    public void A_register_comes_back_as_it_was() =>
        Gen.Select(FreeText, FreeText, Gen.Int[0, 60], FreeText, Gen.Bool, FreeText).List[0, 8].Sample(rows =>
        {
            using var store = CaptureStore.Open(":memory:", folder.Time);
            using var other = CaptureStore.Open(":memory:", folder.Time);
            for (var i = 0; i < rows.Count; i++)
            {
                var (species, clutch, age, brooder, left, note) = rows[i];
                store.Register(new($"AM-{i:0000}", species, age == 0 ? null : Rows.Monday.AddDays(-age), clutch, brooder, age % 3 == 0 ? null : $"band {i}", left ? Rows.Monday : null, note));
            }

            var text = CsvFiles.Register(store);
            Assert.Equal(rows.Count, CsvFiles.Register(other, text).Added);
            Assert.Equal(store.Chicks(), other.Chicks());
            Assert.Equal(text, CsvFiles.Register(other));
            Assert.Equal(rows.Count, CsvFiles.Register(store, text).Unchanged);
        }, iter: 50, threads: 1);

    private static readonly Gen<(int Chick, int Day, string Grams)> Weights =
        from chick in Gen.Int[0, 2]
        from day in Gen.Int[0, 20]
        from milligrams in Gen.Int[1, 3_000_000]
        from decimals in Gen.Int[0, 3]
        let grams = Math.Max(Math.Round(milligrams / 1000m, decimals), 1)
        select (chick, day, grams.ToString($"F{decimals}", CultureInfo.InvariantCulture));

    [Fact]
    public void Imported_weights_come_back_digit_for_digit_in_the_order_of_date_and_code() =>
        Weights.List[1, 40].Sample(rows =>
        {
            using var store = CaptureStore.Open(":memory:", folder.Time);
            CsvFiles.Register(store, "code,species,hatched\nAM-0147,amazon,2026-01-01\nCN-0321,conure,2026-01-01\nGR-0096,grey,2026-01-01\n");
            var lines = rows.DistinctBy(row => (row.Chick, row.Day)).ToList();
            string Line((int Chick, int Day, string Grams) row) => $"{Codes[row.Chick]},{Rows.Monday.AddDays(row.Day):yyyy-MM-dd},{row.Grams}";

            var file = "chick,date,grams\n" + string.Join('\n', lines.Select(Line));
            Assert.Equal(lines.Count, CsvFiles.Weights(store, file).Added);
            var exported = CsvFiles.Weights(store).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(line => string.Join(',', line.Split(',').Take(3)));
            Assert.Equal(lines.OrderBy(row => row.Day).ThenBy(row => row.Chick).Select(Line), exported);
            Assert.Equal(lines.Count, CsvFiles.Weights(store, file).Unchanged);
        }, iter: 50, threads: 1);

    private static readonly Gen<(int Chick, int Day, int Kind, long Milligrams, long Microseconds)> Captured =
        Gen.Select(Gen.Int[0, 2], Gen.Int[0, 5], Gen.Int[0, 3], Gen.Long[1, 3_000_000], Gen.Long[0, 50_000_000_000]);

    [Fact]
    public void Export_then_import_changes_nothing_here_and_gives_the_same_elsewhere() =>
        Captured.List[1, 30].Sample(rows =>
        {
            using var store = CaptureStore.Open(":memory:", folder.Time);
            using var other = CaptureStore.Open(":memory:", folder.Time);
            const string Register = "code,species,hatched\nAM-0147,amazon,2026-01-01\nCN-0321,conure,2026-01-01\nGR-0096,,\n";
            CsvFiles.Register(store, Register);
            CsvFiles.Register(other, Register);
            var taken = new HashSet<(int, int)>();
            foreach (var (chick, day, kind, milligrams, microseconds) in rows)
            {
                var row = kind switch
                {
                    0 when taken.Add((chick, day)) => Rows.Accepted(Codes[chick], 1),
                    1 => Rows.Rejected(null, 1, "no-code"),
                    2 => Rows.Rejected("ZZ-9999", 1, "unknown-chick"),
                    _ => Rows.Rejected(Codes[chick], 1, "after-feed", "already-weighed"),
                };
                var nurseryDay = Rows.Monday.AddDays(day);
                store.Add(row with { Milligrams = milligrams, Day = nurseryDay, At = new DateTimeOffset(nurseryDay, new(4, 0), TimeSpan.Zero).AddMicroseconds(microseconds) }, null);
            }

            var text = CsvFiles.Weights(store);
            var here = CsvFiles.Weights(store, text);
            Assert.Empty(here.Bad);
            Assert.Equal((0, 0), (here.Added, here.Corrected));
            Assert.Empty(CsvFiles.Weights(other, text).Bad);
            Assert.Equal(text, CsvFiles.Weights(other));
        }, iter: 50, threads: 1);
}
