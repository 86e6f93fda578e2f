namespace CaptureAgent.Simulators.Physics.Scales;

/// <summary>The mark that real scales give: the value has stayed within a band about an anchor for a while.</summary>
internal sealed class StabilityFlag(double bandGrams, double windowSeconds)
{
    private double anchor = double.NaN;
    private double since;

    public bool IsStable { get; private set; }

    public void Step(double seconds, double grams)
    {
        if (!(Math.Abs(grams - anchor) <= bandGrams))
        {
            anchor = grams;
            since = seconds;
        }

        IsStable = seconds - since >= windowSeconds;
    }
}
