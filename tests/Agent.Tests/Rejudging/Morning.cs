using System.Text;
using CaptureAgent.Agent.Commands;
using CaptureAgent.Agent.Tests.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Rejudging;

/// <summary>A small morning, replayed into a store on disk; rows can be planted in a copy of it.</summary>
internal sealed class Morning : IDisposable
{
    private const string Station = """
        { "devices": [ { "id": "scale", "role": "scale", "dialect": "header-comma", "divisionGrams": 0.1, "capacityGrams": 3000 },
                       { "id": "scanner", "role": "scanner", "dialect": "line" } ] }
        """;

    private const string Register = """
        code,species,hatched
        AM-0147,amazon,2026-02-06
        CN-0321,conure,2026-02-12
        GR-0096,grey,2026-02-01
        LB-0008,Rosy-faced lovebird,2026-02-25

        """;

    private const string Weights = """
        chick,date,grams
        AM-0147,2026-02-28,168.9
        AM-0147,2026-03-01,177.5
        CN-0321,2026-02-28,52.1
        CN-0321,2026-03-01,55.4
        GR-0096,2026-02-28,284.0
        GR-0096,2026-03-01,297.8

        """;

    private readonly string folder = Directory.CreateTempSubdirectory("rejudge-").FullName;

    public string StorePath => Path.Combine(folder, "capture.db");

    /// <summary>Weighed at once, weighed with a code that came late, named after the lift, lifted too soon, fed, weighed again after it, weighed again on request, taken back.</summary>
    public Task PlayAsync() => PlayAsync(
        new Scene().Towel()
            .Scan("AM-0147").Hold(1, 8.2).Chick(186.4).Lift(194.6).Wait(1)
            .Chick(58.7, 3, noise: 0.15).Scan("CN-0321").Hold(6, 66.9, 0.15).Lift(66.9).Wait(1)
            .Scan("GR-0096").Chick(305.1, 0.5).Lift(313.3).Wait(1)
            .Chick(305.1, 9).Lift(313.3, rest: 1).Scan("GR-0096").Hold(2, 8.2)
            .Scan("!FED").Hold(1, 8.2).Scan("AM-0147").Hold(1, 8.2)
            .Scan("!FED").Hold(6, 8.2).Scan("AM-0147").Hold(6, 8.2)
            .Scan("AM-0147").Chick(199.0).Lift(207.2).Wait(1)
            .Scan("!REWEIGH").Hold(1, 8.2).Scan("CN-0321").Hold(1, 8.2).Chick(58.9, 9, noise: 0.15).Lift(67.1).Wait(1)
            .Scan("LB-0008").Chick(15.2, 9, noise: 0.05).Lift(23.4).Scan("!UNDO").Hold(1, 8.2),
        Weights);

    /// <param name="weights">CSV.</param>
    public async Task PlayAsync(Scene scene, string weights)
    {
        using (var trace = TraceWriter.Create(Path.Combine(folder, "morning.ndjson")))
        {
            foreach (var record in scene.Trace)
                trace.Write(record);
            trace.Flush();
        }

        Put("station.json", Station);
        Put("chicks.csv", Register);
        Put("weights.csv", weights);
        var (code, _, error) = await RunAsync("replay morning.ndjson --register chicks.csv --history weights.csv --store capture.db");
        Assert.Equal((0, ""), (code, error));
    }

    public CaptureStore Open() => CaptureStore.Open(StorePath, TimeProvider.System);

    /// <summary>Makes the store anew, each captured row and its evidence passed through <paramref name="change"/>.</summary>
    public void Plant(Func<WeighingRow, Evidence?, (WeighingRow Row, Evidence? Evidence)> change)
    {
        var old = Path.Combine(folder, "old.db");
        foreach (var end in (string[])["", "-wal", "-shm"])
        {
            if (File.Exists(StorePath + end))
                File.Move(StorePath + end, old + end);
        }

        using var from = CaptureStore.Open(old, TimeProvider.System);
        using var to = Open();
        foreach (var chick in from.Chicks())
            to.Register(chick);
        var history = from.History();
        foreach (var stored in history.Weighings)
        {
            var planted = (Row: stored.Row, Evidence: from.EvidenceOf(stored.Row.Id));
            if (stored.Row.Origin == Origin.Captured)
                planted = change(planted.Row, planted.Evidence);
            to.Add(planted.Row, planted.Evidence);
        }

        foreach (var feed in history.Feeds)
            to.Add(feed);
        foreach (var undo in history.Undos)
            to.Add(undo);
        foreach (var mark in history.CropMarks)
            to.Add(mark);
    }

    public async Task<(int Code, string Output, string Error)> RunAsync(string arguments)
    {
        using var output = new MemoryStream();
        using var error = new StringWriter();
        var time = new FakeTimeProvider(new DateTimeOffset(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
        var code = await CommandLine.RunAsync(arguments.Split(' '), new Surroundings(output, error, folder, time));
        return (code, Encoding.UTF8.GetString(output.ToArray()), error.ToString());
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private void Put(string name, string text) => File.WriteAllText(Path.Combine(folder, name), text);
}
