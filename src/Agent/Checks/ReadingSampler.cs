using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Instruments;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Codes;
using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Checks;

/// <summary>Reads what a device sends until one line or frame makes sense, and remembers what did not.</summary>
internal sealed class ReadingSampler
{
    private readonly DeviceOptions device;
    private readonly LineFramer framer;
    private readonly IReadingStream<ScaleReading>? scale;
    private readonly IReadingStream<ProbeReading>? probe;

    public ReadingSampler(DeviceOptions device)
    {
        this.device = device;
        framer = new LineFramer(tabEnds: device.Role == "scanner");
        scale = device.Role == "scale" ? Streams.Scale(device) : null;
        probe = device.Role == "probe" ? Streams.Probe(device) : null;
    }

    /// <summary>The first line or frame that was understood, in words; null so far.</summary>
    public string? Understood { get; private set; }

    /// <summary>The newest line that was not understood, unprintable characters as points, or the newest such frame in hexadecimal; null if there is none.</summary>
    public string? NotUnderstood { get; private set; }

    /// <summary>Another dialect that reads the line that was not understood.</summary>
    public string? OtherDialect { get; private set; }

    /// <summary>Bytes came, whether or not they made a line.</summary>
    public bool HasHeard { get; private set; }

    public void Take(TraceRecord record)
    {
        HasHeard |= record.Bytes.Length > 0;
        var bytes = record.Bytes.Span;
        while (Understood is null && scale is not null && scale.TryTake(record.Source, ref bytes, out var weight, out var fault))
            Understood = fault == LineFault.None ? Weight(weight) : null;
        while (Understood is null && probe is not null && probe.TryTake(record.Source, ref bytes, out var reading, out var fault))
            Understood = fault == LineFault.None ? FormattableString.Invariant($"shows {reading.Celsius:0.##} °C") : null;
        if (Understood is null)
            Remember(record);
    }

    private static string Weight(in ScaleReading reading) => reading.Range switch
    {
        LoadRange.Overload => "shows overload",
        LoadRange.Underload => "shows underload",
        _ => FormattableString.Invariant($"shows {reading.Value} {reading.Unit.ToString().ToLowerInvariant()}"),
    };

    private void Remember(TraceRecord record)
    {
        var bytes = record.Bytes.Span;
        if (record.Source is not null && !bytes.IsEmpty)
            NotUnderstood = $"{record.Source} {Convert.ToHexStringLower(bytes)}";
        while (record.Source is null && framer.TryTakeLine(ref bytes, out var line))
        {
            if (device.Role == "scanner")
                Understood ??= Scanned(line);
            NotUnderstood = Understood is null ? Printable(line) : null;
            if (scale is not null)
                OtherDialect = ScaleDialects.Names.FirstOrDefault(name => name != device.Dialect && Reads(name, NotUnderstood)) ?? OtherDialect;
        }
    }

    private string? Scanned(ReadOnlySpan<byte> line)
    {
        var text = CodeRules.Text(line);
        if (device.Dialect != "transponder")
            return $"read the code {text}";
        return Transponder.TryRead(text, out var number) ? $"read the transponder {number}" : null;
    }

    private static bool Reads(string dialect, string? line) =>
        line is not null && ScaleDialects.Create(dialect).Decoder?.Decode(Encoding.Latin1.GetBytes(line), out _) is LineFault.None;

    private static string Printable(ReadOnlySpan<byte> line) =>
        string.Concat(Encoding.Latin1.GetString(line).Select(letter => letter is >= ' ' and <= '~' ? letter : '.'));
}
