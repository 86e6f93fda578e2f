using CaptureAgent.Agent.Events;

namespace CaptureAgent.Agent.Round;

// The scale itself, checked with a known mass.
internal sealed partial class DecisionMaker
{
    public void Check(Attempt attempt, in Measured weight, CheckMass mass, List<StationEvent> events)
    {
        var grams = Milligram.Nearest(weight.Grams);
        var error = grams - mass.Grams;
        var tolerance = mass.ToleranceGrams ?? Milligram.Nearest(Math.Max(weight.Division, rules.Accuracy.GetValueOrDefault(attempt.Device)));
        var ok = Math.Abs(error) <= tolerance;
        var found = FormattableString.Invariant($"The scale makes {grams:0.0##} g of the check mass of {mass.Grams:0.0##} g");
        events.Add(new CheckEvent(
            attempt.At, attempt.Device, grams, mass.Grams, error, tolerance, ok,
            FormattableString.Invariant($"{found}: off by {error:0.0##} g, and {tolerance:0.0##} g are allowed."))
        {
            Id = ids.Next("check", attempt.At),
            UncertaintyGrams = Milligram.Nearest(UncertaintyOf(attempt, weight)),
        });
        if (ok)
            return;
        events.Add(new AlertEvent(attempt.At, "scale-out-of-tolerance", null, attempt.Device, FormattableString.Invariant(
            $"{found}: off by {error:0.0##} g, and {tolerance:0.0##} g are allowed. Level the scale, let it warm up, see that mass and pan are clean and dry, then scan the check card again. If it stays so, call whoever services the scale. Do not adjust the weight of any chick for it.")));
    }
}
