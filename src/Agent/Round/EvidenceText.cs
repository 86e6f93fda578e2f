using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol.Scales;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Round;

/// <summary>The readings behind a decision, from some seconds before the load came until the decision, as text that will still be readable in ten years; <see cref="EvidenceReader"/> reads it.</summary>
/// <remarks>
/// First line: <c>samples/2</c>, then key=value. Moments are seconds after <c>from</c>, which is on the station's axis; masses are grams. Numbers are exact.
/// <list type="bullet">
/// <item><c>placed</c>: when the load came. <c>division</c>: the scale interval.</item>
/// <item><c>zero</c>, <c>zeroUncertainty</c>, <c>stillDeviation</c>: the level from which the settler counted, how sure it was, and the readings' deviation when nothing moves.
/// <c>fastestRise</c>: seconds in which this scale had risen at the fastest; left out where it was not known.
/// <c>driftPerSecond</c>: root mean square rate of the zero's drift, grams a second, as far as it was known then.</item>
/// <item><c>tare</c>, <c>tareUncertainty</c>, <c>tareSince</c>, <c>lined</c>: what the weight was taken from; left out where it was not known. <c>bare</c>: the tare was only presumed
/// to be the liner, over a bare pan at this level.</item>
/// <item><c>expected</c>, <c>expectedAt</c>: what the chick should weigh by its own record, and when that was known. <c>coded</c>: when its code was known.</item>
/// <item><c>habitForce</c>, <c>habitMomentum</c>, <c>habitForceSpread</c>, <c>habitMomentumSpread</c>, <c>habitMornings</c>: how the chick moved on that many earlier mornings: medians of
/// the natural logarithms of force and momentum over weight, and their spreads; left out where that was not known.</item>
/// <item><c>judged</c>: the reading whose value was taken, or <c>none</c>; left out: the last.</item>
/// <item><c>flags</c>: hasty, link-lost, restarted, unit-changed, overload, underload, asked-again, finished (the scale sends finished values only: the last reading is the weight). <c>overflow</c>: readings that were not kept.</item>
/// </list>
/// Then a line a reading: seconds, grams as shown (or + over, - under), marks: S stable, U unstable; N net, G gross; L: came late, in a lump with others. A line <c>gap</c>: readings were missed there.
/// <c>samples/1</c> had neither gaps, nor most of the keys, and fewer digits.
/// </remarks>
internal static class EvidenceText
{
    public const string Format = "samples/2";

    public static Evidence Of(Placing placing, in Measured weight)
    {
        var text = new StringBuilder();
        var zero = placing.Samples.Count > 0 ? placing.Samples[0].Seconds : placing.Seconds;
        Head(text, placing, weight, zero);
        var gaps = placing.Gaps;
        var gap = 0;
        for (var i = 0; i < placing.Samples.Count; i++)
        {
            for (; gap < gaps.Count && gaps[gap] <= i; gap++)
                text.Append("gap\n");
            Line(text, placing.Samples[i], zero);
        }

        for (; gap < gaps.Count; gap++)
            text.Append("gap\n");
        return new Evidence(Format, Encoding.UTF8.GetBytes(text.ToString()))
        {
            Motion = weight.Motion is { } motion
                ? new EvidenceMotion(Micrograms(motion.Force), Micrograms(motion.Momentum), Micrograms(placing.Context.StillDeviation))
                : null,
        };
    }

    private static void Head(StringBuilder text, Placing placing, in Measured weight, double zero)
    {
        text.Append(Format);
        Key(text, "from", zero);
        Moment(text, "placed", placing.Seconds, zero);
        Key(text, "division", weight.Division);
        Key(text, "zero", placing.Zero);
        Key(text, "zeroUncertainty", placing.Context.TareUncertainty);
        Key(text, "stillDeviation", placing.Context.StillDeviation);
        if (double.IsFinite(placing.Context.FastestRise))
            Key(text, "fastestRise", placing.Context.FastestRise);
        if (placing.DriftPerSecond > 0)
            Key(text, "driftPerSecond", placing.DriftPerSecond);
        if (weight.Tare is { } tare)
        {
            Key(text, "tare", tare.Grams);
            Key(text, "tareUncertainty", tare.Uncertainty);
            Moment(text, "tareSince", tare.Since, zero);
            Key(text, "lined", tare.Lined ? 1 : 0);
            if (tare.Bare is { } bare)
                Key(text, "bare", bare.Grams);
        }

        if (placing.Expected is { } expected)
        {
            Key(text, "expected", expected.Grams);
            Moment(text, "expectedAt", expected.Seconds, zero);
            if (placing.Habit is { Mornings: > 0 } habit)
                Habit(text, habit);
        }

        if (placing.CodedSeconds is { } coded)
            Moment(text, "coded", coded, zero);
        if (placing.JudgedSeconds is { } judged)
        {
            if (double.IsFinite(judged))
                Moment(text, "judged", judged, zero);
            else
                text.Append(" judged=none");
        }

        var flags = Flags(placing);
        if (flags.Length > 0)
            text.Append(CultureInfo.InvariantCulture, $" flags={flags}");
        text.Append(CultureInfo.InvariantCulture, $" overflow={placing.Overflow}\n");
    }

    private static void Habit(StringBuilder text, in MotionHabit habit)
    {
        Key(text, "habitForce", habit.LogForce);
        Key(text, "habitMomentum", habit.LogMomentum);
        Key(text, "habitForceSpread", habit.ForceSpread);
        Key(text, "habitMomentumSpread", habit.MomentumSpread);
        Key(text, "habitMornings", habit.Mornings);
    }

    private static long Micrograms(double grams) => (long)Math.Round(grams * 1e6);

    private static string Flags(Placing placing) => string.Join(',', ((ReadOnlySpan<(string Name, bool Set)>)
    [
        ("hasty", placing.HastyTare), ("link-lost", placing.LinkLost), ("restarted", placing.Restarted),
        ("unit-changed", placing.UnitChanged), ("overload", placing.Overload), ("underload", placing.Underload),
        ("finished", placing.IsFinished),
        ("asked-again", placing.AskedAgain),
    ]).ToArray().Where(flag => flag.Set).Select(flag => flag.Name));

    private static void Key(StringBuilder text, string key, double value) => text.Append(CultureInfo.InvariantCulture, $" {key}={value:R}");

    private static void Moment(StringBuilder text, string key, double seconds, double zero) =>
        text.Append(CultureInfo.InvariantCulture, $" {key}={Offset(seconds, zero)}");

    // A double of this size is exact to 8 microseconds: six decimals give the very same back.
    private static string Offset(double seconds, double zero) => (seconds - zero).ToString("0.######", CultureInfo.InvariantCulture);

    private static void Line(StringBuilder text, in PanSample sample, double zero)
    {
        text.Append(Offset(sample.Seconds, zero)).Append(' ');
        switch (sample.Range)
        {
            case LoadRange.Overload:
                text.Append('+');
                break;
            case LoadRange.Underload:
                text.Append('-');
                break;
            default:
                text.Append(CultureInfo.InvariantCulture, $"{sample.Grams}");
                break;
        }

        text.Append(sample.Stability switch { Stability.Stable => " S", Stability.Unstable => " U", _ => " " });
        text.Append(sample.Mark switch { WeightMark.Net => "N", WeightMark.Gross => "G", _ => "" });
        text.Append(sample.IsLate ? "L\n" : "\n");
    }
}
