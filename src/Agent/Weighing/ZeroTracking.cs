namespace CaptureAgent.Agent.Weighing;

/// <summary>How fast a tare may follow what the empty pan shows.</summary>
/// <remarks>
/// Until the pan has once been in stable equilibrium the tare is still being set, and goes where the readings go. From then on a creeping zero is followed by
/// half a division a second at most (OIML R 76-1:2006, 4.5.7), so that a load that comes slowly is not taken for drift; a level that has come to rest elsewhere
/// (a crumb, a dropping) is a new tare, set in stable equilibrium (4.6). Clause numbers and figures from memory.
/// </remarks>
internal sealed class ZeroTracking
{
    /// <summary>Largest correction, in divisions a second.</summary>
    public const double DivisionsPerSecond = 0.5;

    /// <summary>Two neighbouring values for so long are stable equilibrium here; the standard's test (A.4.12) watches for five, and has no next chick to wait for.</summary>
    public const double EquilibriumSeconds = 2;

    private double last;

    /// <summary>The tare was read in stable equilibrium.</summary>
    public bool Established { get; private set; }

    /// <summary>A tare begins to be set.</summary>
    public void Begin(double seconds)
    {
        last = seconds;
        Established = false;
    }

    /// <summary>The tare after a reading.</summary>
    /// <param name="tare">Grams, like <paramref name="level"/>, where the readings are now.</param>
    /// <param name="inEquilibrium">Whether the readings have been in stable equilibrium.</param>
    public double Follow(double tare, double level, double seconds, double division, bool inEquilibrium)
    {
        var most = DivisionsPerSecond * division * Math.Max(0, seconds - last);
        last = seconds;
        if (inEquilibrium)
            Established = true;
        return inEquilibrium || !Established ? level : tare + Math.Clamp(level - tare, -most, most);
    }
}
