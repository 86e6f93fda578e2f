using System.Buffers.Binary;
using System.Globalization;
using System.Text;

namespace CaptureAgent.Hardware.Bench;

/// <summary>The far ends of the wired instruments that Guest/usb has plugged in: a HID scale, a scale and a probe with serial lines, a scanner that types.</summary>
/// <remarks>Each far end has a thread of its own, because writing to it waits until somebody reads the near one; QEMU's cable does not wait, and gets nothing then.</remarks>
internal static class UsbBench
{
    /// <summary>Links to the near ends, by name; the far end of each has "-far" after it.</summary>
    public const string Folder = "/tmp/usb", HidScale = Folder + "/hid-scale", SerialScale = Folder + "/serial-scale", Probe = Folder + "/probe", Scanner = Folder + "/scanner";

    private const string Far = "-far";

    private const int IntervalMilliseconds = 100, ProbeMilliseconds = 1000;

    /// <summary>QEMU's cable holds some two hundred lines that nobody reads; then its whole machine stands still.</summary>
    private const int TurnsBetweenLooks = 10;

    private const byte Enter = 0x28, LeftShift = 0x02;

    public static void Play(Agent agent, Pan hid, Pan serial)
    {
        var line = File.ResolveLinkTarget(SerialScale, returnFinalTarget: true)!.FullName;
        var isRead = false;
        Play(HidScale, IntervalMilliseconds, turn => Report(hid.IsAlive, hid.Show(turn)));
        Play(SerialScale, IntervalMilliseconds, turn =>
        {
            if (turn % TurnsBetweenLooks == 0)
                isRead = agent.HasOpen(line);
            return isRead ? Line($"{(serial.IsAlive ? "US" : "ST")},GS,+{serial.Show(turn) / 10m,7:0.0}  g") : [];
        });
        Play(Probe, ProbeMilliseconds, static _ => Line($"39.8 C"));
    }

    /// <summary>Types a code of capital letters, digits and '-', then Enter, as boot reports of a keyboard (USB HID 1.11, appendix B; usages of its table 10).</summary>
    public static void Scan(string code)
    {
        using var keyboard = Open(Scanner + Far);
        foreach (var letter in code)
            Press(keyboard, char.IsAsciiLetterUpper(letter) ? LeftShift : (byte)0, UsageOf(letter));
        Press(keyboard, 0, Enter);
    }

    // The scale data report: id, status (3 in motion, 4 stable), unit (2 gram), scaling, weight (USB-IF, HID Point of Sale Usage Tables).
    private static byte[] Report(bool moves, int tenths)
    {
        byte[] report = [3, (byte)(moves ? 3 : 4), 2, 0xFF, 0, 0];
        BinaryPrimitives.WriteUInt16LittleEndian(report.AsSpan(4), (ushort)Math.Max(0, tenths));
        return report;
    }

    private static byte UsageOf(char letter) => letter switch
    {
        >= 'A' and <= 'Z' => (byte)(0x04 + letter - 'A'),
        >= '1' and <= '9' => (byte)(0x1E + letter - '1'),
        '0' => 0x27,
        '-' => 0x2D,
        _ => throw new ArgumentException($"{letter} is not typed here."),
    };

    private static void Press(FileStream keyboard, byte modifier, byte usage)
    {
        keyboard.Write([modifier, 0, usage, 0, 0, 0, 0, 0]);
        keyboard.Write(new byte[8]);
    }

    private static byte[] Line(FormattableString text) => Encoding.ASCII.GetBytes(text.ToString(CultureInfo.InvariantCulture) + "\r\n");

    private static void Play(string near, int milliseconds, Func<int, byte[]> next)
    {
        var thread = new Thread(() =>
        {
            using var far = Open(near + Far);
            for (var turn = 0; ; turn++)
            {
                var bytes = next(turn);
                if (bytes.Length > 0)
                    far.Write(bytes);
                Thread.Sleep(milliseconds);
            }
        })
        {
            IsBackground = true,
        };
        thread.Start();
    }

    private static FileStream Open(string path) => new(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
}
