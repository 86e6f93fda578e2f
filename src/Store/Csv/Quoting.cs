using System.Buffers;

namespace CaptureAgent.Store.Csv;

/// <summary>Quotes of one field (RFC 4180, section 2, rules 5 to 7).</summary>
internal static class Quoting
{
    private static readonly SearchValues<char> Special = SearchValues.Create(",\"\r\n");

    /// <summary>Takes the quotes off a field.</summary>
    /// <returns>False where a quote stands amid the field, or one within is not doubled.</returns>
    public static bool TryRead(ReadOnlySpan<char> field, out string value)
    {
        value = "";
        if (!field.Contains('"'))
        {
            value = field.ToString();
            return true;
        }

        if (field.Length < 2 || field[0] != '"' || field[^1] != '"')
            return false;
        var inner = field[1..^1].ToString();
        value = inner.Replace("\"\"", "\"", StringComparison.Ordinal);
        return !inner.Replace("\"\"", "", StringComparison.Ordinal).Contains('"', StringComparison.Ordinal);
    }

    public static string Write(string? value)
    {
        if (value is null)
            return "";
        return value.AsSpan().ContainsAny(Special) ? $"\"{value.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : value;
    }
}
