using System.Buffers.Binary;
using System.Globalization;
using Microsoft.Win32.SafeHandles;

namespace CaptureAgent.Agent.Links.Devices;

/// <summary>What the file system says of a device file: its kind, and whose it is.</summary>
/// <param name="Mode">Kind and permission bits (inode(7)).</param>
internal readonly record struct DeviceStatus(int Mode, uint GroupId)
{
    private const int CurrentDirectory = -100, EmptyPath = 0x1000;
    private const uint BasicFields = 0x7ff;

    public bool IsCharacterDevice => (Mode & 0xF000) == 0x2000;

    public bool GroupMayReadAndWrite => (Mode & 0b110_000) == 0b110_000;

    /// <summary>The group's name; its number where the machine's own list does not know it.</summary>
    public string GroupName => NameOf(GroupId);

    /// <summary>Null if it cannot be seen at all.</summary>
    public static DeviceStatus? Of(string path)
    {
        Span<byte> status = stackalloc byte[256];
        return Libc.Status(CurrentDirectory, path, 0, BasicFields, status) == 0 ? From(status) : null;
    }

    public static DeviceStatus? Of(SafeFileHandle file)
    {
        Span<byte> status = stackalloc byte[256];
        return Libc.Status(file, "", EmptyPath, BasicFields, status) == 0 ? From(status) : null;
    }

    // Offsets of struct statx, which is the same on every architecture (statx(2)).
    private static DeviceStatus From(ReadOnlySpan<byte> status) => new(
        BinaryPrimitives.ReadUInt16LittleEndian(status[28..]), BinaryPrimitives.ReadUInt32LittleEndian(status[24..]));

    private static string NameOf(uint id)
    {
        var number = id.ToString(CultureInfo.InvariantCulture);
        try
        {
            // name:password:number:members (group(5))
            return File.ReadLines("/etc/group").Select(static line => line.Split(':'))
                .FirstOrDefault(fields => fields.Length >= 3 && fields[2] == number)?[0] ?? number;
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            return number;
        }
    }
}
