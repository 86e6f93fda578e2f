namespace CaptureAgent.Agent.Configuration;

/// <summary>What the values of feeding and hygiene must be beyond their kind.</summary>
internal static class FeedingRules
{
    private const decimal MostHours = 24;

    public static void Check(FeedingOptions feeding, HygieneOptions hygiene, RuleBook book)
    {
        CheckEmptyingGap(feeding.EmptyingGap, book);
        CheckPlan(feeding.Plan, book);
        CheckFat(feeding.Fat, book);
        CheckChicks(feeding.Chicks, book);
        if (feeding.NightFrom == feeding.NightUntil)
            book.Add("feeding.nightUntil", feeding.NightUntil.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture), "must differ from nightFrom; a chick that is fed all night has throughNight in its step of the plan.");
        book.Between("feeding.lateMinutes", Decimal(feeding.LateMinutes), 1, 720, "minutes");
        book.Between("feeding.weanedAfterDays", Decimal(feeding.WeanedAfterDays), 1, 6, "days");
        book.Between("feeding.kitchenScaleGrams", feeding.KitchenScaleGrams, 0.01m, 50, "g");
        book.Between("feeding.sparePercent", Decimal(feeding.SparePercent), 0, 100, "%");
        book.Between("hygiene.washHours", Decimal(hygiene.WashHours), 0, 168, "h");
        book.Between("hygiene.syringeDays", Decimal(hygiene.SyringeDays), 0, 90, "days");
        book.Between("hygiene.bowlsHours", Decimal(hygiene.BowlsHours), 0, 168, "h");
        book.Between("hygiene.bowlsFromDay", hygiene.BowlsFromDay, 0, 1000, "days");
    }

    private static void CheckPlan(IList<PlanOptions> plan, RuleBook book)
    {
        for (var i = 0; i < plan.Count; i++)
        {
            var (step, path) = (plan[i], $"feeding.plan[{i}]");
            book.Between($"{path}.everyHours", Decimal(step.EveryHours), 0.5m, MostHours, "h");
            book.Between($"{path}.solidsPercent", Decimal(step.SolidsPercent), 3, 50, "%");
            book.Between($"{path}.mostPercent", Decimal(step.MostPercent), 1, 12, "% of body weight (a crop that is overstretched may stop)");
            var earlier = plan.Take(i).LastOrDefault(other => SameSpecies(other.Species, step.Species));
            var isLast = !plan.Skip(i + 1).Any(other => SameSpecies(other.Species, step.Species));
            if (isLast && step.ThroughDay is { } last)
                book.Add($"{path}.throughDay", RuleBook.Text(last), "the last step of a species (or of those without one) has no throughDay: it holds for every later day.");
            else if (!isLast && step.ThroughDay is null)
                book.Add($"{path}.throughDay", null, "missing: only the last step of a species may leave it out.");
            else if (step.ThroughDay is { } through && through <= (earlier?.ThroughDay ?? -1))
                book.Add($"{path}.throughDay", RuleBook.Text(through), $"must be 0 or more and later than the step before; allowed: {(earlier?.ThroughDay ?? -1) + 1} or more.");
        }

        if (plan.Count > 0 && !plan.Any(step => step.Species is null))
            book.Add("feeding.plan", null, "has steps for named species only: add one without species, for all others.");
    }

    private static void CheckFat(IList<FatOptions> rules, RuleBook book)
    {
        for (var i = 0; i < rules.Count; i++)
        {
            var (rule, path) = (rules[i], $"feeding.fat[{i}]");
            if (string.IsNullOrWhiteSpace(rule.Species))
                book.Add($"{path}.species", rule.Species, "missing: fat is given to a named species only.");
            book.Between($"{path}.fromDay", rule.FromDay, 0, 1000, "days");
            book.Between($"{path}.throughDay", rule.ThroughDay, rule.FromDay, 1000, "days");
            if (rule.Percent is not (> 0 and <= 5))
                book.Add($"{path}.percent", RuleBook.Text(Decimal(rule.Percent)), "allowed: more than 0, up to 5 % of the mix.");
        }
    }

    private static void CheckChicks(IList<ChickPlanOptions> chicks, RuleBook book)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < chicks.Count; i++)
        {
            var (chick, path) = (chicks[i], $"feeding.chicks[{i}]");
            if (chick.Chick.Length == 0)
                book.Add($"{path}.chick", chick.Chick, "missing: the code of the chick.");
            else if (!seen.Add(chick.Chick))
                book.Add($"{path}.chick", chick.Chick, "stands twice; leave one out.");
            book.Between($"{path}.everyHours", chick.EveryHours is { } hours ? Decimal(hours) : null, 0.5m, MostHours, "h");
        }
    }

    private static bool SameSpecies(string? one, string? other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    private static decimal Decimal(double number) => (decimal)Math.Clamp(number, -1e9, 1e9);

    private static void CheckEmptyingGap(IList<EmptyingStep> steps, RuleBook book)
    {
        var day = -1;
        for (var i = 0; i < steps.Count; i++)
        {
            var path = $"feeding.emptyingGap[{i}]";
            if (steps[i].Hours is not (> 0 and <= 24))
                book.Add($"{path}.hours", RuleBook.Text(Decimal(steps[i].Hours)), "allowed: more than 0, up to 24 hours.");
            if (i == steps.Count - 1)
            {
                if (steps[i].ThroughDay is { } last)
                    book.Add($"{path}.throughDay", RuleBook.Text(last), "the last step has no throughDay: it holds for every later day.");
            }
            else if (steps[i].ThroughDay is not { } through)
            {
                book.Add($"{path}.throughDay", null, "missing: only the last step may leave it out.");
            }
            else if (through <= day)
            {
                book.Add($"{path}.throughDay", RuleBook.Text(through), $"must be 0 or more and later than the step before; allowed: {day + 1} or more.");
            }
            else
            {
                day = through;
            }
        }
    }
}
