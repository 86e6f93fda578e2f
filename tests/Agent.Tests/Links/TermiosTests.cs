using CaptureAgent.Agent.Links.Serial;
using Xunit;
using static CaptureAgent.Agent.Links.Serial.Termios;

namespace CaptureAgent.Agent.Tests.Links;

/// <summary>What is asked of the kernel, which pseudo-terminals ignore. The numbers are those of termios(3) and the Linux headers.</summary>
public sealed class TermiosTests
{
    private static readonly SerialSettings Plain = new(9600, 8, SerialParity.None, 1, SerialFlow.None);

    [Theory]
    [InlineData(SerialParity.None, 0x0u)]
    [InlineData(SerialParity.Odd, 0x300u)]
    [InlineData(SerialParity.Even, 0x100u)]
    [InlineData(SerialParity.Mark, 0x40000300u)]
    [InlineData(SerialParity.Space, 0x40000100u)]
    internal void Each_parity_has_its_own_bits(SerialParity parity, uint bits) =>
        Assert.Equal(bits, (uint)Termios.For(Plain with { Parity = parity }).Control & 0x40000300u);

    [Theory]
    [InlineData(7, 0x20u)]
    [InlineData(8, 0x30u)]
    public void Data_bits_are_set(int dataBits, uint bits) =>
        Assert.Equal(bits, (uint)Termios.For(Plain with { DataBits = dataBits }).Control & 0x30u);

    [Theory]
    [InlineData(1, 0x0u)]
    [InlineData(2, 0x40u)]
    public void Stop_bits_are_set(int stopBits, uint bits) =>
        Assert.Equal(bits, (uint)Termios.For(Plain with { StopBits = stopBits }).Control & 0x40u);

    [Theory]
    [InlineData(SerialFlow.None, 0x0u, 0x0u)]
    [InlineData(SerialFlow.XonXoff, 0x0u, 0x1400u)]
    [InlineData(SerialFlow.RtsCts, 0x80000000u, 0x0u)]
    internal void Flow_control_is_set(SerialFlow flow, uint control, uint input)
    {
        var termios = Termios.For(Plain with { Flow = flow });
        Assert.Equal(control, (uint)termios.Control & 0x80000000u);
        Assert.Equal(input, (uint)termios.Input & 0x1400u);
    }

    [Theory]
    [InlineData(1200)]
    [InlineData(9600)]
    [InlineData(250_000)]
    public void Any_speed_goes_as_a_number(int baud)
    {
        var termios = Termios.For(Plain with { Baud = baud });
        Assert.Equal((uint)baud, termios.InputSpeed);
        Assert.Equal((uint)baud, termios.OutputSpeed);
        Assert.True(termios.Control.HasFlag(ControlFlags.SpeedAsNumber));
    }

    [Fact]
    public void Bytes_go_raw_and_damage_is_marked()
    {
        var termios = Termios.For(Plain);
        Assert.Equal(0u, termios.Local);
        Assert.Equal(0u, termios.Output);
        Assert.Equal(InputFlags.IgnoreBreak | InputFlags.MarkErrors | InputFlags.CheckParity, termios.Input);
        Assert.Equal(1, termios.Characters[6]);
        Assert.Equal(0, termios.Characters[5]);
    }

    [Fact]
    public void Closing_does_not_drop_the_modem_lines() => Assert.Equal(0u, (uint)Termios.For(Plain).Control & 0x400u);

    [Fact]
    public void What_a_driver_changed_is_named_and_a_near_speed_is_as_good()
    {
        var wanted = Termios.For(new(9600, 7, SerialParity.Mark, 2, SerialFlow.RtsCts));
        Assert.Equal(["dataBits", "parity", "stopBits", "flow"], wanted.DifferencesTo(Termios.For(Plain with { Baud = 9615 })));
        Assert.Equal(["baud"], Termios.For(Plain).DifferencesTo(Termios.For(Plain with { Baud = 19200 })));
        Assert.Empty(wanted.DifferencesTo(wanted));
    }
}
