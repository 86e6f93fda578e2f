namespace CaptureAgent.Agent.Configuration;

internal sealed class FeedingOptions
{
    /// <summary>Hours a crop is given to empty, by day of age: up to and including <see cref="EmptyingStep.ThroughDay"/>; the last has none.</summary>
    /// <remarks>Empty until bound: a binder adds to a list that is there. Left out, <see cref="DefaultEmptyingGap"/> holds.</remarks>
    public IList<EmptyingStep> EmptyingGap { get; set; } = [];

    /// <summary>The batch: temperatures, its clock, checks of the probe.</summary>
    public BatchOptions Batch { get; set; } = new();

    /// <summary>How often, how thick and how much, by age; a step that names a species goes before those that name none. Left out, <see cref="CaptureAgent.Agent.Feeding.PlanDefaults"/> holds.</summary>
    public IList<PlanOptions> Plan { get; set; } = [];

    /// <summary>Fat supplement, only where it is set for the species and age: none by default (fatty liver in young kakapo on a rich diet: Eason and Moorhouse 2006, Notornis 53:116).</summary>
    public IList<FatOptions> Fat { get; set; } = [];

    /// <summary>Chicks that are fed otherwise than their age says.</summary>
    public IList<ChickPlanOptions> Chicks { get; set; } = [];

    /// <summary>Local times between which only steps with <see cref="PlanOptions.ThroughNight"/> are fed. 23:00 to 06:00: last feed 22 to 24 h is common practice,
    /// no source; a gap of six hours at least lets the crop empty (a veterinary clinic's page after Harris, VIN PR00290).</summary>
    public TimeOnly NightFrom { get; set; } = new(23, 0);

    public TimeOnly NightUntil { get; set; } = new(6, 0);

    /// <summary>A feed so many minutes overdue is said aloud, 1 to 720; 30: common practice, no source.</summary>
    public double LateMinutes { get; set; } = 30;

    /// <summary>A chick that is being weaned (the weaning card) counts as weaned once nobody has fed it for so many days, 1 to 6; 3: common practice, no source.</summary>
    public double WeanedAfterDays { get; set; } = 3;

    /// <summary>The step of the scale on which formula is mixed, 0.01 to 50 g.</summary>
    public decimal KitchenScaleGrams { get; set; } = 1;

    /// <summary>Mixed beyond what the chicks take, for what stays in bowl and syringes, 0 to 100 %; 10: common practice, no source.</summary>
    public double SparePercent { get; set; } = 10;

    /// <summary>1.5 h to day 5, 2.5 h to day 20, then 4 h; sources: <see cref="CaptureAgent.Agent.Feeding.EmptyingGap"/>.</summary>
    public static IList<EmptyingStep> DefaultEmptyingGap() =>
    [
        new() { ThroughDay = 5, Hours = 1.5 },
        new() { ThroughDay = 20, Hours = 2.5 },
        new() { Hours = 4 },
    ];
}

internal sealed class EmptyingStep
{
    /// <summary>0 or more, rising from step to step.</summary>
    public int? ThroughDay { get; set; }

    /// <summary>More than 0, up to 24.</summary>
    public double Hours { get; set; }
}

internal sealed class PlanOptions
{
    /// <summary>As in the register; null: any.</summary>
    public string? Species { get; set; }

    /// <summary>0 or more, rising from step to step of a species; the last has none.</summary>
    public int? ThroughDay { get; set; }

    /// <summary>From one feed to the next, 0.5 to 24 h.</summary>
    public double EveryHours { get; set; } = 8;

    /// <summary>Fed through the night as well.</summary>
    public bool ThroughNight { get; set; }

    /// <summary>Dry formula in the mix, 3 to 50 % by weight.</summary>
    public double SolidsPercent { get; set; } = 30;

    /// <summary>The largest feed, 1 to 12 % of body weight.</summary>
    public double MostPercent { get; set; } = 10;
}

internal sealed class FatOptions
{
    /// <summary>As in the register.</summary>
    public string Species { get; set; } = "";

    /// <summary>The youngest age in days that may have it, 0 or more.</summary>
    public int FromDay { get; set; }

    /// <summary>The oldest; null: until weaned.</summary>
    public int? ThroughDay { get; set; }

    /// <summary>Of the wet mix, more than 0, up to 5 %.</summary>
    public double Percent { get; set; }
}

internal sealed class ChickPlanOptions
{
    public string Chick { get; set; } = "";

    /// <summary>0.5 to 24 h; null: by age.</summary>
    public double? EveryHours { get; set; }

    /// <summary>No formula any more.</summary>
    public bool Weaned { get; set; }
}

/// <summary>How often the chores of hygiene come round; 0: not asked for.</summary>
internal sealed class HygieneOptions
{
    /// <summary>Soap, disinfect, rinse (in this order; gloves and tools between feeds: Stanley in Duerr and Gage 2020, p. 616), 0 to 168 h; 12: common practice, no source.</summary>
    public double WashHours { get; set; } = 12;

    /// <summary>Syringes and plungers are discarded after so many days, 0 to 90; 7: common practice, no source.</summary>
    public double SyringeDays { get; set; } = 7;

    /// <summary>Water and weaning bowls are changed, 0 to 168 h; 12: common practice, no source.</summary>
    public double BowlsHours { get; set; } = 12;

    /// <summary>Bowls are asked for once a chick of this age, or one that is being weaned, is here, 0 or more; 35: common practice, no source.</summary>
    public int BowlsFromDay { get; set; } = 35;

    /// <summary>The pan is disinfected when another clutch's turn comes ("gloves between clutches": Stanley, p. 616).</summary>
    public bool PanBetweenClutches { get; set; } = true;
}
