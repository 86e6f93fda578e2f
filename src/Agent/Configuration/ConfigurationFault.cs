namespace CaptureAgent.Agent.Configuration;

/// <summary>One thing that is wrong in station.json.</summary>
/// <param name="Path">The key, as in <c>devices[0].connection.baud</c>; empty: the file itself.</param>
/// <param name="Value">What stands there; null where nothing does, or where it is a group or a list.</param>
/// <param name="Problem">What is wrong and what is allowed, as a sentence or two.</param>
internal sealed record ConfigurationFault(string Path, string? Value, string Problem)
{
    private const int LongestValue = 60;

    public override string ToString() => (Path.Length, Value) switch
    {
        (0, _) => Problem,
        (_, null) => $"{Path}: {Problem}",
        _ => $"{Path} is '{Shorten(Value)}': {Problem}",
    };

    private static string Shorten(string value) => value.Length <= LongestValue ? value : value[..LongestValue] + "…";
}

/// <summary>station.json cannot be used. Names every fault at once.</summary>
internal sealed class ConfigurationException(string file, IReadOnlyList<ConfigurationFault> faults) : Exception(Describe(file, faults))
{
    public IReadOnlyList<ConfigurationFault> Faults { get; } = faults;

    private static string Describe(string file, IReadOnlyList<ConfigurationFault> faults) => faults is [{ Path: "" } only]
        ? $"{file}: {only.Problem}"
        : $"{file} has {faults.Count} {(faults.Count == 1 ? "fault" : "faults")}:\n" + string.Join('\n', faults.Select(fault => $"  {fault}"));
}
