using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Codes;
using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Checks;

/// <summary>Reads what a device sends until one line makes sense, and remembers what did not.</summary>
internal sealed class LineSampler(DeviceOptions device)
{
    private readonly LineFramer framer = new(tabEnds: device.Role == "scanner");

    private readonly IScaleDecoder? scale = device.Role == "scale" ? ScaleDialects.Create(device.Dialect, device.Pattern, device.Sample).Decoder : null;

    /// <summary>The first line that was understood, in words; null so far.</summary>
    public string? Understood { get; private set; }

    /// <summary>The newest line that was not understood, unprintable characters as points; null if there is none.</summary>
    public string? NotUnderstood { get; private set; }

    /// <summary>Another dialect that reads the line that was not understood.</summary>
    public string? OtherDialect { get; private set; }

    /// <summary>Bytes came, whether or not they made a line.</summary>
    public bool HasHeard { get; private set; }

    public void Take(ReadOnlySpan<byte> bytes)
    {
        HasHeard |= bytes.Length > 0;
        while (Understood is null && framer.TryTakeLine(ref bytes, out var line))
        {
            Understood = device.Role switch
            {
                "scale" => Weight(line),
                "probe" => Temperature(line),
                _ => $"read the code {CodeRules.Text(line)}",
            };
            if (Understood is null)
                Remember(line);
        }
    }

    private string? Weight(ReadOnlySpan<byte> line) => scale!.Decode(line, out var reading) is not LineFault.None ? null : reading.Range switch
    {
        LoadRange.Overload => "shows overload",
        LoadRange.Underload => "shows underload",
        _ => FormattableString.Invariant($"shows {reading.Value} {reading.Unit.ToString().ToLowerInvariant()}"),
    };

    private static string? Temperature(ReadOnlySpan<byte> line) =>
        new TextProbe().Decode(line, out var reading) is LineFault.None ? FormattableString.Invariant($"shows {reading.Celsius} °C") : null;

    private void Remember(ReadOnlySpan<byte> line)
    {
        NotUnderstood = string.Concat(Encoding.Latin1.GetString(line).Select(letter => letter is >= ' ' and <= '~' ? letter : '.'));
        if (scale is null)
            return;
        foreach (var name in ScaleDialects.Names)
        {
            if (name != device.Dialect && ScaleDialects.Create(name).Decoder?.Decode(line, out _) is LineFault.None)
                OtherDialect = name;
        }
    }
}
