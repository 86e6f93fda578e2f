using System.Globalization;

namespace CaptureAgent.Agent.Configuration;

/// <summary>The kinds of single values in station.json, each accepting exactly what the binder can convert.</summary>
internal static class Scalar
{
    public static KeyValue Text { get; } = new("text", _ => true);

    public static KeyValue Whole { get; } = new(
        "a whole number", value => int.TryParse(value, NumberStyles.Integer, CultureInfo.InvariantCulture, out _));

    public static KeyValue Number { get; } = new(
        "a number",
        value => double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number));

    public static KeyValue Exact { get; } = new(
        "a number", value => decimal.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out _));

    public static KeyValue YesOrNo { get; } = new("true or false", value => bool.TryParse(value, out _));

    public static KeyValue TimeOfDay { get; } = new(
        "a time of day from 00:00 to 23:59, such as 03:00",
        value => TimeOnly.TryParseExact(value, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out _));
}
