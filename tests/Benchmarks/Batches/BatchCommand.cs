using System.Globalization;
using CaptureAgent.Benchmarks.Reporting;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>The probe's forecast, the warnings and the cooling of simulated batches, beside what a keeper with a thermometer alone would say.</summary>
internal static class BatchCommand
{
    /// <summary>Fewer dangerous batches are for looking into, not for the record.</summary>
    private const int ForTheRecord = 10_000;

    /// <returns>Exit code; null if the arguments make no sense.</returns>
    public static int? Run(IReadOnlyList<string> words)
    {
        var (count, seed) = (ForTheRecord, 1UL);
        if (words.Count > 2
            || (words.Count > 0 && !(int.TryParse(words[0], CultureInfo.InvariantCulture, out count) && count >= 50))
            || (words.Count > 1 && !ulong.TryParse(words[1], CultureInfo.InvariantCulture, out seed)))
        {
            return null;
        }

        var load = Machine.Load();
        var report = BatchReport.Write(
            count, seed,
            Settling.Run(Some(count), seed), Danger.Run(count, seed + 1), GoodBatches.Run(Some(count), seed + 2), GoodBatches.Wide(2 * Some(count), seed + 7),
            Absence.Run(Some(count), seed + 3), Cooling.Run(Some(count), seed + 4), Lifts.Back(Some(count), seed + 5), Lifts.Elsewhere(Some(count), seed + 6));
        if (count < ForTheRecord)
            Console.WriteLine(report);
        else
            ResultFile.Write("batch", Machine.Describe(load, Path.GetTempPath()), report);
        return 0;
    }

    // What is told in percent needs fewer trials than what must never happen.
    private static int Some(int count) => Math.Clamp(count / 5, 50, 500);
}
