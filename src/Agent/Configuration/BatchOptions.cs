namespace CaptureAgent.Agent.Configuration;

/// <summary>When a batch of formula may be fed. Temperatures in °C.</summary>
/// <remarks>The band must be set for each house and species: 43 °C is used for kakapo (an interview, Radio New Zealand, about 2016), which touches the limit at which crops burn.</remarks>
internal sealed class BatchOptions
{
    /// <summary>What formula is mixed to: "about 40 °C" (Superb Parrot husbandry manual, Western Sydney TAFE, 11.8). Between the band's ends.</summary>
    public decimal TargetCelsius { get; set; } = 40;

    /// <summary>Below it formula is too cold: 38 to 40.5 °C (Stanley, Lorikeets, in Duerr and Gage, Hand-Rearing Birds, 2nd ed. 2020, p. 616). 30 or more.</summary>
    public decimal LowCelsius { get; set; } = 38;

    /// <summary>Above it formula is too hot: the upper end of the same source, and half a degree for the probe.</summary>
    public decimal HighCelsius { get; set; } = 41;

    /// <summary>From here on it may burn a crop: above 43.3 °C it does (Rivera, Pediatric avian medicine: traumatic conditions, 2008), less 0.5 for the probe and 0.3 for the stirring. At most 43.3.</summary>
    public decimal StopCelsius { get; set; } = 42.5m;

    /// <summary>Readings at different places that differ by more mean that it is not stirred (common practice, no source). 0.2 to 5.</summary>
    public decimal SpreadCelsius { get; set; } = 1;

    /// <summary>Minutes after mixing at which what is left is thrown away (common practice, no source). 1 to 120: two hours are the limit for powdered infant formula (WHO/FAO 2007, ISBN 978 92 4 159541 4).</summary>
    public decimal DiscardMinutes { get; set; } = 20;

    /// <summary>Minutes before that at which it is said. 0 (never) to less than <see cref="DiscardMinutes"/>; null: 5, or half of the time where that is less.</summary>
    public decimal? WarningMinutes { get; set; }

    /// <summary>Temperature of the room, 0 to 45; null: what the probe shows in air, else about 24.</summary>
    public decimal? RoomCelsius { get; set; }

    /// <summary>Height of the station above the sea, -400 to 5000 m: for the boiling point.</summary>
    public decimal AltitudeMetres { get; set; }

    /// <summary>Boiling point of water here, 80 to 102 °C, from a barometer or a table; null: by the altitude.</summary>
    public decimal? BoilingCelsius { get; set; }

    /// <summary>What a reference thermometer shows beside the probe, 20 to 60 °C; null: no reference.</summary>
    public decimal? ReferenceCelsius { get; set; }

    /// <summary>Days for which a check of a probe counts, 1 to 3650 (common practice, no source).</summary>
    public int ProbeCheckDays { get; set; } = 30;

    /// <summary>Unit of texts, C or F. Events and the store have °C.</summary>
    public string Show { get; set; } = "C";
}
