namespace CaptureAgent.Agent.Thriving;

/// <summary>What a keeper can see of a chick.</summary>
internal static class ObservationKinds
{
    public const string Weaning = "weaning";

    public const string CropBlistered = "crop-blistered";
    public const string CropNotDown = "crop-not-down";
    public const string PlaqueInMouth = "plaque-in-mouth";
    public const string BeakOffLine = "beak-off-line";
    public const string LiesOnBack = "lies-on-back";
    public const string RingOnToe = "ring-on-toe";
    public const string Listless = "listless";

    /// <summary>Its crop was full when it should have been empty: a card of its own, and rows of its own.</summary>
    public const string CropFull = "crop-full";

    /// <summary>What a card of observation can say: behaviour, then the look-over that belongs to every feed.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "active", "eats-alone", "flapping", Listless, "crop-smooth", CropBlistered, CropNotDown, PlaqueInMouth, RingOnToe, BeakOffLine, LiesOnBack, Weaning,
    ];

    /// <summary>As a keeper reads it.</summary>
    public static string Words(string kind) => kind == CropFull ? "crop seen full" : kind.Replace('-', ' ');

    /// <summary>What cannot wait, whatever the weight says; null: it can.</summary>
    /// <remarks>A crop that stands and a burnt one: Romagnano; Merck manual (both from memory). The others: common practice, no source.</remarks>
    public static string? Urgent(string kind) => kind switch
    {
        CropBlistered => "a blistered crop may be burnt: avian veterinarian, today. Check the formula's temperature before anyone else is fed.",
        CropNotDown => "a crop that has not gone down: do not feed on it; avian veterinarian, today.",
        PlaqueInMouth => "plaque in the mouth: avian veterinarian, today. Its own syringe, and clean hands before the next chick.",
        LiesOnBack => "a chick that lies on its back: keep it warm and upright; avian veterinarian, today.",
        Listless => "a listless chick: keep it warm; avian veterinarian, today, whatever it weighs.",
        RingOnToe => "a ring on a toe stops the blood: avian veterinarian, today, unless it slips off easily.",
        BeakOffLine => "a beak off line is easier to set right the sooner it is seen: ask an avian veterinarian, today.",
        _ => null,
    };
}
