namespace CaptureAgent.Protocol;

/// <summary>Cuts a byte stream into lines, however the stream was split or merged on its way. Knows nothing of what the lines mean.</summary>
/// <remarks>Stub: filled in by the decoders' commit. Bytes are pushed, then lines are taken until there are none.</remarks>
public sealed class LineFramer(bool tabEnds = false, int maxLength = LineFramer.DefaultMaxLength)
{
    public const int DefaultMaxLength = 128;

    private readonly byte[] line = new byte[maxLength];

    public bool TabEnds { get; } = tabEnds;

    /// <summary>Lines given up because they were longer than the limit.</summary>
    public long Overflows { get; private set; }

    /// <summary>Forgets a half line, as after a link was lost.</summary>
    public void Reset() => throw new NotImplementedException();

    /// <summary>Takes bytes off the front of <paramref name="bytes"/> until a line is complete; false when they ran out first.
    /// The line is valid until the next call. Empty lines are skipped.</summary>
    public bool TryTakeLine(ref ReadOnlySpan<byte> bytes, out ReadOnlySpan<byte> line)
    {
        _ = this.line;
        throw new NotImplementedException();
    }
}
