using System.Buffers.Binary;
using System.Runtime.InteropServices;
using CaptureAgent.Agent.Links.Devices;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Agent.Links.Hid;

/// <summary>Asks the kernel about a raw HID device (Linux, include/uapi/linux/hidraw.h).</summary>
internal static partial class HidControl
{
    private const nuint DescriptorSize = 0x80044801, Descriptor = 0x90044802;
    private const int LongestDescriptor = 4096, SizeBytes = 4;

    /// <exception cref="LinkException">No raw HID device.</exception>
    public static byte[] ReadDescriptor(CharacterDevice device)
    {
        // struct hidraw_report_descriptor: a size, then the bytes.
        var descriptor = new byte[SizeBytes + LongestDescriptor];
        if (Control(device.File, DescriptorSize, descriptor) < 0 || Control(device.File, Descriptor, descriptor) < 0)
        {
            throw new LinkException(
                LinkCause.WrongDevice, $"{device.Path} is no raw HID device.", "Give the scale's path under /dev that begins with hidraw, best a link that a udev rule makes.");
        }

        var size = Math.Clamp(BinaryPrimitives.ReadInt32LittleEndian(descriptor), 0, LongestDescriptor);
        return descriptor[SizeBytes..(SizeBytes + size)];
    }

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static partial int Control(SafeFileHandle file, nuint request, [In, Out] byte[] argument);
}
