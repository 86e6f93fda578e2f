using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace CaptureAgent.Agent.Links.Serial;

/// <summary>The kernel's <c>struct termios2</c>, the same on x64 and arm64 (Linux headers, asm-generic/termbits.h); it takes any speed.</summary>
[StructLayout(LayoutKind.Sequential)]
internal struct Termios
{
    public InputFlags Input;
    public uint Output;
    public ControlFlags Control;
    public uint Local;
    public byte Discipline;
    public ControlCharacters Characters;
    public uint InputSpeed;
    public uint OutputSpeed;

    [Flags]
    public enum InputFlags : uint
    {
        IgnoreBreak = 0x1,
        MarkErrors = 0x8,
        CheckParity = 0x10,
        XonOutput = 0x400,
        XonInput = 0x1000,
    }

    [Flags]
    public enum ControlFlags : uint
    {
        SevenBits = 0x20,
        EightBits = 0x30,
        TwoStopBits = 0x40,
        Receiver = 0x80,
        Parity = 0x100,
        OddParity = 0x200,
        NoModemControl = 0x800,
        SpeedAsNumber = 0x1000,
        StickParity = 0x40000000,
        RtsCts = 0x80000000,
    }

    /// <summary>Raw bytes both ways: no echo, no translation, no signals, no waiting for a line.</summary>
    public static Termios For(SerialSettings settings)
    {
        var termios = new Termios
        {
            // A byte damaged on the wire comes marked, so that its line is refused: unmarked it would be another digit.
            Input = InputFlags.IgnoreBreak | InputFlags.MarkErrors | InputFlags.CheckParity,
            // HUPCL stays off: with it each closing drops DTR, which restarts some scales.
            Control = ControlFlags.Receiver | ControlFlags.NoModemControl | ControlFlags.SpeedAsNumber,
            InputSpeed = (uint)settings.Baud,
            OutputSpeed = (uint)settings.Baud,
        };
        termios.Control |= settings.DataBits == 7 ? ControlFlags.SevenBits : ControlFlags.EightBits;
        termios.Control |= settings.StopBits == 2 ? ControlFlags.TwoStopBits : 0;
        termios.Control |= settings.Parity switch
        {
            SerialParity.Odd => ControlFlags.Parity | ControlFlags.OddParity,
            SerialParity.Even => ControlFlags.Parity,
            SerialParity.Mark => ControlFlags.Parity | ControlFlags.StickParity | ControlFlags.OddParity,
            SerialParity.Space => ControlFlags.Parity | ControlFlags.StickParity,
            _ => 0,
        };
        termios.Control |= settings.Flow == SerialFlow.RtsCts ? ControlFlags.RtsCts : 0;
        termios.Input |= settings.Flow == SerialFlow.XonXoff ? InputFlags.XonOutput | InputFlags.XonInput : 0;
        // VMIN 1, VTIME 0: nothing to read is EAGAIN, so that a read of 0 bytes can only be a hang-up.
        termios.Characters[6] = 1;
        termios.Characters[8] = 0x11; // VSTART: XON
        termios.Characters[9] = 0x13; // VSTOP: XOFF
        return termios;
    }

    /// <summary>The names of the settings in which <paramref name="applied"/> is not what was wanted.</summary>
    public readonly IEnumerable<string> DifferencesTo(Termios applied)
    {
        var control = Control ^ applied.Control;
        if (Math.Abs((long)OutputSpeed - applied.OutputSpeed) * 20 > OutputSpeed)
            yield return "baud";
        if ((control & ControlFlags.EightBits) != 0)
            yield return "dataBits";
        if ((control & (ControlFlags.Parity | ControlFlags.OddParity | ControlFlags.StickParity)) != 0)
            yield return "parity";
        if ((control & ControlFlags.TwoStopBits) != 0)
            yield return "stopBits";
        if ((control & ControlFlags.RtsCts) != 0)
            yield return "flow";
    }

    [InlineArray(19)]
    public struct ControlCharacters
    {
        private byte first;
    }
}
