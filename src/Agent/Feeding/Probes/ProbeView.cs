namespace CaptureAgent.Agent.Feeding.Probes;

internal enum ProbePlace
{
    /// <summary>In air or rinse water, or nothing is known.</summary>
    Out,

    /// <summary>In something new and not yet at rest: what is told is a forecast.</summary>
    Moving,

    /// <summary>In something warm, and shows its temperature.</summary>
    AtRest,

    /// <summary>Falls as if lifted out: for some seconds that may be a move.</summary>
    Leaving,
}

/// <summary>What one reading of a probe means.</summary>
/// <param name="InFormula">It is in something warm: <paramref name="Celsius"/> counts.</param>
/// <param name="Celsius">The temperature that it is in, now: a forecast while it moves.</param>
/// <param name="Deviation">One standard uncertainty of that, of the fit alone.</param>
/// <param name="Rising">Still on its way up.</param>
/// <param name="Visit">Counts up whenever the probe comes to another place: lifted and put back, moved, taken out and back.</param>
internal readonly record struct ProbeView(ProbePlace Place, bool InFormula, double Celsius, double Deviation, bool Rising, int Visit)
{
    public bool Settled => Place == ProbePlace.AtRest;
}
