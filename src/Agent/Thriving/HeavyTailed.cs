namespace CaptureAgent.Agent.Thriving;

/// <summary>A normal density with a share of a wider one: what a prior says is mostly right, and now and then far off.</summary>
/// <remarks>
/// A nursery's chicks may grow much faster or more slowly than the few that were published of their species, or than the allometry has it. With normal
/// tails no number of weights would bring such a chick onto its course, and it would look as if it failed where its growth ends.
/// </remarks>
internal static class HeavyTailed
{
    private const double Far = 0.1, Wider = 2.5;

    /// <summary>ln of the density, less a constant.</summary>
    /// <param name="z">In standard deviations.</param>
    public static double Log(double z) => Math.Log((1 - Far) * Math.Exp(-z * z / 2) + Far / Wider * Math.Exp(-z * z / (Wider * Wider) / 2));
}
