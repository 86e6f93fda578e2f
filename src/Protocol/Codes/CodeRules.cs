using System.Diagnostics.CodeAnalysis;
using System.Text.RegularExpressions;
using CaptureAgent.Protocol.Patterns;

namespace CaptureAgent.Protocol.Codes;

/// <summary>Says what a scanned line is: a chick's code, a command card, or neither.</summary>
/// <remarks>A code keeps its case and all of its characters; nothing is repaired. A card is any line that starts with <c>!</c>,
/// whatever the pattern says; which card, and whether it is known, is for the station to say.</remarks>
public sealed class CodeRules
{
    private const char CardMark = '!';

    private readonly Regex pattern;
    private readonly CheckScheme scheme;

    private CodeRules(Regex pattern, CheckScheme scheme)
    {
        this.pattern = pattern;
        this.scheme = scheme;
    }

    /// <summary>Compiles the rules; false with one sentence for the keeper if the pattern cannot be used. Never throws on what a user wrote.</summary>
    /// <param name="pattern">A regular expression for the whole code, check characters included.</param>
    public static bool TryCompile(
        string pattern, CheckScheme scheme, [NotNullWhen(true)] out CodeRules? rules, [NotNullWhen(false)] out string? fault)
    {
        rules = WholeLine.TryCompile(pattern, out var regex, out fault) ? new(regex, scheme) : null;
        return rules is not null;
    }

    /// <summary>The text of a scanner's line: Latin-1, the blanks around it taken off, else untouched.</summary>
    public static string Text(ReadOnlySpan<byte> line) => System.Text.Encoding.Latin1.GetString(line.Trim((byte)' '));

    public CodeKind Classify(string code)
    {
        if (code.StartsWith(CardMark))
            return CodeKind.Card;
        if (!pattern.IsMatch(code))
            return CodeKind.Unreadable;
        return Iso7064.Verify(scheme, code) ? CodeKind.Chick : CodeKind.BadCheck;
    }
}
