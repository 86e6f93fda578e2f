using CaptureAgent.Protocol.FrameFinding;
using CaptureAgent.Protocol.Frames;
using CsCheck;

namespace CaptureAgent.Protocol.Tests.FrameFinding;

/// <summary>Finding where a value stands. All layouts are invented; the test knows the truth.</summary>
public sealed class FrameFinderTests
{
    private static readonly decimal[] Masses = [0, 100, 500];

    [Fact]
    public void The_place_of_the_value_is_found_among_other_bytes()
    {
        var device = new InventedDevice(1) { Counter = 1, Noise = 6 };
        var best = FrameFinder.Find(device.Play(Masses), InventedDevice.Times(Masses), isProbe: false)[0];
        Assert.Equal((device.Field, 0.1m, "g", true, 0m), (best.Field, best.Factor, best.Unit, best.IsRound, best.WorstError));
        Assert.Equal(Masses, best.Proof.Select(one => one.Known));
    }

    [Fact]
    public void What_is_proposed_reads_every_value_of_any_layout() => Gen.Select(
        Gen.Int[2, 4], Gen.Bool, Gen.Int[0, 5], Gen.OneOf(0.01m, 0.1m, 0.5m, 1m), Gen.Int[0, 10_000]).Sample((width, big, offset, step, seed) =>
    {
        var device = new InventedDevice(seed) { Field = new FrameField(offset, width, big, FrameSign.TwosComplement), Step = step, Length = offset + width + 2, Counter = offset + width + 1 };
        decimal[] masses = [0, 50, 200];
        var candidates = FrameFinder.Find(device.Play(masses), InventedDevice.Times(masses), isProbe: false);
        Assert.NotEmpty(candidates);
        // A wider field whose highest bytes are always nought is found as the narrower one: the values are the same.
        foreach (var (sample, mass) in device.Play(75, 150).Where((_, i) => i % 100 == 60).Zip((decimal[])[75, 150]))
        {
            Assert.True(candidates[0].Field.TryRead(sample.Frame.Span, out var counts));
            Assert.InRange(counts * candidates[0].Factor - mass, -step, step);
        }
    }, iter: 60);

    [Fact]
    public void A_capacity_that_does_not_fit_a_narrow_field_makes_it_wider()
    {
        var device = new InventedDevice(2) { Field = new FrameField(2, 3, IsBigEndian: true, FrameSign.TwosComplement), Step = 0.01m };
        var narrow = FrameFinder.Find(device.Play(0, 50, 200), InventedDevice.Times(0, 50, 200), isProbe: false)[0];
        var wide = FrameFinder.Find(device.Play(0, 50, 200), InventedDevice.Times(0, 50, 200), isProbe: false, largest: 3000)[0];
        Assert.Equal((2, 3), (narrow.Field.Width, wide.Field.Width));
    }

    [Fact]
    public void A_scale_in_ounces_is_found_out()
    {
        var device = new InventedDevice(3) { Step = 0.05m * 28.349523125m };
        var best = FrameFinder.Find(device.Play(0, 100, 500), InventedDevice.Times(0, 100, 500), isProbe: false)[0];
        Assert.Equal(("oz", 0.05m), (best.Unit, best.Factor));
    }

    [Fact]
    public void Two_temperatures_find_a_probe_s_value_in_either_unit()
    {
        var celsius = new InventedDevice(4) { Step = 0.1m };
        var best = FrameFinder.Find(celsius.Play(0.2m, 40.1m), InventedDevice.Times(0, 40), isProbe: true)[0];
        Assert.Equal((celsius.Field, "C", 0.1m), (best.Field, best.Unit, best.Factor));

        var fahrenheit = new InventedDevice(5) { Step = 0.1m };
        best = FrameFinder.Find(fahrenheit.Play(32.2m, 104.1m), InventedDevice.Times(0, 40), isProbe: true)[0];
        Assert.Equal((fahrenheit.Field, "F", 0.1m), (best.Field, best.Unit, best.Factor));
    }

    [Fact]
    public void Frames_of_two_kinds_are_told_apart_by_their_first_byte()
    {
        var device = new InventedDevice(6);
        var mixed = device.Play(Masses).SelectMany((one, i) => i % 2 == 0 ? (FrameSample[])[one] : [one, one with { Frame = new byte[] { 0x99, 1, 2, (byte)(i & 0xFF), 4, 5, 6, 7 } }]).ToList();
        mixed = [.. mixed.SelectMany(one => one.Frame.Span[0] == 0x99 ? (FrameSample[])[one, one, one] : [one])];
        var best = FrameFinder.Find(mixed, InventedDevice.Times(Masses), isProbe: false)[0];
        Assert.Equal((device.Field, (byte?)0x51), (best.Field, best.Begins));
    }

    [Theory]
    [InlineData(ChecksumKind.Sum, 0, 0, false, 0, false)]
    [InlineData(ChecksumKind.Xor, 0, 0, false, 1, false)]
    [InlineData(ChecksumKind.Crc8, 0x31, 0, true, 0, false)]
    [InlineData(ChecksumKind.Crc16, 0x8005, 0xFFFF, true, 0, false)]
    [InlineData(ChecksumKind.Crc16, 0x1021, 0xFFFF, false, 0, true)]
    public void A_usual_check_sum_is_found(ChecksumKind kind, int polynomial, int initial, bool reflected, int from, bool big)
    {
        var width = kind == ChecksumKind.Crc16 ? 2 : 1;
        var checksum = new FrameChecksum(kind, -width, from, -width - 1, polynomial, initial, reflected, 0, big);
        var device = new InventedDevice(7) { Checksum = checksum, Counter = 1 };
        var best = FrameFinder.Find(device.Play(Masses), InventedDevice.Times(Masses), isProbe: false)[0];
        Assert.Equal(checksum, best.Checksum);
    }

    [Fact]
    public void A_counter_and_a_bit_of_motion_are_found_and_noise_is_neither()
    {
        var device = new InventedDevice(8) { Counter = 1, Moving = 2, Noise = 6 };
        var best = FrameFinder.Find(device.Play(Masses), InventedDevice.Times(Masses), isProbe: false)[0];
        Assert.Equal((new FrameClock(new FrameField(1, 1), 100), new FrameBit(2, 0x10, false)), (best.Clock!.Value, best.Stable!.Value));
        var plain = FrameFinder.Find(new InventedDevice(9) { Noise = 6 }.Play(Masses), InventedDevice.Times(Masses), isProbe: false)[0];
        Assert.Equal((null, null, null), (plain.Clock, plain.Stable, plain.Checksum));
    }

    [Fact]
    public void Nothing_is_proposed_where_nothing_follows_the_masses()
    {
        var device = new InventedDevice(10) { Noise = 6 };
        // The device shows 0, 100 and 300 g where 0, 100 and 500 are said to lie.
        Assert.Empty(FrameFinder.Find(device.Play(0, 100, 300), InventedDevice.Times(0, 100, 500), isProbe: false));
        Assert.Empty(FrameFinder.Find([], InventedDevice.Times(Masses), isProbe: false));
    }

    [Fact]
    public void Any_frames_are_taken() => Gen.Byte.Array[0, 12].Array[0, 60].Sample(frames =>
        _ = FrameFinder.Find([.. frames.Select((frame, i) => new FrameSample(i * 0.2, "fff1", frame))], [new(0, 0, 3), new(100, 4, 7), new(200, 8, 12)], isProbe: false), iter: 200);

    [Fact]
    public void The_bytes_that_change_stand_in_brackets()
    {
        var changing = new ChangingBytes();
        Assert.Equal("fff1  01  02  03", changing.Show("fff1", [1, 2, 3]));
        Assert.Null(changing.Show("fff1", [1, 2, 3]));
        Assert.Equal("fff1  01 [ff] 03", changing.Show("fff1", [1, 255, 3]));
        Assert.Equal("fff2  01", changing.Show("fff2", [1]));
    }
}
