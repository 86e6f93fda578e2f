using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Round;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>recipe</c>: how much water, dry formula and fat for the chicks that are due.</summary>
internal static class RecipeCommand
{
    /// <summary>What a batch is mixed for: a round takes about an hour (common practice, no source).</summary>
    private const int DefaultWithinMinutes = 60;

    public static Command Create(Surroundings around)
    {
        var json = new Option<bool>("--json") { Description = "One JSON object instead of text." };
        var all = new Option<bool>("--all") { Description = "For all chicks that are here and not weaned, due or not." };
        var chicks = new Option<string[]>("--chick") { HelpName = "CODE", Description = "For this chick (may stand several times), due or not." };
        var within = new Option<int>("--within") { HelpName = "MINUTES", Description = "Chicks due so soon are fed too.", DefaultValueFactory = _ => DefaultWithinMinutes };
        within.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 0 or > 1440)
                result.AddError("--within must be 0 to 1440 minutes.");
        });
        var command = new Command("recipe", """
            Tells how much water, dry formula and fat to mix, by weight, for the chicks that are due for a feed,
            those without a recorded feed among them. By each chick's last weight, age, feeds a day and the solids
            for its age; fat only where station.json sets it for the species and age.

            Example:
              capture-agent recipe --within 30
            """) { json, all, chicks, within };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            using var store = station.OpenExistingStore(around.Time);
            var named = parsed.GetValue(chicks) ?? [];
            foreach (var code in named)
                WeightsCommand.RefuseUnknown(store, code);
            var now = around.Time.GetUtcNow();
            var ledger = Ledgers.Read(store, now);
            var rules = DecisionRules.Of(station.Options);
            var soon = now + TimeSpan.FromMinutes(parsed.GetValue(within));
            var fed = FeedList.At(now, ledger, rules.Plan, rules.Days).Where(one => named.Length > 0
                ? named.Contains(one.Chick.Code, StringComparer.Ordinal)
                : one.State != "weaned" && (parsed.GetValue(all) || one.State == "unknown" || one.DueAt <= soon));
            var bowls = RecipeList.For(fed, ledger, rules.Plan, station.Options.Feeding, rules.Days.Of(now));
            var cautions = Cautions(station.Options.Feeding.Batch);
            var text = parsed.GetValue(json)
                ? JsonSerializer.Serialize(Json(now, bowls, cautions), ListJsonContext.Default.RecipeJson) + "\n"
                : Text(bowls, station.Options.Feeding.SparePercent, cautions);
            await parsed.InvocationConfiguration.Output.WriteAsync(text);
            return ExitCode.Done;
        });
        return command;
    }

    // The band is the station's own: a keeper must not read another one here than the probe answers by.
    private static string[] Cautions(BatchOptions batch)
    {
        const double burns = 43;
        var texts = new BatchTexts(batch.Show == "F");
        return
        [
            "Weigh everything, spoons are 9 to 13 % off. Use water that is fit to drink and boiled; stir until no lumps are left, wait, stir again.",
            $"Feed at {texts.Shown((double)batch.LowCelsius)} to {texts.Shown((double)batch.HighCelsius)}, measured in the bowl after stirring; above {texts.Shown(burns)} the crop burns. A microwave leaves hot spots: stir and measure in two places.",
            "Fresh for each round: throw leftovers away, never warm them up again.",
            "A portion is the most that a crop of that weight takes, not a duty: feed on an empty crop only, never force a feed. A crop that does not empty: avian veterinarian, today.",
            "Do not thin formula to save a slow crop: chicks kept on 10 % solids starved.",
        ];
    }

    private static RecipeJson Json(DateTimeOffset now, Bowls bowls, string[] cautions) => new(
        Shown.Utc(now)!,
        [.. bowls.All.Select(bowl => new MixJson(
            bowl.Mix.WaterGrams, bowl.Mix.FormulaGrams, bowl.Mix.FatGrams, bowl.Mix.TotalGrams, Math.Round(bowl.Mix.NeededGrams, 1),
            bowl.Mix.SolidsPercent, bowl.Mix.FatPercent, [.. Notes(bowl)],
            [.. bowl.Portions.Select(one => new PortionJson(one.Chick, one.AgeDays, one.WeightGrams, Shown.Day(one.WeighedOn), Math.Round(one.FeedGrams, 1)))]))],
        bowls.WithoutWeight, cautions);

    private static string Text(Bowls bowls, double sparePercent, string[] cautions)
    {
        var text = new StringBuilder();
        foreach (var bowl in bowls.All)
        {
            var mix = bowl.Mix;
            text.Append(CultureInfo.InvariantCulture, $"{mix.WaterGrams:0.##} g water + {mix.FormulaGrams:0.##} g dry formula");
            if (mix.FatGrams > 0)
                text.Append(CultureInfo.InvariantCulture, $" + {mix.FatGrams:0.##} g fat supplement");
            text.Append(CultureInfo.InvariantCulture, $" = {mix.TotalGrams:0.##} g at {mix.SolidsPercent:0.#} % solids; {mix.NeededGrams:0.0} g are needed");
            if (sparePercent > 0)
                text.Append(CultureInfo.InvariantCulture, $", with {sparePercent:0.#} % that stays in bowl and syringes");
            text.Append('\n');
            foreach (var note in Notes(bowl))
                text.Append("  ").Append(note).Append('\n');
            var table = new TextTable("  chick", ">age", ">weight g", "weighed", ">feed g");
            foreach (var one in bowl.Portions)
            {
                table.Add(
                    "  " + one.Chick, one.AgeDays?.ToString(CultureInfo.InvariantCulture), one.WeightGrams.ToString("0.0", CultureInfo.InvariantCulture),
                    Shown.Day(one.WeighedOn), one.FeedGrams.ToString("0.0", CultureInfo.InvariantCulture));
            }

            text.Append(table).Append('\n');
        }

        if (bowls.All.Count == 0)
            text.Append("Nobody with a known weight is due: --within MINUTES looks further ahead, --all takes everybody.\n\n");
        if (bowls.WithoutWeight.Count > 0)
            text.Append(CultureInfo.InvariantCulture, $"Not counted, for want of a weight of the last three days: {string.Join(", ", bowls.WithoutWeight)}. Weigh them first.\n\n");
        foreach (var caution in cautions)
            text.Append("- ").Append(caution).Append('\n');
        return text.ToString();
    }

    private static IEnumerable<string> Notes(Bowl bowl)
    {
        var mix = bowl.Mix;
        if (mix.FatLeftOut)
            yield return FormattableString.Invariant($"No fat: {bowl.FatPercent:0.#} % of so little is less than this scale can weigh. Mix more, or set a finer kitchenScaleGrams.");
        if (mix.NeededGrams > 0 && (double)mix.TotalGrams > 2 * mix.NeededGrams)
            yield return FormattableString.Invariant($"More than is needed, for a smaller mix could not be weighed right in steps of this scale: throw the rest away, or set a finer kitchenScaleGrams.");
    }
}
