using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Benchmarks.Settle.Judging;
using CaptureAgent.Benchmarks.Settle.Reporting;
using CaptureAgent.Simulators.Physics.Placings;

namespace CaptureAgent.Benchmarks.Settle;

/// <summary>How right, how soon and how accurate the station decides on simulated placings, beside four baselines and the bound.</summary>
internal static class SettleCommand
{
    /// <summary>Placings whose readings are timed through the settler alone.</summary>
    private const int Timed = 300;

    /// <returns>Exit code; null if the arguments make no sense.</returns>
    public static int? Run(IReadOnlyList<string> words)
    {
        if (SettleArguments.Parse(words) is not { } arguments)
            return null;
        var load = Machine.Load();
        var drawn = Trials.Draw(arguments.Count, arguments.Seed, arguments.Family);
        if (arguments.IsHasty)
            drawn = [.. drawn.Select(each => (each.Number, HastyHands.Hasten(each.Placing)))];
        if (arguments.Dump is { } number)
            drawn = [.. drawn.Where(placing => placing.Number == number)];
        if (drawn.Count == 0)
        {
            Console.Error.WriteLine("No such placing: the number is one of the draw (1 to its count), the family a part of a family's name.");
            return 1;
        }

        var trials = Trials.Run(drawn);
        if (arguments.Dump is not null)
        {
            Listing.Dump(trials[0]);
            return 0;
        }

        if (arguments.List)
            Listing.WrongAndMissed(trials);
        var cost = SettlerCost.Measure(drawn.Take(Timed).Select(placing => placing.Placing));
        if (arguments.IsForTheRecord)
        {
            ResultFile.Write("settle", Machine.Describe(load, Path.GetTempPath()), SettleReport.Write(arguments, trials, cost));
            Chart.Write(trials);
            return 0;
        }

        Console.WriteLine(SettleReport.Write(arguments, trials, cost));
        return 0;
    }
}
