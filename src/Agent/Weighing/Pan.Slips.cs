namespace CaptureAgent.Agent.Weighing;

// The liner slips, or is straightened, by little more than a division: a new tare, not a creeping zero.
internal sealed partial class Pan
{
    /// <summary>A slip has come to rest after so long, if it is as still as before.</summary>
    private const double SlipSeconds = 0.7;

    /// <summary>A slip is over in less.</summary>
    private const double SlipTakes = 0.3;

    /// <summary>So long the liner lay still before.</summary>
    private const double BeforeSlipSeconds = 1.5;

    /// <summary>What differs by less, in grams, is no slip: rounding, and the scale's own unrest (the crest of a tone is 1.4 standard deviations high).</summary>
    private double LeastSlip => Math.Max(0.9 * Division, 2 * stillDeviation);

    // Still on one level until then and still on another since. A zero creeps, and a sway was at its crest before.
    private bool HasSlipped(out Window now)
    {
        now = default;
        return MaySlip && recent.TryWindow(SlipSeconds, Math.Max(notBefore, Rest!.Since), out now) && now.Range <= StillRange
            && Math.Abs(now.Change) <= LeastSlip / 2 && Math.Abs(now.Median - Rest.Grams) >= LeastSlip && LayStill(SlipSeconds + SlipTakes);
    }

    // A load comes so soon after a slip that the pan has not come to rest: what was read last before it touched down is its tare.
    private void MindSlip()
    {
        const double NewestSeconds = 0.4;
        const int LeastReadings = 2;
        if (!MaySlip || !LayStill(TouchSeconds + NewestSeconds + SlipSeconds))
            return;
        double sum = 0, ages = 0, low = double.MaxValue, high = double.MinValue;
        var n = 0;
        for (var i = 0; i < recent.Count; i++)
        {
            var (at, grams) = recent.Back(i);
            var age = recent.LastSeconds - at;
            if (age < TouchSeconds)
                continue;
            if (age > TouchSeconds + NewestSeconds && n >= LeastReadings)
                break;
            (n, sum, ages, low, high) = (n + 1, sum + grams, ages + age, Math.Min(low, grams), Math.Max(high, grams));
        }

        if (n < LeastReadings || high - low > StillRange || low - Rest!.Grams < LeastSlip && Rest.Grams - high < LeastSlip)
            return;
        RestAfterSlip(sum / n, WithRounding((high - low) / 2, stillDeviation), recent.LastSeconds - ages / n);
    }

    private bool MaySlip => swaysBy == 0 && !isSettling;

    /// <param name="skip">Until so many seconds ago.</param>
    private bool LayStill(double skip) =>
        recent.TryWindow(BeforeSlipSeconds, notBefore, out var then, skip) && then.Range <= StillRange && Math.Abs(then.Median - Rest!.Grams) < LeastSlip / 2;

    private void RestAfterSlip(double level, double uncertainty, double moment)
    {
        // On a coarse scale a towel that is laid down or taken away is no more than a slip.
        var lined = Math.Abs(level - Rest!.Grams) < LeastLiner ? Rest.Lined : level - bare > LeastLiner;
        Rest = Rest with { Grams = level, Uncertainty = uncertainty, Moment = moment, Lined = lined };
        if (!Rest.Lined)
            bare = level;
        tracking.Begin(recent.LastSeconds);
        notBefore = recent.LastSeconds - SlipSeconds;
    }
}
