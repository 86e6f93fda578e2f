namespace CaptureAgent.Agent.Thriving;

/// <summary>How urgent it is, by the evidence, that a chick falls short: of its course, or past the peak of what a recession explains.</summary>
/// <param name="Severity">One of <see cref="Severities"/>.</param>
/// <param name="LogRatio">What speaks for it.</param>
/// <param name="Lost">Part of the peak weight, or of a weaned chick's, where that alone is the reason; else 0.</param>
internal readonly record struct Telling(DateOnly Day, string Severity, double LogRatio, double Lost)
{
    /// <summary>Evidence that has grown by so much is told again; so is a loss.</summary>
    private const double Grown = 1, LostMore = 0.03;

    /// <summary>What goes on is told again after so many days.</summary>
    private const int Again = 3;

    public static Telling Of(ChickWatch watch, in Budget budget)
    {
        // Today it is as heavy as its course has it, or heavier: what fell short is on its way back.
        if (watch.LastResidual is { Z: >= 0 } today && today.Day == watch.Day && watch.Lost <= Weaning.UsualPart)
            return new Telling(watch.Day, Severities.Note, 0, 0);
        var ratio = watch.Shortfall.LogRatio;
        var isShort = !watch.MayBeOver && ratio >= Budget.Red && watch.ShortfallKind != FindingKinds.Slow;
        var isRed = watch.MayRecede ? watch.SteepLoss >= Budget.SteepRed : isShort;
        if (isRed || isShort || ratio >= budget.Shortfall(watch))
            return new Telling(watch.Day, isRed ? Severities.Red : Severities.Look, ratio, 0);
        var (lost, usual, far) = watch.Stage == Stage.Weaned
            ? (watch.LostSinceWeaned, Weaning.WeanedLook, Weaning.WeanedRed)
            : (watch.Stage >= Stage.Peak ? watch.Lost : 0, Weaning.UsualPart, Weaning.FarBeyond);
        var isDeep = lost > usual;
        return new Telling(watch.Day, !isDeep ? Severities.Note : lost > far ? Severities.Red : Severities.Look, 0, isDeep ? lost : 0);
    }

    /// <summary>Whether it was not told yet, or has grown since, or goes on: to be told each morning, a healthy chick that was told once would use up what others need.</summary>
    public bool IsNews(Telling? before)
    {
        if (before is not { } told || Severity == Severities.Red && told.Severity != Severities.Red)
            return true;
        return Lost > 0 ? Lost > told.Lost + LostMore : Day.DayNumber - told.Day.DayNumber > Again || LogRatio > told.LogRatio + Grown;
    }
}
