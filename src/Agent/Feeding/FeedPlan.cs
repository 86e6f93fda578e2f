using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Feeding;

/// <summary>What the station's feeding plan says of a chick.</summary>
internal sealed class FeedPlan(FeedingOptions options, TimeZoneInfo zone)
{
    private readonly IReadOnlyList<PlanOptions> steps = options.Plan.Count > 0 ? [.. options.Plan] : PlanDefaults.Steps;
    private readonly Dictionary<string, ChickPlanOptions> chicks = options.Chicks.ToDictionary(chick => chick.Chick, StringComparer.Ordinal);

    /// <summary>After so long a feed that is due is late.</summary>
    public TimeSpan Late { get; } = TimeSpan.FromMinutes(options.LateMinutes);

    private readonly TimeSpan weanedAfter = TimeSpan.FromDays(options.WeanedAfterDays);

    /// <summary>The chick has no formula any more: station.json says so, or it is being weaned (by the card) and nobody has fed it for some days.</summary>
    /// <remarks>A feed that is recorded takes a chick back among those that are fed, unless station.json says that it is weaned.</remarks>
    public bool IsWeaned(string code, DateTimeOffset? weaningSince, DateTimeOffset? lastFeed, DateTimeOffset at)
    {
        if (chicks.TryGetValue(code, out var own) && own.Weaned)
            return true;
        return weaningSince is { } began && at - began >= weanedAfter && !(at - lastFeed < weanedAfter);
    }

    public bool IsWeaned(string code, Ledger ledger, DateTimeOffset at) => IsWeaned(code, ledger.WeaningSince(code), ledger.LastFeed(code)?.At, at);

    /// <summary>The step for a species and age; for an age that is not known the last: a feed too few is asked for by the crop, one too many overfills it.</summary>
    public PlanOptions StepOf(string? species, int? ageDays)
    {
        var own = steps.Where(step => step.Species is not null && string.Equals(step.Species, species?.Trim(), StringComparison.OrdinalIgnoreCase)).ToList();
        var those = own.Count > 0 ? own : steps.Where(step => step.Species is null).ToList();
        return those.Find(step => step.ThroughDay is not { } through || ageDays <= through) ?? those[^1];
    }

    /// <summary>From one feed to the next.</summary>
    public TimeSpan EveryOf(Chick chick, int? ageDays) =>
        TimeSpan.FromHours(chicks.TryGetValue(chick.Code, out var own) && own.EveryHours is { } hours ? hours : StepOf(chick.Species, ageDays).EveryHours);

    /// <summary>How many feeds fit into a day: through the night, or between its end and its beginning.</summary>
    public int FeedsADay(Chick chick, int? ageDays)
    {
        var every = EveryOf(chick, ageDays);
        var whole = TimeSpan.FromHours(24);
        return StepOf(chick.Species, ageDays).ThroughNight
            ? Math.Max(1, (int)(whole / every))
            : 1 + (int)((whole - (options.NightUntil - options.NightFrom)) / every);
    }

    /// <summary>Fat in the mix, in per cent; 0 unless the keeper has set it for the species and age.</summary>
    public double FatPercentOf(string? species, int? ageDays)
    {
        foreach (var rule in options.Fat)
        {
            if (string.Equals(rule.Species, species?.Trim(), StringComparison.OrdinalIgnoreCase) && ageDays >= rule.FromDay && !(ageDays > rule.ThroughDay))
                return rule.Percent;
        }

        return 0;
    }

    /// <summary>When the next feed is due after one.</summary>
    /// <remarks>
    /// A feed that would fall into the night is due at its beginning, if half of the interval has passed by then (the late feed); else at its end.
    /// The longest fast that the plan allows is so the night and half an interval.
    /// </remarks>
    public DateTimeOffset DueAfter(DateTimeOffset feed, Chick chick, int? ageDays)
    {
        var every = EveryOf(chick, ageDays);
        var due = feed + every;
        if (StepOf(chick.Species, ageDays).ThroughNight || NightAround(due) is not { } night)
            return due;
        return night.From - feed >= every / 2 ? night.From : night.Until;
    }

    /// <summary>The night that the moment falls into; null by day.</summary>
    private (DateTimeOffset From, DateTimeOffset Until)? NightAround(DateTimeOffset at)
    {
        var local = TimeZoneInfo.ConvertTime(at, zone).DateTime;
        var time = TimeOnly.FromDateTime(local);
        if (!time.IsBetween(options.NightFrom, options.NightUntil))
            return null;
        var evening = DateOnly.FromDateTime(local);
        if (time < options.NightFrom)
            evening = evening.AddDays(-1);
        var morning = options.NightUntil > options.NightFrom ? evening : evening.AddDays(1);
        return (Moment(evening.ToDateTime(options.NightFrom)), Moment(morning.ToDateTime(options.NightUntil)));
    }

    // A local time that a change of the clocks leaves out is taken an hour later.
    private DateTimeOffset Moment(DateTime local)
    {
        var valid = zone.IsInvalidTime(local) ? local.AddHours(1) : local;
        return new DateTimeOffset(valid, zone.GetUtcOffset(valid)).ToUniversalTime();
    }
}
