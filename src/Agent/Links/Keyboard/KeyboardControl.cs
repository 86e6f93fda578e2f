using System.Runtime.InteropServices;
using CaptureAgent.Agent.Links.Devices;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Agent.Links.Keyboard;

/// <summary>Takes a keyboard for ourselves: else what is scanned is typed into the console's login as well (Linux, include/uapi/linux/input.h).</summary>
internal static partial class KeyboardControl
{
    private const nuint Grab = 0x40044590, KeysDown = 0x80604518, KeysKnown = 0x80604521;
    private const int KeyBytes = 96;

    /// <exception cref="LinkException">No keyboard, a key held down, or grabbed by another program.</exception>
    public static void Take(CharacterDevice device)
    {
        var keys = new byte[KeyBytes];
        if (Control(device.File, KeysKnown, keys) < 0 || !IsSet(keys, KeyMap.Enter) || !IsSet(keys, KeyMap.Letter1))
        {
            throw new LinkException(
                LinkCause.WrongDevice, $"{device.Path} is no keyboard that types codes.", "Give the scanner's path that ends in -event-kbd; `ls /dev/input/by-id/` lists what is there.");
        }

        // A key that is down while we take the keyboard would stay down for everyone else.
        if (Control(device.File, KeysDown, keys) >= 0 && Array.Exists(keys, static some => some != 0))
            throw new LinkException(LinkCause.Busy, $"A key of {device.Path} is held down.", "Let go of it, or switch the scanner off and on.");
        if (Control(device.File, Grab, 1) != 0)
            throw DeviceFault.Opening(Marshal.GetLastPInvokeError(), device.Path, null, Environment.UserName);
    }

    private static bool IsSet(byte[] bits, int at) => (bits[at / 8] >> (at % 8) & 1) != 0;

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static partial int Control(SafeFileHandle file, nuint request, nint argument);

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static partial int Control(SafeFileHandle file, nuint request, [In, Out] byte[] argument);
}
