using System.Globalization;

namespace CaptureAgent.Agent.Round;

/// <summary>The first line of evidence: the layout's name, then key=value.</summary>
internal sealed class EvidenceKeys
{
    private readonly Dictionary<string, string> values = new(StringComparer.Ordinal);

    public EvidenceKeys(string line, string format)
    {
        var parts = line.Split(' ');
        if (parts[0] != format)
            throw new EvidenceException($"line 1 begins with '{parts[0]}'; it must begin with '{format}'.");
        foreach (var part in parts.AsSpan(1))
        {
            var equals = part.IndexOf('=', StringComparison.Ordinal);
            if (equals < 1 || !values.TryAdd(part[..equals], part[(equals + 1)..]))
                throw new EvidenceException($"line 1 has '{part}'; allowed: key=value, each key once.");
        }
    }

    public bool Has(string key, string value) => values.TryGetValue(key, out var text) && text == value;

    public double Number(string key) => Optional(key) ?? throw new EvidenceException($"line 1 has no '{key}'.");

    /// <summary>Null where the key is left out.</summary>
    public double? Optional(string key)
    {
        if (!values.TryGetValue(key, out var text))
            return null;
        return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)
            ? number
            : throw new EvidenceException($"line 1: {key} is '{text}'; it must be a number.");
    }

    public IReadOnlyCollection<string> Words(string key) => values.TryGetValue(key, out var text) ? text.Split(',') : [];
}
