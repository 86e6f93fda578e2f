using System.Diagnostics;
using System.Globalization;
using CaptureAgent.Benchmarks.Driving;
using CaptureAgent.Simulators.Rooms;
using CaptureAgent.Store;
using CaptureAgent.Store.Csv;

namespace CaptureAgent.Benchmarks.Thrive;

/// <summary>How long <c>morning --json</c> takes over ten years of history, beside a command that reads nothing, and beside work that is always the same.</summary>
internal static class MorningTime
{
    private const int Repeats = 11, Rows = 450_000, InRoom = 120;

    private static readonly DateOnly Today = new(2026, 3, 2);

    /// <returns>Milliseconds, medians: the summary, the start of the runtime and the command line alone, and every weight read once by this process, which tells how fast the machine is.</returns>
    public static (double Morning, double Start, double Reading, int Weights) Measure(string? native)
    {
        var folder = Directory.CreateTempSubdirectory("capture-agent-thrive").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "station.json"), """{ "station": "room", "devices": [{ "id": "scale", "role": "scale", "dialect": "header-comma" }] }""");
            var path = Path.Combine(folder, "capture.db");
            var weights = Fill(path);
            string[] morning = ["morning", "--json", "--date", Today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)];
            AgentUnderTest.DoWith(native, folder, morning);
            return (Median(() => AgentUnderTest.DoWith(native, folder, morning)), Median(() => AgentUnderTest.DoWith(native, folder, "--version")), Reading(path), weights);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static double Reading(string path)
    {
        using var store = CaptureStore.Open(path, TimeProvider.System);
        return Median(() => store.EachGrowthRecord(_ => { }));
    }

    // One room after another, each with its own chicks, back through ten years.
    private static int Fill(string path)
    {
        using var store = CaptureStore.Open(path, TimeProvider.System);
        using var register = new StringWriter();
        using var history = new StringWriter();
        register.Write("code,species,hatched,clutch,left\r\n");
        history.Write("chick,date,grams\r\n");
        var rows = 0;
        for (var room = 0; rows < Rows; room++)
        {
            var one = new Room(new RoomConditions { Chicks = InRoom, Missing = 0 }, (ulong)room + 1);
            one.Weigh();
            var first = Today.AddDays(1 - one.Days * (room + 1));
            foreach (var chick in one.Chicks)
            {
                var code = string.Create(CultureInfo.InvariantCulture, $"R{room:000}-{chick.Code[3..]}");
                var left = room == 0 ? "" : Day(first.AddDays(one.Days));
                register.Write($"{code},{chick.Species.Name},{Day(first.AddDays(chick.HatchDay))},{chick.Clutch},{left}\r\n");
                for (var day = 0; day < one.Days; day++)
                {
                    if (chick.Weights[day] <= 0)
                        continue;
                    history.Write(string.Create(CultureInfo.InvariantCulture, $"{code},{Day(first.AddDays(day))},{chick.Weights[day]:F1}\r\n"));
                    rows++;
                }
            }
        }

        var options = new ImportOptions("room", "Etc/UTC");
        using var chicks = new StringReader(register.ToString());
        using var weights = new StringReader(history.ToString());
        if (!CsvImport.Register(store, chicks, options).Written || !CsvImport.Weights(store, weights, options).Written)
            throw new InvalidOperationException("The history was not imported.");
        return rows;
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static double Median(Action command)
    {
        List<double> times = [];
        for (var i = 0; i < Repeats; i++)
        {
            var watch = Stopwatch.StartNew();
            command();
            times.Add(watch.Elapsed.TotalMilliseconds);
        }

        return times.Order().ElementAt(Repeats / 2);
    }
}
