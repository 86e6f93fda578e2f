using System.Diagnostics;
using CaptureAgent.Agent.Growth.Models;
using CaptureAgent.Agent.Growth.References;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.References;

/// <summary>The curve of a species that a nursery has a thousand chicks of.</summary>
public sealed class LargeNurseryTests
{
    private const int Chicks = 1100;
    private const int Weights = 60;
    private const string Unlisted = "Amazona ventralis";

    // A machine's pace cancels out: by going through the weights once. Where each step of the search for a size went through all of them it was more than eighty times that.
    [Fact]
    public void The_size_of_an_unlisted_species_is_found_without_going_through_all_weights_at_each_step()
    {
        ChickSeries[] chicks = [.. Enumerable.Range(0, Chicks).Select(Chick)];
        var (once, whole) = (double.PositiveInfinity, double.PositiveInfinity);
        for (var round = 0; round < 3; round++)
        {
            once = Math.Min(once, Seconds(() => chicks.Sum(chick => chick.Weights(150).Sum(weight => weight.Share))));
            whole = Math.Min(whole, Seconds(() => new ReferenceLibrary(chicks).Of(Unlisted)!.PeakGrams));
        }

        Assert.InRange(whole / once, 0, 40);
    }

    private static ChickSeries Chick(int i)
    {
        double[] ages = [.. Enumerable.Range(1, Weights)];
        return new ChickSeries($"C-{i}", Unlisted, ages, [.. ages.Select(age => Math.Exp(0.1 * Math.Sin(i) + 0.02 * Math.Sin(7 * i + 3 * age)) * GrowthModel.Logistic.Grams(age, [300, 0.16, 17]))]);
    }

    private static double Seconds(Func<double> work)
    {
        var start = Stopwatch.GetTimestamp();
        Assert.True(work() > 0);
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }
}
