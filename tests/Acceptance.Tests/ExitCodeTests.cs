using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Microsoft.Data.Sqlite;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>0 done; 2 the command line, configuration or input file is wrong; 3 a device or the store cannot be used.</summary>
public sealed class ExitCodeTests : IDisposable
{
    private const string Good = """{"at":"2026-03-02T05:41:10.000Z","device":"scale","text":"ST,GS,+    0.0  g\r\n"}""";

    private readonly Station station = new();

    public void Dispose() => station.Dispose();

    [Theory(Timeout = 600_000)]
    [InlineData("--help")]
    [InlineData("run", "--help")]
    [InlineData("replay", "--help")]
    [InlineData("import", "weights", "--help")]
    [InlineData("--version")]
    public async Task Help_and_version_are_0(params string[] arguments)
    {
        var done = await station.DoAsync(arguments);

        Assert.Equal(0, done.Code);
        Assert.NotEmpty(done.Output);
        Assert.Empty(done.Error);
    }

    [Theory(Timeout = 600_000)]
    [InlineData("--speed")]
    [InlineData("weigh")]
    [InlineData("run", "--event", "-")]
    [InlineData("replay", "none.ndjson")]
    [InlineData("replay")]
    [InlineData("import", "register", "none.csv")]
    [InlineData("import", "chicks", "register.csv")]
    [InlineData("chicks", "--station", "none.json")]
    public async Task A_wrong_command_line_or_a_missing_file_is_2(params string[] arguments)
    {
        var done = await station.DoAsync(arguments);

        AssertWrongInput(done, arguments.Last(argument => argument != "-"));
    }

    [Fact(Timeout = 600_000)]
    public async Task Every_fault_of_station_json_is_named_at_once_with_its_path()
    {
        station.Write("station.json", """
            { "station": "bench", "dayStartAt": "03:00",
              "devices": [ { "id": "scale", "role": "scale", "dialect": "header-coma" }, { "id": "scanner", "role": "scaner", "dialect": "line", "conection": {} } ] }
            """);

        var done = await station.DoAsync("chicks");

        AssertWrongInput(done, "dayStartAt", "devices[0].dialect", "header-coma", "header-comma", "devices[1].role", "scaner", "devices[1].conection");
    }

    [Theory(Timeout = 600_000)]
    [InlineData("""{"at":"2026-03-02T05:41:10.100Z","device":"scale"}""")]
    [InlineData("""no json""")]
    [InlineData("""{"at":"2026-03-02T05:41:10.100Z","device":"probe","text":"39.8 C\r\n"}""")]
    [InlineData("""{"at":"2026-03-02T05:41:09.900Z","device":"scale","text":"ST,GS,+    0.0  g\r\n"}""")]
    [InlineData("""{"at":"2026-03-02T05:41:10.100Z","device":"scale","te""")]
    public async Task A_broken_line_of_a_trace_is_2_with_its_number(string line)
    {
        station.Write("trace.ndjson", $"{Good}\n{Good}\n{line}\n{Good}\n");

        AssertWrongInput(await station.DoAsync("replay", "trace.ndjson"), "3");
    }

    [Fact(Timeout = 600_000)]
    public async Task A_cut_last_line_of_a_trace_is_passed_over()
    {
        station.Write("trace.ndjson", $"{Good}\n{Good[..60]}");

        var done = await station.DoAsync("replay", "trace.ndjson");

        Assert.True(done.Code == 0, done.Error);
    }

    [Fact(Timeout = 600_000)]
    public async Task A_bad_row_of_an_import_is_2_with_its_number_and_nothing_is_taken()
    {
        station.Write("bad.csv", $"chick,date,grams\n{Station.Amazon},{station.Day(-3)},160.0\n{Station.Amazon},yesterday,161.0\nXX-0000,{station.Day(-3)},20.0\n");
        await station.ImportAsync();

        AssertWrongInput(await station.DoAsync("import", "weights", "bad.csv"), "row 3", "yesterday", "row 4", "XX-0000");
        Assert.DoesNotContain(await station.WeightsAsync(), row => row["date"] == station.Day(-3));
    }

    [Fact(Timeout = 600_000)]
    public async Task A_store_of_a_newer_version_is_3_and_is_not_touched()
    {
        await station.ImportAsync();
        await using (var store = new SqliteConnection($"Data Source={station.File("capture.db")};Pooling=False"))
        {
            await store.OpenAsync(TestContext.Current.CancellationToken);
            await using var newer = store.CreateCommand();
            newer.CommandText = "PRAGMA user_version = 9999";
            await newer.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        }

        var before = await File.ReadAllBytesAsync(station.File("capture.db"), TestContext.Current.CancellationToken);
        foreach (var arguments in (string[][])[["run", "--events", "-"], ["chicks"], ["import", "register", "register.csv"], ["export", "weights"]])
        {
            var done = await station.DoAsync(arguments);
            Assert.Equal(3, done.Code);
            Assert.Contains("newer version", done.Error, StringComparison.Ordinal);
        }

        Assert.Equal(before, await File.ReadAllBytesAsync(station.File("capture.db"), TestContext.Current.CancellationToken));
    }

    [Fact(Timeout = 600_000)]
    public async Task A_store_that_is_no_database_ends_run_with_3()
    {
        station.Write("capture.db", new string('x', 10_000));

        var done = await station.DoAsync("run", "--events", "-");

        Assert.Equal(3, done.Code);
        Assert.Empty(done.Output);
        Assert.Contains("capture.db", done.Error, StringComparison.Ordinal);
    }

    // Said on standard error, in words: never a stack trace.
    private static void AssertWrongInput(Ended done, params string[] named)
    {
        Assert.True(done.Code == 2, $"{done.Code}\n{done.Output}{done.Error}");
        Assert.All(named, word => Assert.Contains(word, done.Error, StringComparison.Ordinal));
        Assert.DoesNotContain("   at ", done.Error, StringComparison.Ordinal);
    }
}
