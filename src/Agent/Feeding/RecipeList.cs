using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Round;

namespace CaptureAgent.Agent.Feeding;

/// <summary>What one chick takes of a mix.</summary>
internal sealed record Portion(string Chick, int? AgeDays, decimal WeightGrams, DateOnly WeighedOn, double FeedGrams);

/// <summary>One bowl: chicks that have the same mix.</summary>
internal sealed record Bowl(double SolidsPercent, double FatPercent, IReadOnlyList<Portion> Portions, Mix Mix);

/// <summary>The bowls for a feed, and the chicks that no portion can be given for: their weight is not known, or too old.</summary>
internal sealed record Bowls(IReadOnlyList<Bowl> All, IReadOnlyList<string> WithoutWeight);

/// <summary>Makes out of the chicks that are fed now how much of which formula they need.</summary>
internal static class RecipeList
{
    /// <summary>An older weight says nothing of today's feed.</summary>
    private const int OldestWeightDays = 3;

    /// <param name="fed">The chicks that are fed.</param>
    /// <param name="today">The nursery day.</param>
    public static Bowls For(IEnumerable<FeedStanding> fed, Ledger ledger, FeedPlan plan, FeedingOptions options, DateOnly today)
    {
        List<string> withoutWeight = [];
        List<(double Solids, double Fat, Portion Portion)> portions = [];
        foreach (var standing in fed)
        {
            var chick = standing.Chick;
            if (ledger.WeightsOf(chick.Code) is not [.., var weight] || today.DayNumber - weight.Day.DayNumber > OldestWeightDays)
            {
                withoutWeight.Add(chick.Code);
                continue;
            }

            var step = plan.StepOf(chick.Species, standing.AgeDays);
            var grams = DailyIntake.FeedGrams((double)weight.Grams, standing.AgeDays, plan.FeedsADay(chick, standing.AgeDays), step.MostPercent);
            portions.Add((step.SolidsPercent, plan.FatPercentOf(chick.Species, standing.AgeDays),
                new Portion(chick.Code, standing.AgeDays, weight.Grams, weight.Day, grams)));
        }

        var bowls = portions
            .GroupBy(one => (one.Solids, one.Fat))
            .OrderBy(group => group.Key)
            .Select(group => Fill(group.Key.Solids, group.Key.Fat, [.. group.Select(one => one.Portion)], options));
        return new Bowls([.. bowls], withoutWeight);
    }

    private static Bowl Fill(double solids, double fat, IReadOnlyList<Portion> portions, FeedingOptions options)
    {
        var needed = portions.Sum(portion => portion.FeedGrams) * (1 + options.SparePercent / 100);
        return new Bowl(solids, fat, portions, Recipe.For(needed, solids, fat, options.KitchenScaleGrams));
    }
}
