using System.Globalization;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Commands;

/// <summary>Numbers as tables show them.</summary>
internal static class Shown
{
    public static string? Grams(long? milligrams) => milligrams is { } value ? (value / 1000m).ToString("0.0##", CultureInfo.InvariantCulture) : null;

    public static string? Uncertainty(long? milligrams) => milligrams is { } value ? "±" + (value / 1000m).ToString("0.00#", CultureInfo.InvariantCulture) : null;

    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Second of a moment, UTC.</summary>
    public static string? Utc(DateTimeOffset? at) => at?.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    /// <summary>Day of the month and time in the station's zone.</summary>
    public static string? Local(DateTimeOffset? at, TimeZoneInfo zone) =>
        at is { } moment ? TimeZoneInfo.ConvertTime(moment, zone).ToString("MM-dd HH:mm", CultureInfo.InvariantCulture) : null;

    /// <summary>The change from one weight to the next, in per cent of the first.</summary>
    public static string? Gain(WeighingRow? before, WeighingRow? after) =>
        before?.Milligrams is > 0 and var first && after?.Milligrams is { } second
            ? (100m * (second - first) / first).ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture) + " %"
            : null;
}
