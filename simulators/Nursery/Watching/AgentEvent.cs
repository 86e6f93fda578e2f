using System.Globalization;
using System.Text.Json;

namespace CaptureAgent.Simulators.Nursery.Watching;

/// <summary>A line of the agent's event stream, read by its contract alone.</summary>
internal sealed class AgentEvent
{
    private readonly JsonElement root;

    private AgentEvent(JsonElement root) => this.root = root;

    public string Name => Text("event") ?? "";

    public string? Chick => Text("chick");

    public decimal? Grams => Number("grams");

    public decimal? UncertaintyGrams => Number("uncertaintyGrams");

    public bool IsAccepted => Text("verdict") == "accepted";

    public IReadOnlyList<string> Reasons => root.TryGetProperty("reasons", out var reasons) && reasons.ValueKind is JsonValueKind.Array
        ? [.. reasons.EnumerateArray().Select(reason => reason.GetString() ?? "")]
        : [];

    /// <summary>Null where the line is no event.</summary>
    public static AgentEvent? Parse(string line)
    {
        try
        {
            using var document = JsonDocument.Parse(line);
            return document.RootElement.ValueKind is JsonValueKind.Object ? new(document.RootElement.Clone()) : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    public string? Text(string key) => root.TryGetProperty(key, out var value) && value.ValueKind is JsonValueKind.String ? value.GetString() : null;

    public decimal? Number(string key) => root.TryGetProperty(key, out var value) && value.ValueKind is JsonValueKind.Number ? value.GetDecimal() : null;

    public bool Truth(string key) => root.TryGetProperty(key, out var value) && value.ValueKind is JsonValueKind.True;

    /// <summary>What a watcher should read; null for what would only fill the screen.</summary>
    public string? Told => Name switch
    {
        "ready" => "ready",
        "tare" => string.Create(CultureInfo.InvariantCulture, $"tare {Grams:F1} g"),
        "weighing" when IsAccepted => string.Create(CultureInfo.InvariantCulture, $"{Chick} {Grams:F1} g accepted (standard uncertainty {UncertaintyGrams:F2} g)"),
        "weighing" => string.Create(CultureInfo.InvariantCulture, $"{Chick ?? "(no code)"} {(Grams is { } grams ? $"{grams:F1} g " : "")}rejected: {string.Join(", ", Reasons)}. {Text("remedy")}"),
        "probe" when Truth("settled") => string.Create(CultureInfo.InvariantCulture, $"formula {Number("celsius"):F1} °C"),
        "feed" => $"{Chick} marked as fed",
        "undo" => $"{Chick}: {Text("undone")} taken back",
        "alert" or "finding" => $"{Name}: {(Chick is null ? "" : Chick + ": ")}{Text("text")}",
        "device" => $"{Text("device")} is {Text("state")}{(Text("detail") is { } detail ? $" ({detail})" : "")}",
        "batch" => $"formula {Text("state")}",
        _ => null,
    };
}
