using System.Text.Json;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>Whether an event is what a line of expected.ndjson asks for; fields that the line does not name may be anything.</summary>
internal static class Expectation
{
    public static bool Fits(JsonElement expected, JsonElement actual) =>
        expected.EnumerateObject().All(field => actual.TryGetProperty(field.Name, out var value) && FitsValue(field.Value, value));

    private static bool FitsValue(JsonElement expected, JsonElement actual) => expected.ValueKind switch
    {
        JsonValueKind.Object => actual.ValueKind is not JsonValueKind.Null && expected.EnumerateObject().All(rule => Holds(rule.Name, rule.Value, actual)),
        JsonValueKind.Array => actual.ValueKind is JsonValueKind.Array && Members(expected).SequenceEqual(Members(actual)),
        JsonValueKind.Number => actual.ValueKind is JsonValueKind.Number && expected.GetDecimal() == actual.GetDecimal(),
        _ => expected.ValueKind == actual.ValueKind && expected.ToString() == actual.ToString(),
    };

    private static bool Holds(string rule, JsonElement bound, JsonElement actual) => rule switch
    {
        "min" => Compare(actual, bound) >= 0,
        "max" => Compare(actual, bound) <= 0,
        "contains" => actual.GetString()!.Contains(bound.GetString()!, StringComparison.Ordinal),
        _ => throw new JsonException($"expected.ndjson: '{rule}' is no rule; allowed: min, max, contains."),
    };

    // Numbers by value, moments by time.
    private static int Compare(JsonElement one, JsonElement other) => other.ValueKind is JsonValueKind.Number
        ? one.GetDecimal().CompareTo(other.GetDecimal())
        : one.GetDateTimeOffset().CompareTo(other.GetDateTimeOffset());

    private static IEnumerable<string> Members(JsonElement set) => set.EnumerateArray().Select(member => member.ToString()).Order(StringComparer.Ordinal);
}
