using System.Text;
using CaptureAgent.Agent.Links.Serial;
using CsCheck;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links;

/// <summary>What is taken out of the stream of bytes is the same however the stream was cut.</summary>
public sealed class ByteStreamTests
{
    private static readonly Gen<(byte Value, bool Damaged)[]> Line = Gen.Select(
        Gen.OneOf(Gen.Byte, Gen.Byte[0xFE, 0xFF]), Gen.Int[0, 4].Select(odds => odds == 0)).Array[0, 30];

    [Fact]
    public void Marks_of_damage_are_read_across_any_cut() =>
        Gen.Select(Line, Gen.Int[1, 7]).Sample((sent, size) =>
        {
            // As termios(3) describes PARMRK.
            byte[] marked = [.. sent.SelectMany(one => one switch
            {
                (var value, true) => new byte[] { 0xFF, 0, value },
                (0xFF, _) => [0xFF, 0xFF],
                (var value, _) => [value],
            })];
            byte[] wanted = [.. sent.Select(one => one.Damaged ? DamageMarks.Damaged : one.Value)];

            var marks = new DamageMarks();
            byte[] got = [.. marked.Chunk(size).SelectMany(chunk => chunk[..marks.Remove(chunk)])];
            return got.AsSpan().SequenceEqual(wanted);
        });

    [Theory]
    [InlineData("6.4 g\r\n186.4 g\r\n", "186.4 g\r\n")]
    [InlineData("6.4 g\r186.4 g\r", "186.4 g\r")]
    [InlineData("6.4 g\n186.4 g\n", "186.4 g\n")]
    [InlineData("\n186.4 g\r\n", "186.4 g\r\n")]
    [InlineData("6.4 g\r\n\r\n186.4 g\r\n\r\n", "186.4 g\r\n\r\n")]
    [InlineData("6.4 g", "")]
    [InlineData("", "")]
    public void The_first_line_is_held_back_across_any_cut(string sent, string wanted)
    {
        for (var size = 1; size <= sent.Length + 1; size++)
        {
            var gate = new FirstLineGate(closed: true);
            var got = string.Concat(Encoding.Latin1.GetBytes(sent).Chunk(size).Select(chunk => Encoding.Latin1.GetString(gate.Pass(chunk))));
            Assert.Equal(wanted, got.TrimStart('\r', '\n')); // empty lines mean nothing
        }
    }

    [Fact]
    public void An_open_gate_holds_nothing_back()
    {
        Assert.Equal("6.4"u8, new FirstLineGate(closed: false).Pass("6.4"u8));
        var gate = new FirstLineGate(closed: true);
        gate.Open();
        Assert.Equal("6.4"u8, gate.Pass("6.4"u8));
    }

    [Fact]
    public void Steps_are_even_and_missed_ones_are_left_out()
    {
        var time = new FakeTimeProvider();
        var cadence = new Cadence(TimeSpan.FromMilliseconds(100), time);
        Assert.True(cadence.TryTake());
        Assert.False(cadence.TryTake());
        time.Advance(TimeSpan.FromMilliseconds(130));
        Assert.True(cadence.TryTake());
        Assert.Equal(TimeSpan.FromMilliseconds(70), cadence.Remaining);
        time.Advance(TimeSpan.FromMilliseconds(1000));
        Assert.True(cadence.TryTake());
        Assert.False(cadence.TryTake());
    }
}
