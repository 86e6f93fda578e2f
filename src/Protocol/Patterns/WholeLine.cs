using System.Diagnostics.CodeAnalysis;
using System.Text.RegularExpressions;

namespace CaptureAgent.Protocol.Patterns;

/// <summary>A pattern that a user wrote, made to match a whole text, by the engine whose time is linear in the length of the text.</summary>
/// <remarks>What the non-backtracking engine takes: the .NET documentation, "Regular expression options", nonbacktracking mode.</remarks>
internal static class WholeLine
{
    public const int MaxPatternLength = 1000;

    /// <summary>Compiles the pattern; false with one sentence that says what is wrong and what is allowed.</summary>
    public static bool TryCompile(
        string pattern, [NotNullWhen(true)] out Regex? regex, [NotNullWhen(false)] out string? fault)
    {
        regex = null;
        fault = null;
        if (string.IsNullOrWhiteSpace(pattern))
            fault = "The pattern is empty: write a regular expression that matches the whole line.";
        else if (pattern.Length > MaxPatternLength)
            fault = $"The pattern has {pattern.Length} characters; at most {MaxPatternLength} are allowed.";
        if (fault is not null)
            return false;

        try
        {
            // By itself first, so that "a)|(b" is refused and cannot break out of the anchors.
            _ = new Regex(pattern, Options);
            regex = new Regex($@"\A(?:{pattern})\z", Options);
            return true;
        }
        catch (RegexParseException broken)
        {
            fault = $"The pattern '{pattern}' is no regular expression ({broken.Error} at character {broken.Offset}).";
        }
        catch (NotSupportedException)
        {
            fault = LinearEngine.Refusal(pattern) is { } construct
                ? $"The pattern '{pattern}' contains {construct}, which the linear-time engine does not take: "
                    + "write it without look-around, back-references, atomic groups, conditionals, balancing groups and \\G."
                : $"The pattern '{pattern}' repeats too much for the linear-time engine: use smaller repeat counts.";
        }

        return false;
    }

    private const RegexOptions Options = RegexOptions.NonBacktracking | RegexOptions.CultureInvariant;
}
