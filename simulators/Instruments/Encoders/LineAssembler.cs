using System.Text;

namespace CaptureAgent.Simulators.Instruments.Encoders;

/// <summary>Puts lines together from bytes as they come; a line ends with CR or LF.</summary>
internal sealed class LineAssembler
{
    private const int LongestLine = 64;
    private readonly StringBuilder line = new();

    public IReadOnlyList<string> Take(ReadOnlySpan<byte> bytes)
    {
        List<string> lines = [];
        foreach (var character in bytes)
        {
            if (character is (byte)'\r' or (byte)'\n')
            {
                lines.Add(line.ToString());
                line.Clear();
            }
            else if (line.Length < LongestLine)
            {
                line.Append((char)character);
            }
        }

        return lines;
    }
}
