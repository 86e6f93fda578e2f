using System.Buffers.Binary;
using System.Text;
using CaptureAgent.Agent.Links.Keyboard;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links.Keyboard;

/// <remarks>Layout, types and key codes: Linux, include/uapi/linux/input.h and input-event-codes.h.</remarks>
public sealed class TypedLineTests
{
    private const ushort Syn = 0, Key = 1, Misc = 4, SynDropped = 3;
    private const ushort Shift = 42, RightShift = 54, Control = 29, CapsLock = 58, Enter = 28, KeypadEnter = 96, Tab = 15;

    private readonly TypedLine typed = new();
    private TimeSpan now;

    [Fact]
    public void A_code_as_a_scanner_types_it_is_a_line()
    {
        // K7 and Enter: shift down, K down and up, shift up, 7 down and up, each with its report.
        byte[]? line = null;
        foreach (var (key, value) in new (ushort, int)[] { (Shift, 1), (37, 1), (37, 0), (Shift, 0), (8, 1), (8, 0), (Enter, 1) })
        {
            line ??= Send(Key, key, value);
            line ??= Send(Syn, 0, 0);
        }

        Assert.Equal("K7\r", Text(line));
    }

    [Theory]
    [InlineData(new int[] { 30, 48, 46 }, "abc")]
    [InlineData(new int[] { 2, 3, 4, 5, 6, 7, 8, 9, 10, 11 }, "1234567890")]
    [InlineData(new int[] { 12, 52, 53, 57 }, "-./ ")]
    [InlineData(new int[] { 79, 80, 81, 75, 76, 77, 71, 72, 73, 82, 83, 98, 74 }, "1234567890./-")]
    public void Keys_type_what_a_US_keyboard_shows(int[] keys, string text)
    {
        foreach (var key in keys)
            Press((ushort)key);
        Assert.Equal(text + "\r", Text(Press(Enter)));
    }

    [Theory]
    [InlineData(2, '!')]
    [InlineData(12, '_')]
    [InlineData(16, 'Q')]
    public void Either_shift_shifts(int key, char letter)
    {
        foreach (var shift in new[] { Shift, RightShift })
        {
            Send(Key, shift, 1);
            Press((ushort)key);
            Send(Key, shift, 0);
        }

        Assert.Equal($"{letter}{letter}\r", Text(Press(Enter)));
    }

    [Fact]
    public void Caps_lock_turns_letters_and_leaves_digits()
    {
        Press(CapsLock);
        Press(30);
        Press(2);
        Press(CapsLock);
        Press(30);
        Assert.Equal("A1a\r", Text(Press(Enter)));
    }

    [Theory]
    [InlineData(Enter)]
    [InlineData(KeypadEnter)]
    [InlineData(Tab)]
    public void Enter_and_tab_end_a_line(int key)
    {
        Press(2);
        Assert.Equal("1\r", Text(Press((ushort)key)));
    }

    [Fact]
    public void Control_M_ends_a_line_and_other_controls_type_nothing()
    {
        Press(2);
        Send(Key, Control, 1);
        Press(27);
        Assert.Equal("1\r", Text(Press(50)));
        Send(Key, Control, 0);
    }

    [Fact]
    public void Repeats_releases_and_other_events_type_nothing()
    {
        Press(2);
        Send(Key, 2, 2);
        Send(Misc, 4, 458_782);
        Assert.Equal("1\r", Text(Press(Enter)));
    }

    [Fact]
    public void Nothing_typed_is_no_line() => Assert.Null(Press(Enter));

    [Fact]
    public void What_was_begun_and_not_ended_is_forgotten()
    {
        Press(2);
        now += TimeSpan.FromSeconds(1);
        Press(3);
        Assert.Equal("2\r", Text(Press(Enter)));
    }

    [Fact]
    public void A_line_of_which_the_kernel_lost_keys_is_refused_and_the_next_is_whole()
    {
        Send(Key, Shift, 1);
        Press(2);
        Send(Syn, SynDropped, 0);
        Press(3);
        Send(Syn, 0, 0);
        Press(4);
        Assert.Null(Press(Enter));
        Press(5);
        Assert.Equal("4\r", Text(Press(Enter)));
    }

    [Fact]
    public void A_line_longer_than_any_code_is_refused()
    {
        for (var i = 0; i < 65; i++)
            Press(2);
        Assert.Null(Press(Enter));
    }

    private static string? Text(byte[]? line) => line is null ? null : Encoding.Latin1.GetString(line);

    private byte[]? Press(ushort key)
    {
        var line = Send(Key, key, 1);
        Send(Syn, 0, 0);
        Send(Key, key, 0);
        Send(Syn, 0, 0);
        return line;
    }

    private byte[]? Send(ushort type, ushort code, int value)
    {
        var one = new byte[TypedLine.EventSize];
        BinaryPrimitives.WriteUInt16LittleEndian(one.AsSpan(16), type);
        BinaryPrimitives.WriteUInt16LittleEndian(one.AsSpan(18), code);
        BinaryPrimitives.WriteInt32LittleEndian(one.AsSpan(20), value);
        now += TimeSpan.FromMilliseconds(2);
        return typed.Take(one, now);
    }
}
