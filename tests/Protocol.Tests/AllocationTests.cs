using CaptureAgent.Protocol.Frames;
using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Protocol.Tests;

/// <summary>The hot path, from bytes to grams, gives the garbage collector nothing to do.</summary>
public sealed class AllocationTests
{
    private const int Turns = 1000;

    [Theory]
    [InlineData("header-comma", "ST,GS,+0028.40  g\r\nUS,NT,-  28,4 kg\r\nOL,GS,+9999999  g\r\nnoise\r\nST,GS,+1.2.3 g\r\n")]
    [InlineData("sign-value", "+    28.40 oz \r\n+    28.40    \r\n- --------\r\nG     +  1.0 lb  \r\nnoise and more\r\n")]
    [InlineData("request-reply", "S S      28.40 g\r\nS D     28.37 mg\r\nS +\r\nS I\r\nES\r\nnoise\r\n")]
    public void A_scale_line_allocates_nothing(string dialect, string text)
    {
        var decoder = ScaleDialects.Create(dialect).Decoder!;
        var grams = 0m;
        AssertNothing(text, line =>
        {
            if (decoder.Decode(line, out var reading) == LineFault.None && reading.Unit != MassUnit.None)
                grams += MassUnits.ToGrams(reading.Value, reading.Unit);
        });
        Assert.NotEqual(0, grams);
    }

    [Fact]
    public void A_probe_line_allocates_nothing()
    {
        TextProbe decoder = new();
        var celsius = 0m;
        AssertNothing("39.8 \xB0" + "C\r\n98.6\xC2\xB0" + "F\r\nnoise\r\n", line =>
        {
            if (decoder.Decode(line, out var reading) == LineFault.None)
                celsius += reading.Celsius;
        });
        Assert.NotEqual(0, celsius);
    }

    [Fact]
    public void A_frame_allocates_nothing()
    {
        IScaleDecoder[] scales = [new WeightMeasurementDecoder(), new HidScaleReport(), new FrameScale(new FrameDescription(new FrameField(1, 2), 0.1m), MassUnit.Gram)];
        IProbeDecoder[] probes = [new TemperatureMeasurementDecoder(isIntermediate: false), new EnvironmentalTemperature()];
        byte[][] frames = [Convert.FromHexString("02B036E7070C190E1E2D"), Convert.FromHexString("030402FFD204"), Convert.FromHexString("006C0100FF"), Convert.FromHexString("6408")];
        var sum = 0m;
        Read();
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var turn = 0; turn < Turns; turn++)
            Read();
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.NotEqual(0, sum);

        void Read()
        {
            foreach (var frame in frames)
            {
                foreach (var scale in scales)
                    sum += scale.Decode(frame, out var weight) == LineFault.None ? weight.Value : 0;
                foreach (var probe in probes)
                    sum += probe.Decode(frame, out var temperature) == LineFault.None ? temperature.Celsius : 0;
            }
        }
    }

    private static void AssertNothing(string text, Action<ReadOnlySpan<byte>> onLine)
    {
        var bytes = Wire.Bytes(text);
        LineFramer framer = new();
        Read(framer, bytes, onLine);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var turn = 0; turn < Turns; turn++)
            Read(framer, bytes, onLine);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    private static void Read(LineFramer framer, byte[] bytes, Action<ReadOnlySpan<byte>> onLine)
    {
        // In two pieces, so that the way over the framer's own buffer is taken too.
        for (var piece = 0; piece < 2; piece++)
        {
            ReadOnlySpan<byte> rest = piece == 0 ? bytes.AsSpan(0, 25) : bytes.AsSpan(25);
            while (framer.TryTakeLine(ref rest, out var line))
                onLine(line);
        }
    }
}
