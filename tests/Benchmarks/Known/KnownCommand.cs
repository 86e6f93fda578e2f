using System.Globalization;
using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Benchmarks.Settle;

namespace CaptureAgent.Benchmarks.Known;

/// <summary>What it is worth to know how a chick usually moves: wrong records and seconds on the same placings, without that knowledge and with it.</summary>
internal static class KnownCommand
{
    private const int DefaultStations = 120;

    /// <returns>Exit code; null if the arguments make no sense.</returns>
    public static int? Run(IReadOnlyList<string> words)
    {
        var (stations, seed) = (DefaultStations, 1UL);
        if (words.Count > 0 && !int.TryParse(words[0], CultureInfo.InvariantCulture, out stations)
            || words.Count > 1 && !ulong.TryParse(words[1], CultureInfo.InvariantCulture, out seed) || words.Count > 2 || stations < 1)
            return null;
        var load = Machine.Load();
        var played = new List<KnownTrial>[stations];
        Parallel.For(0, stations, i => played[i] = [.. KnownTrial.Station(seed * 1_000_003 + (ulong)i)]);
        List<KnownTrial> trials = [.. played.SelectMany(each => each)];
        var report = Report(stations, seed, trials);
        if (stations >= DefaultStations)
            ResultFile.Write("known", Machine.Describe(load, Path.GetTempPath()), report);
        else
            Console.WriteLine(report);
        return 0;
    }

    private static string Report(int stations, ulong seed, List<KnownTrial> trials)
    {
        string[] rows =
        [
            Row("all", trials),
            .. trials.Where(trial => trial.Placing.Truth.MustRecord).Select(trial => trial.Temper).Distinct().Order(StringComparer.Ordinal)
                .Select(temper => Row($"must be recorded: {temper}", [.. trials.Where(trial => trial.Temper == temper && trial.Placing.Truth.MustRecord)])),
            .. KnownChick.Kinds.Select(kind => Row(kind.Name, [.. trials.Where(trial => trial.Placing.Family == kind.Name)])),
        ];
        return string.Create(CultureInfo.InvariantCulture, $"""
            {stations} simulated stations of seed {seed}, each with a scale and eight chicks that are weighed through the real core on five mornings, with hands and all; then each on six
            more, each played twice: nothing known of the chick's motion, and the motion of its five mornings known as the store keeps it. A chick's forces differ from
            morning to morning by a spread of a quarter (natural logarithm). Its weight is expected as in `settle`. Seconds: from the end of the release to the decision, of
            those that both record right.

            | placings | count | right | | wrong | | missed | | seconds, median | | p90 | | a second sooner | later |
            | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |
            | | | without | with | without | with | without | with | without | with | without | with | with | with |
            {string.Join('\n', rows)}
            """);
    }

    private static string Row(string name, List<KnownTrial> some)
    {
        var both = some.Where(trial => trial.IsRight(trial.Without) && trial.IsRight(trial.With)).ToList();
        string Seconds(Func<KnownTrial, Answer?> of, double share) => both.Count == 0
            ? "–"
            : string.Create(CultureInfo.InvariantCulture, $"{new Spread(both.Select(trial => trial.Seconds(of(trial)!.Value))).At(share):0.00}");
        return string.Join(" | ", [
            $"| {name}", Count(some, _ => true), Count(some, trial => trial.IsRight(trial.Without)), Count(some, trial => trial.IsRight(trial.With)),
            Count(some, trial => trial.IsWrong(trial.Without)), Count(some, trial => trial.IsWrong(trial.With)),
            Count(some, trial => trial.IsMissed(trial.Without)), Count(some, trial => trial.IsMissed(trial.With)),
            Seconds(trial => trial.Without, 0.5), Seconds(trial => trial.With, 0.5), Seconds(trial => trial.Without, 0.9), Seconds(trial => trial.With, 0.9), Count(both, trial => Change(trial) <= -1), $"{Count(both, trial => Change(trial) >= 1)} |"]);
    }

    private static double Change(KnownTrial trial) => trial.With!.Value.At - trial.Without!.Value.At;

    private static string Count(List<KnownTrial> some, Func<KnownTrial, bool> which) => some.Count(which).ToString(CultureInfo.InvariantCulture);
}
