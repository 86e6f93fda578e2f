namespace CaptureAgent.Agent.Feeding.ProbeChecks;

/// <summary>Against what a probe is checked; the words of the store and of the events.</summary>
internal static class ProbeCheckKind
{
    public const string Ice = "ice", Boil = "boil", Reference = "reference";

    public static string Guide(string kind, double expected) => kind switch
    {
        Ice => "Ice point: fill a cup with crushed ice, add just enough clean water to fill the gaps, stir. Put the probe into the middle, off the sides, stir now and then, and wait for the answer (up to five minutes).",
        Boil => FormattableString.Invariant($"Boiling point, {expected:0.0} °C here: put the probe into water that boils strongly, off the bottom, and wait for the answer. Steam scalds: use a holder, keep the cable and your hands away."),
        _ => FormattableString.Invariant($"Reference: put probe and reference thermometer side by side into stirred water of {expected:0.0} °C, and wait for the answer."),
    };
}
