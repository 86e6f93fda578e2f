using System.Text;
using CaptureAgent.Agent.Commands;
using CaptureAgent.Store;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Commands;

public sealed class CommandLineTests : IDisposable
{
    private const string StationJson = """
        {
          "codes": { "pattern": "[A-Z]{2}-[0-9]{4}" },
          "devices": [ { "id": "scale", "role": "scale", "dialect": "header-comma" }, { "id": "scanner", "role": "scanner", "dialect": "line" } ]
        }
        """;

    private const string Register = "code,species,hatched\nAM-0147,Ara macao,2026-02-06\nAM-0148,Ara macao,2026-02-08\n";

    private const string Weights = "chick,date,grams\nAM-0147,2026-02-28,170.0\nAM-0147,2026-03-01,180.2\nAM-0147,2026-03-02,186.4\n";

    private readonly string folder = Directory.CreateTempSubdirectory("commands-").FullName;

    public CommandLineTests() => Put("station.json", StationJson);

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData("--help")]
    [InlineData("run --help")]
    [InlineData("replay --help")]
    [InlineData("import register --help")]
    [InlineData("export weights --help")]
    [InlineData("chicks --help")]
    [InlineData("weights --help")]
    [InlineData("growth --help")]
    [InlineData("report --help")]
    [InlineData("check --help")]
    [InlineData("rejudge --help")]
    [InlineData("devices --help")]
    [InlineData("feeds --help")]
    [InlineData("recipe --help")]
    [InlineData("hear --help")]
    [InlineData("labels --help")]
    public async Task Help_shows_an_example(string arguments)
    {
        var (code, output, _) = await Run(arguments);

        Assert.Equal(0, code);
        Assert.Contains("Example", output, StringComparison.Ordinal);
        Assert.Contains("capture-agent " + arguments.Replace(" --help", "", StringComparison.Ordinal).Replace("--help", "check", StringComparison.Ordinal), output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_list_of_commands_gives_each_one_line()
    {
        var (_, output, _) = await Run("--help");

        Assert.Contains("chicks", output, StringComparison.Ordinal);
        Assert.DoesNotContain("capture-agent weights AM-0147", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("wiegh")]
    [InlineData("chicks --sore x.db")]
    [InlineData("run --events file.txt")]
    [InlineData("replay")]
    [InlineData("import register")]
    [InlineData("export weights --from yesterday")]
    [InlineData("check --wait -1")]
    [InlineData("rejudge --since yesterday")]
    [InlineData("recipe --within -5")]
    [InlineData("labels --all")]
    [InlineData("labels --all --symbol aztec --output a.pdf")]
    [InlineData("growth")]
    [InlineData("growth AM-0147 --species \"Ara macao\"")]
    [InlineData("report")]
    [InlineData("chicks --station none.json")]
    [InlineData("replay none.ndjson")]
    [InlineData("import register none.csv")]
    [InlineData("run")]
    public async Task What_the_user_got_wrong_is_exit_2_and_said_on_standard_error(string arguments)
    {
        var (code, output, error) = await Run(arguments);

        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.NotEmpty(error);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_misspelt_key_is_named_with_its_path()
    {
        Put("station.json", """{ "devices": [ { "id": "scale", "role": "scale", "dialect": "header-comma", "conection": {} } ] }""");

        var (code, _, error) = await Run("chicks");

        Assert.Equal(2, code);
        Assert.Contains("devices[0].conection: unknown key. Did you mean 'connection'?", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_store_that_cannot_be_used_is_exit_3()
    {
        Put("broken.db", "this is no database, and it is long enough to be taken for one if nobody looks inside it");

        Assert.Equal(3, (await Run("chicks --store broken.db")).Code);
        Assert.Equal(3, (await Run("chicks")).Code);
        Assert.Equal(3, (await Run("export register")).Code);
        Assert.False(File.Exists(Path.Combine(folder, "capture.db")));
    }

    [Fact]
    public async Task The_store_of_station_json_lies_beside_it_and_that_of_the_command_line_where_the_command_was_given()
    {
        Directory.CreateDirectory(Path.Combine(folder, "east"));
        Put("east/station.json", StationJson);
        Put("chicks.csv", Register);

        await Run("import register chicks.csv --station east/station.json");
        await Run("import register chicks.csv --station east/station.json --store here.db");

        Assert.True(File.Exists(Path.Combine(folder, "east", "capture.db")));
        Assert.True(File.Exists(Path.Combine(folder, "here.db")));
    }

    [Fact]
    public async Task An_import_is_all_or_nothing_and_names_each_bad_row()
    {
        Put("chicks.csv", Register + "bad,Ara macao,2026-02-08\nAM-0149,Ara macao,2026-02-30\n");

        var (code, _, error) = await Run("import register chicks.csv");
        Assert.Equal(2, code);
        Assert.Contains("row 4, code \"bad\": does not match codes.pattern", error, StringComparison.Ordinal);
        Assert.Contains("row 5, hatched \"2026-02-30\"", error, StringComparison.Ordinal);

        var skipped = await Run("import register chicks.csv --skip-bad");
        Assert.Equal((0, "register: 2 added, 0 updated, 0 unchanged, 2 bad rows skipped.\n"), (skipped.Code, skipped.Output));
    }

    [Fact]
    public async Task What_was_imported_is_exported()
    {
        await Import();

        Assert.Equal("AM-0147,2026-02-28,170.0,,accepted,,,,22", (await Run("export weights")).Output.Split("\r\n")[1]);
        Assert.Equal(0, (await Run("export register --output out.csv")).Code);
        Assert.StartsWith("code,species,hatched,", File.ReadAllText(Path.Combine(folder, "out.csv")), StringComparison.Ordinal);
        Assert.Equal(2, (await Run("export register --output no/such/folder.csv")).Code);
    }

    [Fact]
    public async Task Chicks_are_listed_with_age_weight_gain_and_state()
    {
        await Import();

        Assert.Equal(
            """
            chick    species    age  grams  on            gain  today
            AM-0147  Ara macao   24  186.4  2026-03-02  +3.4 %  weighed
            AM-0148  Ara macao   22                             not weighed

            """, (await Run("chicks")).Output);
    }

    [Fact]
    public async Task The_weights_of_a_chick_are_listed()
    {
        await Import();
        using (var store = CaptureStore.Open(Path.Combine(folder, "capture.db"), TimeProvider.System))
        {
            store.Add(
                new WeighingRow(Guid.NewGuid(), "AM-0147", new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero), "Etc/UTC", new DateOnly(2026, 3, 2), 204_900, 110, 8_200,
                    Verdict.Rejected, ["after-feed", "already-weighed"], "Wait.", 24, Origin.Captured, "s", "scale"), null);
        }

        Assert.Equal(
            """
            date        age  grams      u    gain  verdict   reasons
            2026-02-28   22  170.0                 accepted
            2026-03-01   23  180.2         +6.0 %  accepted
            2026-03-02   24  186.4         +3.4 %  accepted
            2026-03-02   24  204.9  ±0.11          rejected  after-feed, already-weighed

            """, (await Run("weights AM-0147")).Output);
    }

    [Fact]
    public async Task The_weights_of_a_chick_say_where_the_liner_was_otherwise_after_it()
    {
        await Import();
        using (var store = CaptureStore.Open(Path.Combine(folder, "capture.db"), TimeProvider.System))
        {
            Tare(store, day: 3, before: 8_200, after: 9_400, slip: true, driftFree: null);
            Tare(store, day: 4, before: 8_200, after: 8_500, slip: false, driftFree: 186_250);
            Tare(store, day: 5, before: 8_200, after: 8_210, slip: false, driftFree: 186_395);
        }

        var lines = (await Run("weights AM-0147")).Output.Split('\n');

        Assert.EndsWith("reasons  note", lines[0], StringComparison.Ordinal);
        Assert.EndsWith("may be off: the liner was 8.2 g before it, 9.4 g after", lines[^4], StringComparison.Ordinal);
        Assert.EndsWith("186.25 g without the scale's drift", lines[^3], StringComparison.Ordinal);
        Assert.EndsWith("accepted", lines[^2], StringComparison.Ordinal);

        static void Tare(CaptureStore store, int day, long before, long after, bool slip, long? driftFree)
        {
            var at = new DateTimeOffset(2026, 3, day, 5, 0, 0, TimeSpan.Zero);
            var weighing = new WeighingRow(
                Guid.NewGuid(), "AM-0147", at, "Etc/UTC", new DateOnly(2026, 3, day), 186_400, 80, before, Verdict.Accepted, [], null, null, Origin.Captured, "room", "scale");
            store.Add(weighing, null);
            store.Add(new TareAfterRow(Guid.NewGuid(), weighing.Id, at, "Etc/UTC", "room", "scale", before, after, 41, slip, driftFree));
        }
    }

    [Fact]
    public async Task An_unknown_chick_is_exit_2_with_the_nearest_codes()
    {
        await Import();

        var (code, _, error) = await Run("weights AM-0174");

        Assert.Equal(2, code);
        Assert.Contains("Did you mean AM-0147 or AM-0148?", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_replay_writes_only_where_the_store_option_says()
    {
        Put("trace.ndjson", """{"at":"2026-03-02T05:41:10.125Z","device":"scale","link":"up"}""" + "\n{\"at\"");
        Put("chicks.csv", Register);
        Put("weights.csv", Weights);

        Assert.Equal(0, (await Run("replay trace.ndjson --register chicks.csv --history weights.csv")).Code);
        Assert.Empty(Directory.GetFiles(folder, "*.db"));

        Assert.Equal(0, (await Run("replay trace.ndjson --register chicks.csv --store kept.db")).Code);
        Assert.Contains("AM-0148", (await Run("export register --store kept.db")).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_broken_trace_or_history_is_exit_2_with_the_line()
    {
        Put("trace.ndjson", """{"at":"2026-03-02T05:41:10.125Z","device":"scale","link":"up"}""" + "\n" + """{"at":"2026-03-02T05:41:10.125Z","device":"probe","link":"up"}""" + "\n");
        Put("weights.csv", Weights);

        var trace = await Run("replay trace.ndjson");
        Assert.Equal(2, trace.Code);
        Assert.Contains("trace.ndjson, line 2: station.json has no device 'probe'", trace.Error, StringComparison.Ordinal);

        // No register: every chick of the history is unknown.
        var history = await Run("replay trace.ndjson --history weights.csv");
        Assert.Equal(2, history.Code);
        Assert.Contains("row 2", history.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_check_names_what_is_wrong_and_what_is_well()
    {
        Put("station.json", """{ "devices": [ { "id": "scale", "role": "scale", "dialect": "header-comma", "connection": { "path": "/dev/no-such-scale" } } ] }""");

        var (code, output, _) = await Run("check --wait 30");

        Assert.Equal(3, code);
        Assert.Contains("OK      configuration: ", output, StringComparison.Ordinal);
        Assert.Contains("OK      store: ", output, StringComparison.Ordinal);
        Assert.Contains("OK      clock: 2026-03-02 09:00:00 in Etc/UTC; nursery day 2026-03-02", output, StringComparison.Ordinal);
        Assert.Contains("WRONG   scale: There is no /dev/no-such-scale.", output, StringComparison.Ordinal);
        Assert.Contains("avian veterinarian", output, StringComparison.Ordinal);
    }

    private async Task Import()
    {
        Put("chicks.csv", Register);
        Put("weights.csv", Weights);
        Assert.Equal(0, (await Run("import register chicks.csv")).Code);
        Assert.Equal(0, (await Run("import weights weights.csv")).Code);
    }

    private void Put(string name, string text) => File.WriteAllText(Path.Combine(folder, name), text);

    private async Task<(int Code, string Output, string Error)> Run(string arguments)
    {
        using var output = new MemoryStream();
        using var error = new StringWriter();
        var time = new FakeTimeProvider(new DateTimeOffset(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
        var code = await CommandLine.RunAsync(arguments.Split(' ', StringSplitOptions.RemoveEmptyEntries), new Surroundings(output, error, folder, time));
        return (code, Encoding.UTF8.GetString(output.ToArray()), error.ToString());
    }
}
