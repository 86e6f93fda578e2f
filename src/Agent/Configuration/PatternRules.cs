using System.Text.RegularExpressions;

namespace CaptureAgent.Agent.Configuration;

/// <summary>Which patterns can be used: those that the non-backtracking engine takes, so that no line can make it run away.</summary>
internal static class PatternRules
{
    /// <summary>What is wrong with the pattern, or null.</summary>
    public static string? Fault(string pattern)
    {
        if (pattern.Length == 0)
            return "must not be empty.";

        try
        {
            _ = new Regex(pattern, RegexOptions.NonBacktracking | RegexOptions.CultureInvariant);
            return null;
        }
        catch (RegexParseException broken)
        {
            return $"no valid pattern: {broken.Message}";
        }
        catch (NotSupportedException unsupported)
        {
            return $"look-around, back-references and the like are not allowed: {unsupported.Message}";
        }
    }
}
