using CaptureAgent.Agent.Configuration;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Feeding.ProbeChecks;

/// <summary>What the checks of one probe say of its readings.</summary>
/// <param name="days">For how long a check counts.</param>
internal sealed class ProbeCorrection(DeviceOptions device, int days, IEnumerable<ProbeCheckRow> checks)
{
    /// <summary>Class of accuracy that a thermometer for food has (EN 13485; from memory).</summary>
    private const double UsualAccuracy = 0.5;

    /// <summary>Of a bath of ice or boiling water as a keeper makes it, and of the probe's line between them, °C (common practice, no source).</summary>
    private const double BathUncertainty = 0.1, LineUncertainty = 0.1;

    private readonly Dictionary<string, ProbeCheckRow> newest = Newest(checks.Where(check => check.Device == device.Id));

    public void Add(ProbeCheckRow check) => newest[check.Kind] = check;

    /// <summary>The newest check of any kind; null: never checked.</summary>
    public ProbeCheckRow? Last => newest.Values.MaxBy(check => check.At);

    /// <summary>Its newest check is young enough, and good.</summary>
    public bool IsChecked(DateTimeOffset at) => Last is { IsWithinTolerance: true } last && at - last.At <= TimeSpan.FromDays(days);

    /// <summary>How much too high a reading is, °C: a line through ice and boiling point, or the one error that is known. A probe out of tolerance is not mended by a number.</summary>
    public double ErrorAt(double celsius, DateTimeOffset at)
    {
        if (!IsChecked(at))
            return 0;
        if (Error(ProbeCheckKind.Reference, at) is { } reference)
            return reference;
        var (ice, boil) = (Error(ProbeCheckKind.Ice, at), Error(ProbeCheckKind.Boil, at));
        return ice is { } low && boil is { } high
            ? low + ((high - low) * Math.Clamp(celsius, 0, 100) / 100)
            : ice ?? boil ?? 0;
    }

    /// <summary>One standard uncertainty of a corrected temperature, of the probe alone, °C.</summary>
    public double Uncertainty(DateTimeOffset at) => IsChecked(at)
        ? Math.Sqrt((BathUncertainty * BathUncertainty) + (LineUncertainty * LineUncertainty))
        : (double)(device.AccuracyCelsius ?? (decimal)UsualAccuracy) / Math.Sqrt(3);

    private double? Error(string kind, DateTimeOffset at) =>
        newest.TryGetValue(kind, out var check) && check.IsWithinTolerance && at - check.At <= TimeSpan.FromDays(days) ? check.ErrorMillicelsius / 1000.0 : null;

    private static Dictionary<string, ProbeCheckRow> Newest(IEnumerable<ProbeCheckRow> checks)
    {
        Dictionary<string, ProbeCheckRow> found = new(StringComparer.Ordinal);
        foreach (var check in checks.OrderBy(check => check.At))
            found[check.Kind] = check;
        return found;
    }
}
