using System.Buffers.Binary;
using System.Text;

namespace CaptureAgent.Hardware.Bench;

/// <summary>A board of eight output lines: the far end of a HID bridge that the kernel's own driver (hid-cp2112) makes a GPIO chip of. Keeps what was put out on each line.</summary>
/// <remarks>Through /dev/uhid (Linux, include/uapi/linux/uhid.h). The reports are those the driver sends and asks for (drivers/hid/hid-cp2112.c, from memory):
/// 2 direction of the lines, 3 their levels, 4 set levels by mask, 5 version, 6 settings of the bus, 0x20 what may be customised.</remarks>
internal sealed class GpioBoard : IDisposable
{
    private const uint Create = 11, GetReport = 9, GetReportReply = 10, SetReport = 13, SetReportReply = 14;
    private const int EventBytes = 4 + 4372, DataOfCreate = 276, BusUsb = 3, Vendor = 0x10C4, Product = 0xEA90;
    private const byte Direction = 2, Levels = 3, SetLevels = 4, Version = 5, BusSettings = 6, Locks = 0x20;

    // Vendor-defined page, one feature report: the driver asks for reports by number and reads no descriptor.
    private static readonly byte[] Descriptor = [0x06, 0x00, 0xFF, 0x09, 0x01, 0xA1, 0x01, 0x15, 0x00, 0x26, 0xFF, 0x00, 0x75, 0x08, 0x95, 0x01, 0x09, 0x01, 0xB1, 0x02, 0xC0];

    private readonly FileStream device = new("/dev/uhid", FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite, bufferSize: 0);
    private readonly List<(DateTime At, int Line, bool IsHigh)> changes = [];
    private readonly byte[] busSettings = new byte[14];
    private byte outputs, levels;

    public GpioBoard()
    {
        var create = new byte[EventBytes];
        BinaryPrimitives.WriteUInt32LittleEndian(create, Create);
        Encoding.ASCII.GetBytes("bench board", create.AsSpan(4));
        BinaryPrimitives.WriteUInt16LittleEndian(create.AsSpan(4 + 256), (ushort)Descriptor.Length);
        BinaryPrimitives.WriteUInt16LittleEndian(create.AsSpan(4 + 258), BusUsb);
        BinaryPrimitives.WriteUInt32LittleEndian(create.AsSpan(4 + 260), Vendor);
        BinaryPrimitives.WriteUInt32LittleEndian(create.AsSpan(4 + 264), Product);
        Descriptor.CopyTo(create, 4 + DataOfCreate);
        device.Write(create);
        new Thread(Answer) { IsBackground = true }.Start();
    }

    /// <summary>What happened on the lines so far, oldest first.</summary>
    public IReadOnlyList<(DateTime At, int Line, bool IsHigh)> Changes
    {
        get
        {
            lock (changes)
                return [.. changes];
        }
    }

    public void Dispose() => device.Dispose();

    private void Answer()
    {
        var request = new byte[EventBytes];
        try
        {
            while (device.Read(request) > 0)
            {
                switch (BinaryPrimitives.ReadUInt32LittleEndian(request))
                {
                    case GetReport:
                        Reply(GetReportReply, request, Report(request[8]));
                        break;
                    case SetReport:
                        Take(request.AsSpan(12, BinaryPrimitives.ReadUInt16LittleEndian(request.AsSpan(10))));
                        Reply(SetReportReply, request, null);
                        break;
                    default:
                        break;
                }
            }
        }
        catch (ObjectDisposedException)
        {
        }
    }

    private byte[] Report(byte number) => number switch
    {
        Direction => [Direction, outputs, 0, 0, 0],
        Levels => [Levels, levels],
        Version => [Version, 0x0C, 1],
        Locks => [Locks, 0xFF],
        BusSettings => [BusSettings, .. busSettings.AsSpan(1)],
        _ => [number],
    };

    private void Take(ReadOnlySpan<byte> report)
    {
        if (report[0] == Direction)
            outputs = report[1];
        else if (report[0] == BusSettings)
            report.CopyTo(busSettings);
        else if (report[0] == SetLevels)
            Put((byte)(levels & ~report[2] | report[1] & report[2]));
    }

    private void Put(byte now)
    {
        lock (changes)
        {
            for (var line = 0; line < 8; line++)
            {
                if (((now ^ levels) >> line & 1) != 0)
                    changes.Add((DateTime.UtcNow, line, (now >> line & 1) != 0));
            }
        }

        levels = now;
    }

    private void Reply(uint kind, ReadOnlySpan<byte> request, byte[]? report)
    {
        var reply = new byte[EventBytes];
        BinaryPrimitives.WriteUInt32LittleEndian(reply, kind);
        request.Slice(4, 4).CopyTo(reply.AsSpan(4));
        if (report is not null)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(reply.AsSpan(10), (ushort)report.Length);
            report.CopyTo(reply, 12);
        }

        device.Write(reply);
    }
}
