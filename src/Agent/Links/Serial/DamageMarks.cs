namespace CaptureAgent.Agent.Links.Serial;

/// <summary>Reads the kernel's marks in a byte stream (PARMRK, termios(3)): FF FF is a byte FF, FF 00 X a byte X that was damaged on the wire.</summary>
internal sealed class DamageMarks
{
    /// <summary>What takes the place of a damaged byte. No text dialect has it, so its line is refused.</summary>
    public const byte Damaged = 0xFF;

    private State state;

    private enum State
    {
        Plain,
        Marked,
        DamagedNext,
    }

    /// <summary>Takes the marks out, in place, across any split of the stream.</summary>
    /// <returns>How many bytes are left, from the start of <paramref name="bytes"/>.</returns>
    public int Remove(Span<byte> bytes)
    {
        if (state == State.Plain && !bytes.Contains(Damaged))
            return bytes.Length;

        var kept = 0;
        foreach (var value in bytes)
        {
            switch (state)
            {
                case State.Plain when value == Damaged:
                    state = State.Marked;
                    break;
                case State.Marked when value == 0:
                    state = State.DamagedNext;
                    break;
                case State.DamagedNext or State.Marked:
                    state = State.Plain;
                    bytes[kept++] = Damaged;
                    break;
                default:
                    bytes[kept++] = value;
                    break;
            }
        }

        return kept;
    }
}
