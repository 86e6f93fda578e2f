using System.Text.Json;

namespace CaptureAgent.Acceptance.Tests.Agent;

/// <summary>One line that the agent printed.</summary>
internal sealed class AgentEvent
{
    private readonly JsonElement fields;

    /// <exception cref="JsonException">The line is no JSON object.</exception>
    public AgentEvent(string line)
    {
        using var document = JsonDocument.Parse(line);
        (Line, fields) = (line, document.RootElement.Clone());
        if (fields.ValueKind is not JsonValueKind.Object)
            throw new JsonException($"No JSON object: {line}");
    }

    public string Line { get; }

    /// <summary>What it is: <c>weighing</c>, <c>tare</c>, ….</summary>
    public string Name => Text("event")!;

    public DateTimeOffset At => fields.GetProperty("at").GetDateTimeOffset();

    public string? Chick => Text("chick");

    public decimal Grams => Number("grams") ?? throw new InvalidOperationException($"No weight: {Line}");

    /// <summary>In the order of the alphabet: they are a set.</summary>
    public IReadOnlyList<string> Reasons => [.. fields.GetProperty("reasons").EnumerateArray().Select(reason => reason.GetString()!).Order(StringComparer.Ordinal)];

    public JsonElement Fields => fields;

    /// <summary>Null where the field is null. A field that is left out is a fault: what is not known is null, never left out.</summary>
    public string? Text(string field) => Required(field).GetString();

    /// <inheritdoc cref="Text"/>
    public decimal? Number(string field) => Required(field) is { ValueKind: not JsonValueKind.Null } number ? number.GetDecimal() : null;

    public bool Has(string field) => fields.TryGetProperty(field, out _);

    public bool IsWeighingOf(string chick) => Name == "weighing" && Chick == chick;

    public bool IsDevice(string device, string state) => Name == "device" && Text("device") == device && Text("state") == state;

    public override string ToString() => Line;

    private JsonElement Required(string field) =>
        fields.TryGetProperty(field, out var value) ? value : throw new InvalidOperationException($"The field '{field}' is left out: {Line}");
}
