namespace CaptureAgent.Agent.Thriving;

/// <summary>Chicks at and past the peak: what they lose should be slow, and within the usual part of the peak weight.</summary>
/// <remarks>
/// Published series that go on past the peak lose 11 % of it in the middle, 21 % at the ninetieth centile, mostly less than 1 % a day; more than 3 % in a
/// day or 5 % in two is not seen in thriving chicks (from the series named in reference-curves.tsv; Groffen et al. give 20 % for hand-reared Spix's macaws).
/// </remarks>
internal static class Weaning
{
    /// <summary>Parts of the peak weight: more is to be looked at; cannot wait.</summary>
    public const double UsualPart = 0.22, FarBeyond = 0.33;

    /// <summary>Parts of the most that a weaned chick has weighed since it was: to be looked at; cannot wait (a bird that lost a tenth is taken to be ill until shown otherwise: common practice, no source).</summary>
    public const double WeanedLook = 0.06, WeanedRed = 0.1;

    /// <summary>Gain of ln(weight) a day, past the peak, that is in order.</summary>
    public const double AllowedRate = -0.015;

    /// <summary>A loss that is steeper than this is no recession.</summary>
    public const double SteepRate = -0.03;

    /// <summary>Less, of the peak weight, is no loss worth a word.</summary>
    public const double Told = 0.01;

    /// <summary>After the gain is over.</summary>
    private const int DueDays = 3;

    /// <summary>Days on which it is said again.</summary>
    private const int DueTold = 7;

    public static IEnumerable<GrowthFinding> Of(ChickMorning each)
    {
        var watch = each.Watch;
        if (watch.Stage == Stage.Weaned && watch.LostSinceWeaned > WeanedLook)
            yield return Sentences.LossOfWeaned(each);
        else if (watch.Urgency != Severities.Note || watch.IsBeyond || watch.Stage == Stage.Weaning && watch.Lost >= Told)
            yield return Sentences.WeaningLoss(each);
        if (watch.Stage == Stage.Peak && watch.DaysInStage is >= DueDays and <= DueDays + DueTold)
            yield return Sentences.WeaningDue(each);
    }
}
