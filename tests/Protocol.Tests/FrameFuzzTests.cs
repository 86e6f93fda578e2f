using CaptureAgent.Protocol.BtHome;
using CaptureAgent.Protocol.Codes;
using CaptureAgent.Protocol.Frames;
using CaptureAgent.Protocol.Gatt;
using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;
using CsCheck;

namespace CaptureAgent.Protocol.Tests;

/// <summary>Any bytes may come by radio: no exception, and no value with a fault.</summary>
public sealed class FrameFuzzTests
{
    private const int Turns = 50_000;

    private static readonly string[] Seeds =
    [
        "0F543DE7070C190E1E2D03F500A802", "00FFFF", "06720100FFE7070C190E1E2D02", "00FFFF7F00", "6408", "030402FFD204", "030202000000",
        "40000902CA0903BF13", "41e445f3c9962b332211006c7c4519", "43A5808FE64854F196C06FFB4900112233F08ECBDE", "A501000748F0E5", "E907010F0E1E2D032101",
    ];

    /// <summary>Noise, or a good frame with a few bytes changed or cut.</summary>
    private static readonly Gen<byte[]> Junk = Gen.OneOf(
        Gen.Byte.Array[0, 40],
        Gen.Select(Gen.OneOf(Seeds), Gen.Int[0, 20], Gen.Byte, Gen.Int[0, 20], (seed, at, value, length) =>
        {
            var frame = Convert.FromHexString(seed);
            frame[at % frame.Length] = value;
            return frame[..Math.Min(frame.Length, length + 1)];
        }));

    [Fact]
    public void A_scale_s_frame_decoder_takes_anything()
    {
        IScaleDecoder[] decoders = [new WeightMeasurementDecoder(), new HidScaleReport(), new FrameScale(new FrameDescription(new FrameField(-3, 3, true, FrameSign.TwosComplement), 0.01m) { Checksum = new(ChecksumKind.Crc8, -1, 0, -2, 7) }, MassUnit.Ounce)];
        Junk.Sample(frame =>
        {
            foreach (var decoder in decoders)
            {
                var fault = decoder.Decode(frame, out var reading);
                Assert.True(Enum.IsDefined(fault));
                if (fault != LineFault.None)
                    Assert.Equal(default, reading);
                else if (reading.Range == LoadRange.Within)
                    Assert.True(MassUnits.ToGrams(reading.Value, reading.Unit) is > -1e12m and < 1e12m && reading.StepGrams(reading.Unit) > 0);
                else
                    Assert.Equal((0m, MassUnit.None), (reading.Value, reading.Unit));
            }

            _ = WeightScaleFeature.Read(frame);
        }, iter: Turns);
    }

    [Fact]
    public void A_probe_s_frame_decoder_takes_anything()
    {
        IProbeDecoder[] decoders = [new TemperatureMeasurementDecoder(false), new EnvironmentalTemperature(), new FrameProbe(new FrameDescription(new FrameField(1, 4), 1000m), true)];
        Junk.Sample(frame =>
        {
            foreach (var decoder in decoders)
            {
                var fault = decoder.Decode(frame, out var reading);
                if (fault != LineFault.None)
                    Assert.Equal(default, reading);
                else
                    Assert.True(reading.Celsius >= ProbeReading.AbsoluteZero && reading.ResolutionCelsius > 0);
            }

            _ = (MeasurementInterval.Read(frame), BatteryLevel.Read(frame), DeviceInformation.Text(frame), DeviceInformation.ReadPnpId(frame), CurrentTime.Read(frame));
        }, iter: Turns);
    }

    [Fact]
    public void A_receiver_of_advertisements_takes_anything()
    {
        var key = Convert.FromHexString("231d39c1d7cc1ab1aee224cd096db932");
        Junk.Sample(frame =>
        {
            // A counter that is heard once is not heard again: each frame meets receivers of its own.
            using BtHomeReceiver open = new(), closed = new(key, [1, 2, 3, 4, 5, 6]);
            List<BtHomeObject> objects = [];
            Assert.True(Enum.IsDefined(open.Take(frame, objects)));
            Assert.NotEqual(LineFault.None, closed.Take(frame, objects));
            Assert.Empty(objects);
        }, iter: 5_000);
    }

    [Fact]
    public void Any_description_takes_any_frame() => Gen.Select(
        Junk, Gen.Int[-8, 8], Gen.Int[0, 6], Gen.OneOf(FrameSign.None, FrameSign.TwosComplement, FrameSign.Bit), Gen.Int[-8, 8]).Sample((frame, offset, width, sign, other) =>
    {
        FrameDescription description = new(new FrameField(offset, width, true, sign, other, 0x80), 0.5m)
        {
            MinLength = 1,
            Stable = new FrameBit(other, 1, true),
            Checksum = new FrameChecksum(ChecksumKind.Crc16, other, offset, -1, 0x1021),
        };
        _ = new FrameScale(description, MassUnit.Gram).Decode(frame, out _);
        _ = new FrameScale(description with { Checksum = null }, MassUnit.Gram).Decode(frame, out _);
    }, iter: Turns);

    [Fact]
    public void Any_line_of_a_transponder_reader_is_taken() => Gen.String.Sample(line => Assert.Equal(Transponder.TryRead(line, out var code), code.Length == 15));
}
