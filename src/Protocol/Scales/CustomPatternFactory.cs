using System.Text;
using CaptureAgent.Protocol.Patterns;

namespace CaptureAgent.Protocol.Scales;

/// <summary>Makes a <see cref="CustomPattern"/> and proves it on the user's sample line, so that a wrong pattern stops the start and not the round.</summary>
internal static class CustomPatternFactory
{
    private static readonly string[] Required = ["value", "unit"];
    private static readonly string[] Allowed = ["value", "unit", "sign", "stable"];

    public static ScaleDialect Create(string? pattern, string? sample)
    {
        List<string> faults = [];
        if (pattern is null)
            faults.Add("The dialect 'custom' needs a pattern: a regular expression for the whole line, with groups named value and unit.");
        if (string.IsNullOrWhiteSpace(sample))
            faults.Add("The dialect 'custom' needs a sample: one line exactly as this scale sends it.");
        if (pattern is null)
            return new(null, faults);
        if (!WholeLine.TryCompile(pattern, out var regex, out var fault))
            return new(null, [.. faults, fault]);

        var named = regex.GetGroupNames().Where(name => !char.IsAsciiDigit(name[0])).ToArray();
        faults.AddRange(Required.Except(named)
            .Select(name => $"The pattern '{pattern}' has no group named {name}: write (?<{name}>...) around the {name}."));
        faults.AddRange(named.Except(Allowed)
            .Select(name => $"The pattern '{pattern}' has a group named {name}; allowed are {string.Join(", ", Allowed)}."));
        if (faults.Count > 0 || sample is null)
            return new(null, faults);

        CustomPattern decoder = new(regex);
        return TrySample(decoder, sample) is { } wrong ? new(null, [wrong]) : new(decoder, []);
    }

    private static string? TrySample(CustomPattern decoder, string sample)
    {
        var line = sample.TrimEnd('\r', '\n');
        if (!Ascii.IsValid(line))
            return $"The sample '{line}' has a character that is not ASCII; scales send ASCII.";

        var fault = decoder.Decode(System.Text.Encoding.ASCII.GetBytes(line), out var reading);
        return fault switch
        {
            LineFault.None when reading.Unit != MassUnit.None => null,
            LineFault.None or LineFault.UnknownUnit =>
                $"In the sample '{line}' the group unit is no unit of mass; allowed are g, kg, mg, oz and lb.",
            LineFault.BadNumber => $"In the sample '{line}' the group value (with sign, if there is one) is no number; "
                + "allowed are digits with one decimal mark and one sign.",
            _ => $"The sample '{line}' does not match the pattern, which must match the whole line, blanks included.",
        };
    }
}
