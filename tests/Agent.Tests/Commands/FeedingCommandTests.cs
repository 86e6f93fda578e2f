using System.Text;
using System.Text.Json;
using CaptureAgent.Agent.Commands;
using CaptureAgent.Store;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Commands;

public sealed class FeedingCommandTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);

    private readonly string folder = Directory.CreateTempSubdirectory("feeding-").FullName;

    public FeedingCommandTests()
    {
        Put("station.json", """
            { "feeding": { "fat": [ { "species": "Ara macao", "fromDay": 20, "percent": 2 } ], "sparePercent": 0 },
              "devices": [ { "id": "scale", "role": "scale", "dialect": "header-comma" } ] }
            """);
        Put("chicks.csv", "code,species,hatched\nAM-0147,Ara macao,2026-02-06\nAM-0148,Ara macao,2026-02-06\nCN-0321,conure,2026-02-06\nLB-0001,lovebird,2026-02-27\nNW-0001,conure,2026-02-06\n");
        Put("weights.csv", "chick,date,grams\nAM-0147,2026-03-02,300\nAM-0148,2026-03-02,500\nCN-0321,2026-03-01,60\nLB-0001,2026-03-02,6\nNW-0001,2026-02-20,50\n");
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task The_recipe_is_by_weight_age_and_solids_with_fat_only_where_it_was_set()
    {
        await Import();
        using var json = JsonDocument.Parse(await Run("recipe --json"));
        var mixes = json.RootElement.GetProperty("mixes").EnumerateArray().ToList();
        Assert.Equal(3, mixes.Count);

        // Day 3: 83.1 % of 6 g in 12 feeds; 7 % solids. No scale that shows whole grams mixes so little.
        Assert.Equal("LB-0001", mixes[0].GetProperty("portions")[0].GetProperty("chick").GetString());
        Assert.Equal(0.4, mixes[0].GetProperty("portions")[0].GetProperty("feedGrams").GetDouble());
        Assert.Equal(7, mixes[0].GetProperty("solidsPercent").GetDouble(), 0.4);
        Assert.NotEmpty(mixes[0].GetProperty("notes").EnumerateArray());

        Assert.Equal(6, mixes[1].GetProperty("neededGrams").GetDouble());
        Assert.Equal(0, mixes[1].GetProperty("fatGrams").GetDouble());

        // Two macaws, a tenth of 300 and 500 g: 80 g at 30 % solids with 2 % fat.
        Assert.Equal(80, mixes[2].GetProperty("neededGrams").GetDouble());
        Assert.InRange(mixes[2].GetProperty("totalGrams").GetDouble(), 80, 84);
        Assert.Equal(2, mixes[2].GetProperty("fatGrams").GetDouble());
        Assert.Equal(["NW-0001"], json.RootElement.GetProperty("withoutWeight").EnumerateArray().Select(code => code.GetString()!));
        Assert.Contains("avian veterinarian", json.RootElement.GetProperty("cautions").ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_recipe_is_for_those_who_are_due_or_asked_for()
    {
        await Import();
        Fed("AM-0147", 1);
        Fed("AM-0148", 4.2);
        Assert.DoesNotContain("AM-0147", await Run("recipe"), StringComparison.Ordinal);
        Assert.Contains("AM-0148", await Run("recipe"), StringComparison.Ordinal);
        Assert.Contains("AM-0147", await Run("recipe --within 300"), StringComparison.Ordinal);
        var one = await Run("recipe --chick AM-0147");
        Assert.Contains("= 30 g at 30 % solids; 30.0 g are needed", one, StringComparison.Ordinal);
        Assert.DoesNotContain("AM-0148", one, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_spare_is_said_and_the_cautions_have_the_band_and_the_unit_of_the_house()
    {
        await Import();
        Assert.Contains("Feed at 38.0 °C to 41.0 °C", await Run("recipe"), StringComparison.Ordinal);
        Put("station.json", """
            { "feeding": { "batch": { "lowCelsius": 39, "show": "F" } }, "devices": [ { "id": "scale", "role": "scale", "dialect": "header-comma" } ] }
            """);
        var text = await Run("recipe --chick AM-0147");
        Assert.Contains("33.0 g are needed, with 10 % that stays in bowl and syringes", text, StringComparison.Ordinal);
        Assert.Contains("Feed at 102.2 °F to 105.8 °F", text, StringComparison.Ordinal);
        Assert.DoesNotContain("°C", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_feeds_are_listed_with_the_overdue_first_and_the_chores_that_are_due()
    {
        await Import();
        Fed("AM-0147", 1);
        Fed("AM-0148", 6);
        using var json = JsonDocument.Parse(await Run("feeds --json"));
        var first = json.RootElement.GetProperty("chicks")[0];
        Assert.Equal(("AM-0148", "late", 60.0, "2026-03-02T08:00:00Z"), (
            first.GetProperty("chick").GetString(), first.GetProperty("state").GetString(), first.GetProperty("overdueMinutes").GetDouble(), first.GetProperty("dueAt").GetString()));
        Assert.Equal(["wash", "syringe"], json.RootElement.GetProperty("chores").EnumerateArray().Select(chore => chore.GetProperty("chore").GetString()!));

        var table = await Run("feeds");
        Assert.StartsWith("chick", table, StringComparison.Ordinal);
        Assert.Contains("late, by 1:00", table, StringComparison.Ordinal);
        Assert.Contains("no feed known", table, StringComparison.Ordinal);
    }

    private void Fed(string code, double hoursAgo)
    {
        using var store = CaptureStore.Open(Path.Combine(folder, "capture.db"), TimeProvider.System);
        store.Add(new FeedRow(Guid.NewGuid(), code, Now.AddHours(-hoursAgo), "Etc/UTC", new DateOnly(2026, 3, 2), null, null, "s"));
    }

    private async Task Import()
    {
        await Run("import register chicks.csv");
        await Run("import weights weights.csv");
    }

    private void Put(string name, string text) => File.WriteAllText(Path.Combine(folder, name), text);

    private async Task<string> Run(string arguments)
    {
        using var output = new MemoryStream();
        using var error = new StringWriter();
        var code = await CommandLine.RunAsync(arguments.Split(' '), new Surroundings(output, error, folder, new FakeTimeProvider(Now)));
        Assert.True(code == 0, error.ToString());
        return Encoding.UTF8.GetString(output.ToArray());
    }
}
