using System.Text;

namespace CaptureAgent.Protocol.FrameFinding;

/// <summary>Shows frames so that a person sees which bytes change: the byte in brackets is another than in the frame before of the same source.</summary>
public sealed class ChangingBytes
{
    private readonly Dictionary<string, byte[]> last = new(StringComparer.Ordinal);

    /// <summary>Null for a frame like the one before.</summary>
    public string? Show(string? source, ReadOnlySpan<byte> frame)
    {
        var key = $"{source ?? "-"}/{frame.Length}";
        var before = last.GetValueOrDefault(key);
        if (before is not null && frame.SequenceEqual(before))
            return null;
        last[key] = frame.ToArray();
        var text = new StringBuilder(source ?? "-").Append(' ');
        for (var i = 0; i < frame.Length; i++)
        {
            var changed = before is not null && before[i] != frame[i];
            text.Append(changed ? '[' : ' ').Append(frame[i].ToString("x2", System.Globalization.CultureInfo.InvariantCulture)).Append(changed ? ']' : ' ');
        }

        return text.ToString().TrimEnd();
    }
}
