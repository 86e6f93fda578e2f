namespace CaptureAgent.Agent.Configuration;

/// <summary>Collects what the rules find.</summary>
internal sealed class RuleBook
{
    private readonly List<ConfigurationFault> faults = [];

    public IReadOnlyList<ConfigurationFault> Faults => faults;

    public void Add(string path, string? value, string problem) => faults.Add(new ConfigurationFault(path, value, problem));

    /// <summary>The value must be one of the words; false if it is not.</summary>
    public bool OneOf(string path, string value, IReadOnlyList<string> words)
    {
        if (words.Contains(value, StringComparer.Ordinal))
            return true;

        var meant = NearestWord.Of(value, words);
        Add(path, value, $"allowed: {string.Join(", ", words)}." + (meant is null ? "" : $" Did you mean '{meant}'?"));
        return false;
    }

    public void Between(string path, decimal? value, decimal low, decimal high, string unit)
    {
        if (value is { } number && (number < low || number > high))
            Add(path, Text(number), $"allowed: {Text(low)} to {Text(high)}{(unit.Length == 0 ? "" : " ")}{unit}.");
    }

    /// <summary>Far outside of any range a decimal cannot follow a double.</summary>
    public static decimal? Bounded(double? value) => value is { } number ? (decimal)Math.Clamp(number, -1e9, 1e9) : null;

    public static string Text(decimal number) => number.ToString("0.#########", System.Globalization.CultureInfo.InvariantCulture);
}
