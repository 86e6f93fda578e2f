using System.Globalization;
using CaptureAgent.Benchmarks.Driving;
using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Benchmarks.Rounds;

namespace CaptureAgent.Benchmarks;

/// <summary>How long the keeper waits after the line that decides: until the weighing is on disk and told.</summary>
internal static class Commit
{
    private const int Stations = 8;
    private const int ChicksEach = 27;
    private const double RoundSeconds = 2.5 * 3600;
    private const double TargetMedian = 15;
    private const double TargetP99 = 50;

    /// <param name="native">A natively compiled capture-agent, measured in the same run; null: only the managed one is.</param>
    public static int Run(string? native)
    {
        var load = Machine.Load();
        using var folder = new RoundFiles();
        using var bare = new BareCommits(folder.In("bare.db"));
        var (managed, compiled) = Live(bare, native);
        var beside = new Spread(bare.Milliseconds);
        var liveLoad = Machine.Load();

        using var bareAgain = new BareCommits(folder.In("bare-again.db"));
        var round = GeneratedRound.Write(folder.Trace, RoundSeconds);
        folder.Write(round.Placings);
        List<double> inside = [];
        var stored = ReplayedRound.Run(folder, folder.Store, took =>
        {
            inside.Add(took);
            bareAgain.Once();
        });

        ResultFile.Write("commit", Machine.Describe(load, folder.Folder), string.Create(CultureInfo.InvariantCulture, $"""
            ## The real executable, end to end

            {Stations} agents at once{(compiled is null ? "" : " of either build")}, each with its own store and a scale at 10 Hz on a pseudo-terminal, {ChicksEach} placings each, their lines evenly staggered
            (one round would take an hour for as many decisions). The figure runs from just before the deciding line is written to the reading of its `accepted` event
            from the agent's standard output. The deciding line is told by the event's `at`, the moment at which the agent stamped it. After each event one bare commit
            is timed on the same disk: a row of 1 kB, SQLite, WAL, synchronous FULL. Load at the end of this part: {liveLoad}. Not accepted: {managed.Rejected + (compiled?.Rejected ?? 0)}.{(compiled is null ? " The native executable was not measured." : "")}

            {Spread.Head}
            {Rows("managed", managed)}
            {(compiled is null ? "" : Rows("native", compiled) + Environment.NewLine)}{beside.Row("baseline: one bare commit")}

            Target: median {TargetMedian:0} ms, p99 {TargetP99:0} ms.

            ## Within one process

            The same core, recorder and store on a file, fed from a generated trace of {round.Seconds / 3600:0.0} hours as fast as it goes ({stored.Accepted} accepted and {stored.Rejected} rejected weighings,
            {stored.EvidenceBytes / (double)(stored.Accepted + stored.Rejected) / 1000:0.0} kB of evidence each before compression): no link, no queue, no other process. A bare commit follows each.

            {Spread.Head}
            {new Spread(inside).Row("record taken ... event written (commit included)")}
            {new Spread(bareAgain.Milliseconds).Row("baseline: one bare commit")}
            """));
        return 0;
    }

    private static string Rows(string build, Measured measured) => string.Join(Environment.NewLine,
        new Spread(measured.Decisions.Select(one => one.Total)).Row($"{build}: deciding line written ... accepted event read"),
        new Spread(measured.Decisions.Select(one => one.ToStamp)).Row($"{build}, of that: line written ... stamped by the agent"),
        new Spread(measured.Firsts.Select(one => one.Total)).Row($"{build}, of these: the first decision of each process"));

    private static (Measured Managed, Measured? Native) Live(BareCommits bare, string? native)
    {
        var stations = Enumerable.Range(0, native is null ? Stations : 2 * Stations)
            .Select(i => new TimedStation(ChicksEach, (ulong)(100 + i), i < Stations ? null : Path.GetFullPath(native!), bare.Once)).ToArray();
        try
        {
            var writing = new Thread(() => TimedStation.Drive(stations)) { IsBackground = true };
            writing.Start();
            writing.Join();
            return (Measured.Of(stations[..Stations]), native is null ? null : Measured.Of(stations[Stations..]));
        }
        finally
        {
            foreach (var station in stations)
                station.Dispose();
        }
    }

    /// <summary>What the stations of one build gave.</summary>
    /// <param name="Firsts">Of each process the first, which compiles and opens what the later ones find ready.</param>
    private sealed record Measured(IReadOnlyList<TimedStation.Decision> Decisions, IReadOnlyList<TimedStation.Decision> Firsts, int Rejected)
    {
        public static Measured Of(TimedStation[] stations) => new(
            [.. stations.SelectMany(station => station.Decisions)], [.. stations.SelectMany(station => station.Decisions.Take(1))], stations.Sum(station => station.Rejected));
    }
}
