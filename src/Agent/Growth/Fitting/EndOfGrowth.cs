using System.Globalization;
using CaptureAgent.Agent.Growth.Models;

namespace CaptureAgent.Agent.Growth.Fitting;

/// <summary>Whether weights show where growth ends: only then is a final weight told to a keeper.</summary>
/// <remarks>
/// A few mornings' noise looks like a bend, and the standard error of a wrong curve is small too. Of three hundred simulated chicks of the published
/// curves, weighed from hatching for ten days, 61 % had a curve that fits and four of five of those were off by more than 30 %; after twenty
/// days 85 % and nearly half. By these rules none before day 10, 17 % after twenty days, of which none is off as far.
/// </remarks>
internal static class EndOfGrowth
{
    private const int LeastWeights = 10;

    /// <summary>Part of the final weight that the heaviest weight must have reached.</summary>
    private const double LeastReached = 0.8;

    /// <summary>Part of the time from 10 % to 90 % by which the inflection must have been passed.</summary>
    private const double LeastPassed = 0.15;

    /// <summary>Of the time that a parrot of that final weight takes; the fastest published series takes 0.77 of it.</summary>
    private const double Fastest = 0.7;

    // From 10 % to 90 % of the asymptote A in grams: ln(81) / K, with K = 0.489 A^-0.231 a day, fitted to the logistic curves of reference-curves.tsv.
    private const double DaysAtOneGram = 8.99;
    private const double DaysExponent = 0.231;

    /// <summary>Why it is not shown yet, as a sentence's end; null if it is.</summary>
    /// <param name="ages">Days, rising: of the weights that were fitted.</param>
    public static string? WhyNotShown(GrowthModel model, ReadOnlySpan<double> parameters, ReadOnlySpan<double> ages, ReadOnlySpan<double> grams)
    {
        if (ages.Length < LeastWeights)
            return $"{ages.Length} weights are too few to tell the end of growth from a few days' ups and downs; {LeastWeights} are the least";
        var heaviest = grams[0];
        foreach (var weight in grams)
            heaviest = Math.Max(heaviest, weight);
        var (final, inflection) = (parameters[0], parameters[2]);
        var days = model.Days10To90(parameters);
        if (heaviest < LeastReached * final)
            return string.Create(CultureInfo.InvariantCulture,
                $"the heaviest weight is {100 * heaviest / final:0} % of the final weight that fits best; before {100 * LeastReached:0} % is reached that is a guess about the future");
        if (ages[^1] < inflection + LeastPassed * days)
            return "growth has hardly begun to slow down";
        var usual = DaysAtOneGram * Math.Pow(final, DaysExponent);
        return days < Fastest * usual
            ? string.Create(CultureInfo.InvariantCulture,
                $"the bend in the weights comes too soon to be the end of growth: {days:0} days from 10 % to 90 % of {final:0} g, where parrots of that weight take some {usual:0}")
            : null;
    }
}
