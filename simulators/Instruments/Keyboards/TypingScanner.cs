using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Text;

namespace CaptureAgent.Simulators.Instruments.Keyboards;

/// <summary>A code scanner that types, as the kernel sees it: a keyboard made with uinput (Linux, include/uapi/linux/uinput.h). Needs the right to write /dev/uinput.</summary>
public sealed partial class TypingScanner : IDisposable
{
    private const string Uinput = "/dev/uinput";
    private const int WriteOnly = 1, NonBlocking = 0x800;
    private const nuint SetEventBit = 0x40045564, SetKeyBit = 0x40045565, SetUp = 0x405c5503, Create = 0x5501, Destroy = 0x5502, SystemName = 0x8040552c;
    private const int SetUpBytes = 92, EventBytes = 24, BusUsb = 3;
    private const ushort Synchronisation = 0, Key = 1;
    private const int Enter = 28, Shift = 42;

    // Key codes 2 to 50 by the character they type (US positions).
    private const string Typed = "\0\u001b1234567890-=\b\tqwertyuiop[]\r\0asdfghjkl;'`\0\\zxcvbnm,./";

    private readonly int descriptor;

    /// <exception cref="InvalidOperationException">No uinput, or no right to it.</exception>
    public TypingScanner(string name)
    {
        descriptor = Open(Uinput, WriteOnly | NonBlocking);
        Check(descriptor, "open");
        Check(Control(descriptor, SetEventBit, Key), "its kind");
        for (var key = 1; key <= 57; key++)
            Check(Control(descriptor, SetKeyBit, key), "its keys");
        var device = new byte[SetUpBytes];
        BinaryPrimitives.WriteUInt16LittleEndian(device, BusUsb);
        BinaryPrimitives.WriteUInt16LittleEndian(device.AsSpan(2), 0x1234);
        BinaryPrimitives.WriteUInt16LittleEndian(device.AsSpan(4), 1);
        Encoding.ASCII.GetBytes(name).CopyTo(device, 8);
        Check(Control(descriptor, SetUp, device), "its name");
        Check(Control(descriptor, Create, 0), "create");
    }

    /// <summary>Its device file; null until udev and the kernel have made it.</summary>
    public string? Path
    {
        get
        {
            var name = new byte[64];
            Check(Control(descriptor, SystemName, name), "ask for its place");
            var folder = $"/sys/devices/virtual/input/{Encoding.ASCII.GetString(name).TrimEnd('\0')}";
            return Directory.Exists(folder) && Directory.EnumerateDirectories(folder, "event*").FirstOrDefault() is { } found
                ? $"/dev/input/{System.IO.Path.GetFileName(found)}"
                : null;
        }
    }

    /// <summary>Types a code of letters, digits and '-', then Enter.</summary>
    public void Scan(string code)
    {
        foreach (var letter in code)
        {
            var shift = char.IsAsciiLetterUpper(letter) || letter == '!';
            if (shift)
                Emit(Shift, 1);
            Press(Typed.IndexOf(letter == '!' ? '1' : char.ToLowerInvariant(letter), StringComparison.Ordinal));
            if (shift)
                Emit(Shift, 0);
        }

        Press(Enter);
    }

    public void Dispose()
    {
        _ = Control(descriptor, Destroy, 0);
        _ = Close(descriptor);
    }

    private void Press(int key)
    {
        Emit(key, 1);
        Emit(key, 0);
    }

    private void Emit(int key, int value)
    {
        Put(Key, (ushort)key, value);
        Put(Synchronisation, 0, 0);
    }

    private void Put(ushort type, ushort code, int value)
    {
        Span<byte> one = stackalloc byte[EventBytes];
        one.Clear();
        BinaryPrimitives.WriteUInt16LittleEndian(one[16..], type);
        BinaryPrimitives.WriteUInt16LittleEndian(one[18..], code);
        BinaryPrimitives.WriteInt32LittleEndian(one[20..], value);
        Check((int)Write(descriptor, one, EventBytes), "type");
    }

    private static void Check(int result, string what)
    {
        if (result < 0)
            throw new InvalidOperationException($"{Uinput}: {what}: {Marshal.GetPInvokeErrorMessage(Marshal.GetLastPInvokeError())}. It needs the module uinput and the right to write the file.");
    }

    [LibraryImport("libc", EntryPoint = "open", StringMarshalling = StringMarshalling.Utf8, SetLastError = true)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    private static partial int Close(int descriptor);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    private static partial nint Write(int descriptor, ReadOnlySpan<byte> bytes, nuint length);

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static partial int Control(int descriptor, nuint request, nint argument);

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static partial int Control(int descriptor, nuint request, [In, Out] byte[] argument);
}
