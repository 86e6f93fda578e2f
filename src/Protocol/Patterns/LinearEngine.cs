namespace CaptureAgent.Protocol.Patterns;

/// <summary>Names the construct for which the linear-time engine refused a pattern. The engine's own message does not tell look-ahead from look-behind.</summary>
internal static class LinearEngine
{
    /// <summary>The first construct that needs backtracking, with an article; null if there is none.</summary>
    public static string? Refusal(string pattern)
    {
        for (var at = 0; at < pattern.Length; at++)
        {
            var rest = pattern.AsSpan(at);
            switch (rest[0])
            {
                case '\\':
                    if (Escape(rest) is { } escape)
                        return escape;
                    at++;
                    break;
                case '[':
                    at += ClassLength(rest) - 1;
                    break;
                case '(' when rest.StartsWith("(?#"):
                    var end = rest.IndexOf(')');
                    at += end < 0 ? rest.Length : end;
                    break;
                case '(':
                    if (Group(rest) is { } group)
                        return group;
                    break;
                default:
                    break;
            }
        }

        return null;
    }

    private static string? Escape(ReadOnlySpan<char> rest) => rest.Length < 2 ? null : rest[1] switch
    {
        >= '1' and <= '9' or 'k' => $"a back-reference (\\{rest[1]})",
        'G' => "a contiguous match (\\G)",
        _ => null,
    };

    private static string? Group(ReadOnlySpan<char> rest) => rest switch
    {
        ['(', '?', '=', ..] => "a look-ahead (?=",
        ['(', '?', '!', ..] => "a negative look-ahead (?!",
        ['(', '?', '<', '=', ..] => "a look-behind (?<=",
        ['(', '?', '<', '!', ..] => "a negative look-behind (?<!",
        ['(', '?', '>', ..] => "an atomic group (?>",
        ['(', '?', '(', ..] => "a conditional (?(",
        ['(', '?', '<' or '\'', ..] when IsBalancing(rest[3..]) => "a balancing group (?<name-name>",
        _ => null,
    };

    private static bool IsBalancing(ReadOnlySpan<char> name)
    {
        var end = name.IndexOfAny('>', '\'');
        return end > 0 && name[..end].Contains('-');
    }

    /// <summary>Characters of a class, with its brackets, subtracted classes and escapes.</summary>
    private static int ClassLength(ReadOnlySpan<char> text)
    {
        var depth = 0;
        for (var at = 0; at < text.Length; at++)
        {
            if (text[at] == '\\')
            {
                at++;
            }
            else if (text[at] == '[' && (at == 0 || text[at - 1] == '-'))
            {
                depth++;
                at += at + 1 < text.Length && text[at + 1] == '^' ? 1 : 0;
                at += at + 1 < text.Length && text[at + 1] == ']' ? 1 : 0;
            }
            else if (text[at] == ']' && --depth == 0)
            {
                return at + 1;
            }
        }

        return text.Length;
    }
}
