namespace CaptureAgent.Agent.Weighing;

/// <summary>What lay on the pan before a load and after its lift.</summary>
/// <param name="Before">The tare of the weighing.</param>
/// <param name="After">The same liner when the pan was still again.</param>
/// <param name="UncertaintyGrams">One standard uncertainty of <see cref="ChangeGrams"/>: the noise of both, and the rounding of both to the division.</param>
/// <param name="LoadSeconds">The moment that the load's weight is of, as <see cref="Rest.Moment"/> is of the tares.</param>
internal sealed record TareComparison(Rest Before, Rest After, double LoadSeconds, double UncertaintyGrams)
{
    /// <summary>A drift is taken for a straight line over no longer than this (a choice; no source).</summary>
    private const double LineSeconds = 120;

    public double ChangeGrams => After.Grams - Before.Grams;

    /// <summary>Between the two tares.</summary>
    public double Seconds => After.Moment - Before.Moment;

    public static TareComparison Of(Rest before, Rest after, double loadSeconds) =>
        new(before, after, loadSeconds, Uncertainty.Combine(before.Uncertainty, after.Uncertainty, accuracy: 0));

    /// <summary>More than drift and noise: something slipped, came or went; the weight may be off by as much.</summary>
    /// <remarks>A drift may come to the acceptance band, and reading both tares to twice its uncertainty: independent, so that they add in squares.</remarks>
    /// <param name="net">The load less the tare, in grams.</param>
    public bool IsSlip(double net, double division)
    {
        var band = Uncertainty.Band(net, division);
        return Math.Abs(ChangeGrams) > Math.Sqrt(band * band + 4 * UncertaintyGrams * UncertaintyGrams) + 1e-9;
    }

    /// <summary>The load's weight with the straight-line drift between the two tares taken out, in grams; null where the change is no drift, or came too late.</summary>
    public double? WithoutDrift(double net, double division)
    {
        if (IsSlip(net, division) || Seconds > LineSeconds)
            return null;
        var drift = LinearDrift.Of([
            new Compared(0, Before.Moment, Before.Grams),
            new Compared(1, LoadSeconds, Before.Grams + net),
            new Compared(0, After.Moment, After.Grams)]);
        return drift.Difference(1, 0);
    }
}
