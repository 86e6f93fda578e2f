using System.Text.Json;
using CaptureAgent.Benchmarks.Driving;

namespace CaptureAgent.Benchmarks.Pages;

/// <summary>What open pages cost the agent: two agents side by side in the same morning, one with fifty pages and one with none.</summary>
/// <remarks>
/// A page is here what it is to the agent: an open stream that is read, and, of the pages that show the round, a request for it at each change of the record.
/// Fifty real browsers would leave this machine nothing for the agent.
/// </remarks>
internal static class OpenPages
{
    public const int Pages = 50, OfRound = 20, Chicks = 12;

    /// <param name="Messages">That came to all pages.</param>
    internal sealed record Measured(double Seconds, double With, double Without, long Messages, long Requests);

    public static async Task<Measured> MeasureAsync()
    {
        var address = Browser.FreeAddress();
        using var watched = new TimedStation(Chicks, 500, null, () => { }, address);
        using var alone = new TimedStation(Chicks, 500, null, () => { }, Browser.FreeAddress());
        using var client = new HttpClient { BaseAddress = new Uri(address), Timeout = Timeout.InfiniteTimeSpan };
        using var closing = new CancellationTokenSource();
        var counts = new Counts();
        var pages = Enumerable.Range(0, Pages).Select(i => Task.Run(() => ReadAsync(client, i < OfRound, counts, closing.Token))).ToList();
        await Task.Delay(TimeSpan.FromSeconds(5));

        var (before, beforeAlone) = (AgentUnderTest.ProcessorSeconds(watched.Id), AgentUnderTest.ProcessorSeconds(alone.Id));
        var start = TimeProvider.System.GetTimestamp();
        using var talking = new CancellationTokenSource();
        var probes = Task.Run(() => TalkAsync([watched, alone], talking.Token));
        await Task.Run(() => TimedStation.Drive([watched, alone]));
        await talking.CancelAsync();
        await probes;
        var seconds = TimeProvider.System.GetElapsedTime(start).TotalSeconds;
        var (after, afterAlone) = (AgentUnderTest.ProcessorSeconds(watched.Id), AgentUnderTest.ProcessorSeconds(alone.Id));
        await closing.CancelAsync();
        await Task.WhenAll(pages);
        return new(seconds, after.Ticks - before.Ticks, afterAlone.Ticks - beforeAlone.Ticks, counts.Messages, counts.Requests);
    }

    private static async Task ReadAsync(HttpClient client, bool isRound, Counts counts, CancellationToken stop)
    {
        try
        {
            using var answer = await client.GetAsync("/api/v1/live", HttpCompletionOption.ResponseHeadersRead, stop);
            using var lines = new StreamReader(await answer.Content.ReadAsStreamAsync(stop));
            var record = -1L;
            while (await lines.ReadLineAsync(stop) is { } line)
            {
                if (!line.StartsWith("data: ", StringComparison.Ordinal))
                    continue;
                Interlocked.Increment(ref counts.Messages);
                using var moment = JsonDocument.Parse(line.AsMemory(6));
                if (!isRound || !moment.RootElement.TryGetProperty("record", out var now) || now.GetInt64() == record)
                    continue;
                record = now.GetInt64();
                _ = await client.GetByteArrayAsync("/api/v1/round", stop);
                Interlocked.Increment(ref counts.Requests);
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
        }
    }

    // The probe stands in formula that cools: the agent tells a temperature each second, and each is a message to every page.
    private static async Task TalkAsync(IReadOnlyList<TimedStation> stations, CancellationToken stop)
    {
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(500));
        try
        {
            for (var celsius = 40.5m; await pace.WaitForNextTickAsync(stop); celsius -= 0.002m)
            {
                foreach (var station in stations)
                    station.SayTemperature(FormattableString.Invariant($"{celsius:0.0} C"));
            }
        }
        catch (OperationCanceledException)
        {
        }
    }

    private sealed class Counts
    {
        public long Messages;
        public long Requests;
    }
}
