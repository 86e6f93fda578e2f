namespace CaptureAgent.Agent.Links.Serial;

/// <summary>Holds back the first line after opening, up to and including its ending: it may be half a line, and "6.4 g" is a wrong reading of "186.4 g".</summary>
internal sealed class FirstLineGate(bool closed)
{
    private bool closed = closed;

    /// <summary>Known to be whole: nothing is held back.</summary>
    public void Open() => closed = false;

    /// <returns>What may go on, which may be nothing.</returns>
    public ReadOnlySpan<byte> Pass(ReadOnlySpan<byte> bytes)
    {
        if (!closed)
            return bytes;
        var end = bytes.IndexOfAny((byte)'\r', (byte)'\n');
        if (end < 0)
            return [];
        closed = false;
        // The LF of a CRLF cut in two goes on; it is an empty line, which means nothing.
        return bytes[(end + 1)..].TrimStart("\r\n"u8);
    }
}
