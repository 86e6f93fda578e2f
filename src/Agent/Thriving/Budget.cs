namespace CaptureAgent.Agent.Thriving;

/// <summary>From which evidence on a finding is told: at most one false look and 0.2 false reds a morning for 100 chicks.</summary>
/// <remarks>
/// In standard deviations of a healthy chick's forecast. Nothing is taken from tables of independent tests: the share of healthy simulated chicks beyond
/// each is counted, day after day, by `thrive` among the benchmarks, with correlated noise and over all onsets.
/// </remarks>
internal static class Budget
{
    /// <summary>A shortfall to be looked at.</summary>
    public const double Look = 2.9;

    /// <summary>A loss or a stall that cannot wait.</summary>
    public const double Red = 3.6;

    /// <summary>A shortfall or a gain worth a note; also a shortfall that mates do not share.</summary>
    public const double Note = 2.0;

    /// <summary>A loss past the peak that is faster than a recession may be.</summary>
    public const double WeaningLook = 3.4;

    /// <summary>One weight above what the chick should have.</summary>
    public const double TooGood = 2.65;

    /// <summary>One weight that another reading of the digits would explain.</summary>
    public const double OddWeight = 3.2;

    /// <summary>One weight that nothing explains.</summary>
    public const double Impossible = 7;
}
