using System.Globalization;
using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Tests.Growth.Data;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>The 95 % interval on real chicks: R's datasets::ChickWeight (Crowder and Hand 1990, Analysis of Repeated Measures), weighed every other day.</summary>
/// <remarks>Curve, noise and wandering come from one half of the chicks and are judged on the other, both ways.</remarks>
public sealed class ChickWeightCoverageTests
{
    private static readonly DateOnly Hatched = new(2026, 1, 1);

    private static readonly IReadOnlyList<WatchedChick> Chicks = Read();

    [Fact]
    public void The_interval_holds_between_93_and_97_per_cent_of_the_other_half()
    {
        List<double> judged = [.. Judge(0, 1), .. Judge(1, 0)];
        Assert.True(judged.Count > 450);
        Assert.InRange(judged.Average(z => Math.Abs(z) <= ChickWatch.Interval95 ? 1.0 : 0.0), 0.93, 0.97);
    }

    private static List<double> Judge(int fitted, int other)
    {
        var half = Chicks.Where((_, i) => i % 2 == fitted).ToList();
        var reference = new MeanGrowth(half);
        var best = double.NegativeInfinity;
        (Tuning Tuning, NoiseLevel Noise) chosen = default;
        foreach (var noise in (ReadOnlySpan<double>)[0.01, 0.02, 0.03, 0.04])
        {
            foreach (var floor in (ReadOnlySpan<double>)[0.003, 0.006, 0.012, 0.02, 0.03])
            {
                foreach (var pace in (ReadOnlySpan<double>)[0.1, 0.2, 0.3])
                {
                    var tuning = Tuning.Usual with { RateFloor = floor, PaceSpread = pace };
                    var level = new NoiseLevel(noise, 0.2);
                    var priors = new GrowthPriors(reference, tuning);
                    var likelihood = half.SelectMany(chick => Residuals(chick, reference, priors, tuning, level)).Sum(each => -each.Z * each.Z / 2 - Math.Log(each.Deviation));
                    if (likelihood > best)
                        (best, chosen) = (likelihood, (tuning, level));
                }
            }
        }

        var last = new GrowthPriors(reference, chosen.Tuning);
        return [.. Chicks.Where((_, i) => i % 2 == other).SelectMany(chick => Residuals(chick, reference, last, chosen.Tuning, chosen.Noise)).Select(each => each.Z)];
    }

    private static IEnumerable<(double Z, double Deviation)> Residuals(WatchedChick chick, IReferenceGrowth reference, GrowthPriors priors, Tuning tuning, NoiseLevel noise)
    {
        var watch = new ChickWatch(chick, tuning);
        foreach (var weight in chick.Weights)
        {
            watch.PassTo(weight.Day, noise);
            if (watch.Compare(weight) is { } morning)
            {
                yield return (morning.Z, morning.Deviation);
                watch.Take(morning, 0, reference);
            }
            else
            {
                watch.Start(weight, priors, noise);
            }
        }
    }

    private static List<WatchedChick> Read() =>
        [.. DataFile.Rows("chick-weight.csv")
            .Select(row => ((string[])["Chick", "Time", "weight"]).Select(name => int.Parse(row[name], CultureInfo.InvariantCulture)).ToArray())
            .GroupBy(row => row[0])
            .Select(rows => new WatchedChick(
                rows.Key.ToString(CultureInfo.InvariantCulture), "fowl", Hatched, null, null,
                [.. rows.Select(row => new MorningWeight(Hatched.AddDays(row[1]), row[2], null, null))]))];

    /// <summary>The mean of ln(weight) by age, straight between the ages weighed.</summary>
    private sealed class MeanGrowth(IReadOnlyList<WatchedChick> chicks) : IReferenceGrowth
    {
        private readonly List<(int Age, double Log)> means =
            [.. chicks.SelectMany(chick => chick.Weights).GroupBy(weight => weight.Day.DayNumber - Hatched.DayNumber).OrderBy(group => group.Key)
                .Select(group => (group.Key, group.Average(weight => Math.Log((double)weight.Grams))))];

        public ReferenceGrowth? At(string? species, double ageDays)
        {
            var i = 0;
            while (i < means.Count - 2 && means[i + 1].Age <= ageDays)
                i++;
            var rate = (means[i + 1].Log - means[i].Log) / (means[i + 1].Age - means[i].Age);
            return new ReferenceGrowth(Math.Exp(means[i].Log + rate * (ageDays - means[i].Age)), 0.15, rate, 0.2 * rate, Math.Exp(means[^1].Log), 0.05);
        }
    }
}
