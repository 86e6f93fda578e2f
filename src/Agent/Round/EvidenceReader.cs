using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol.Scales;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Round;

/// <summary>Evidence that this version cannot read.</summary>
/// <param name="message">The line, what stands there, what is allowed.</param>
internal sealed class EvidenceException(string message) : Exception(message);

/// <summary>A placing as its evidence tells it.</summary>
/// <param name="Format">The layout it was written in.</param>
/// <param name="Division">Scale interval d, in grams.</param>
internal sealed record RecordedPlacing(string Format, Placing Placing, double Division);

/// <summary>Reads what <see cref="EvidenceText"/> wrote, in every layout that there ever was; keys it does not know are left alone.</summary>
internal static class EvidenceReader
{
    private const string First = "samples/1";

    /// <exception cref="EvidenceException">Damaged, or of a layout that this version does not know.</exception>
    public static RecordedPlacing Read(Evidence evidence)
    {
        if (evidence.Format is not (First or EvidenceText.Format))
            throw new EvidenceException($"the layout '{evidence.Format}' is not known; this version reads {First} and {EvidenceText.Format}. A newer version of the program wrote it: use that one.");
        var lines = Encoding.UTF8.GetString(evidence.Samples.Span).Split('\n');
        var keys = new EvidenceKeys(lines[0], evidence.Format);
        var zero = keys.Number("from");
        var samples = new List<PanSample>(lines.Length);
        var gaps = new List<int>();
        for (var i = 1; i < lines.Length; i++)
        {
            if (lines[i] == "gap")
                gaps.Add(samples.Count);
            else if (lines[i].Length > 0)
                samples.Add(Sample(lines[i], i + 1, zero));
            else if (i < lines.Length - 1)
                throw new EvidenceException($"line {i + 1} is empty; every line but the first is a reading or 'gap'.");
        }

        var placing = Placing(keys, zero, samples);
        foreach (var gap in gaps)
            placing.MarkGap(gap);
        return new RecordedPlacing(evidence.Format, placing, keys.Number("division"));
    }

    private static Placing Placing(EvidenceKeys keys, double zero, List<PanSample> samples)
    {
        var seconds = zero + keys.Number("placed");
        var tare = Tare(keys, zero);
        var flags = keys.Words("flags");
        var context = new SettleContext(
            seconds, keys.Number("division"), keys.Optional("stillDeviation") ?? StillBefore(samples, seconds), keys.Optional("zeroUncertainty") ?? tare?.Uncertainty ?? 0,
            keys.Optional("fastestRise") ?? double.NaN);
        return new Placing(seconds, tare, samples)
        {
            Zero = keys.Optional("zero") ?? tare?.Grams ?? 0,
            Context = context,
            DriftPerSecond = keys.Optional("driftPerSecond") ?? 0,
            HastyTare = flags.Contains("hasty"),
            LinkLost = flags.Contains("link-lost") || keys.Optional("linkLost") == 1,
            Restarted = flags.Contains("restarted"),
            UnitChanged = flags.Contains("unit-changed"),
            Overload = flags.Contains("overload"),
            Underload = flags.Contains("underload"),
            IsFinished = flags.Contains("finished"),
            AskedAgain = flags.Contains("asked-again"),
            Overflow = (int)keys.Number("overflow"),
            Expected = keys.Optional("expected") is { } grams ? (zero + keys.Number("expectedAt"), grams) : null,
            Habit = keys.Optional("habitMornings") is { } mornings
                ? new MotionHabit(keys.Number("habitForce"), keys.Number("habitMomentum"), keys.Number("habitForceSpread"), keys.Number("habitMomentumSpread"), (int)mornings)
                : default,
            CodedSeconds = zero + keys.Optional("coded"),
            JudgedSeconds = keys.Has("judged", "none") ? double.NegativeInfinity : zero + keys.Optional("judged"),
            Announced = true,
        };
    }

    private static Rest? Tare(EvidenceKeys keys, double zero)
    {
        if (keys.Optional("tare") is not { } grams)
            return null;
        var since = zero + (keys.Optional("tareSince") ?? 0);
        return new Rest(since, grams, keys.Number("tareUncertainty"), keys.Optional("lined") != 0)
        {
            Bare = keys.Optional("bare") is { } bare ? new Rest(since, bare, 0, Lined: false) : null,
        };
    }

    private static PanSample Sample(string line, int number, double zero)
    {
        var parts = line.Split(' ');
        if (parts.Length is < 2 or > 3 || !double.TryParse(parts[0], NumberStyles.Float, CultureInfo.InvariantCulture, out var seconds) || !double.IsFinite(seconds))
            throw Bad(line, number);
        var range = parts[1] switch { "+" => LoadRange.Overload, "-" => LoadRange.Underload, _ => LoadRange.Within };
        decimal grams = 0;
        if (range == LoadRange.Within && !decimal.TryParse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture, out grams))
            throw Bad(line, number);
        var marks = parts.Length == 3 ? parts[2] : "";
        var isLate = marks.EndsWith('L');
        marks = marks.TrimEnd('L');
        if (marks is not ("" or "S" or "U" or "N" or "G" or "SN" or "SG" or "UN" or "UG"))
            throw Bad(line, number);
        var stability = marks.StartsWith('S') ? Stability.Stable : marks.StartsWith('U') ? Stability.Unstable : Stability.Unknown;
        var mark = marks.EndsWith('N') ? WeightMark.Net : marks.EndsWith('G') ? WeightMark.Gross : WeightMark.Unknown;
        return new PanSample(zero + seconds, grams, range, stability, mark, isLate);
    }

    private static EvidenceException Bad(string line, int number) =>
        new($"line {number} is '{line}'; allowed: seconds, grams (or + or -), marks of S, U, N, G and L, as in '1.25 194.6 SG'.");

    // The first layout did not tell it: the deviation of the last second before the load.
    private static double StillBefore(List<PanSample> samples, double placed)
    {
        double[] still = [.. samples.Where(sample => sample.Range == LoadRange.Within && sample.Seconds < placed - 1e-6 && sample.Seconds >= placed - 1)
            .Select(sample => (double)sample.Grams)];
        return still.Length < 2 ? 0 : Series.Deviation(still, Series.Mean(still));
    }
}
