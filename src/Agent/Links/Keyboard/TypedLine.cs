using System.Buffers.Binary;

namespace CaptureAgent.Agent.Links.Keyboard;

/// <summary>Makes lines of key presses. Pure: bytes of <c>struct input_event</c> in, whole lines out.</summary>
/// <remarks>64-bit layout (Linux, include/uapi/linux/input.h): 16 bytes of time, type, code, value; 24 bytes in all.</remarks>
internal sealed class TypedLine
{
    public const int EventSize = 24;

    private const int TypeAt = 16, CodeAt = 18, ValueAt = 20;
    private const ushort Synchronisation = 0, Key = 1, Dropped = 3;
    private const int Longest = 64;

    /// <summary>A scanner types its keys some milliseconds apart. What was begun and not ended within this time is no code.</summary>
    public static readonly TimeSpan LongestGap = TimeSpan.FromMilliseconds(500);

    private readonly char[] typed = new char[Longest];
    private int length;
    private bool leftShift, rightShift, control, capsLock, torn, skipping;
    private TimeSpan? last;

    /// <summary>Takes one event; the line, ended by CR, if it completes one.</summary>
    /// <param name="at">Monotonic.</param>
    public byte[]? Take(ReadOnlySpan<byte> inputEvent, TimeSpan at)
    {
        var type = BinaryPrimitives.ReadUInt16LittleEndian(inputEvent[TypeAt..]);
        var code = BinaryPrimitives.ReadUInt16LittleEndian(inputEvent[CodeAt..]);
        var value = BinaryPrimitives.ReadInt32LittleEndian(inputEvent[ValueAt..]);
        if (type == Synchronisation)
        {
            // The kernel's buffer ran over: keys are missing, up to the next report and before it.
            skipping = code == Dropped;
            if (skipping)
                (torn, leftShift, rightShift, control) = (true, false, false, false);
            return null;
        }

        return type == Key && !skipping ? TakeKey(code, value, at) : null;
    }

    private byte[]? TakeKey(int code, int value, TimeSpan at)
    {
        switch (code)
        {
            case KeyMap.LeftShift:
                leftShift = value != 0;
                return null;
            case KeyMap.RightShift:
                rightShift = value != 0;
                return null;
            case KeyMap.LeftControl or KeyMap.RightControl:
                control = value != 0;
                return null;
            case KeyMap.CapsLock:
                capsLock ^= value == 1;
                return null;
        }

        // 0 is a release, 2 a repeat.
        if (value != 1)
            return null;
        if (at - last > LongestGap)
            Clear();
        last = at;
        return Type(code);
    }

    private byte[]? Type(int code)
    {
        var letter = KeyMap.Type(code, leftShift || rightShift, capsLock);
        // Control and M or J are CR and LF.
        if (letter is '\r' or '\t' || (control && letter is 'm' or 'j'))
            return End();
        if (letter < ' ' || control)
            return null;
        if (length == Longest)
            torn = true;
        else
            typed[length++] = letter;
        return null;
    }

    private byte[]? End()
    {
        var line = torn || length == 0 ? null : System.Text.Encoding.Latin1.GetBytes(typed.AsSpan(0, length).ToString() + "\r");
        Clear();
        return line;
    }

    private void Clear()
    {
        length = 0;
        torn = false;
    }
}
