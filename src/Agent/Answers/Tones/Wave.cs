using System.Buffers.Binary;

namespace CaptureAgent.Agent.Answers.Tones;

/// <summary>Sound as it is written: mono, 16 bits, <see cref="Rate"/> samples a second; -1 to 1 before.</summary>
internal static class Wave
{
    /// <summary>What every loudspeaker takes without resampling.</summary>
    public const int Rate = 48_000;

    private const int HeaderBytes = 44, BytesASample = 2;

    /// <summary>A RIFF file of PCM (Multimedia Programming Interface and Data Specifications 1.0, August 1991, chapter 3).</summary>
    /// <param name="gain">1: as it is.</param>
    public static byte[] File(ReadOnlySpan<double> samples, double gain)
    {
        var file = new byte[HeaderBytes + samples.Length * BytesASample];
        "RIFF"u8.CopyTo(file);
        BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(4), file.Length - 8);
        "WAVEfmt "u8.CopyTo(file.AsSpan(8));
        BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(16), 16);
        BinaryPrimitives.WriteInt16LittleEndian(file.AsSpan(20), 1);
        BinaryPrimitives.WriteInt16LittleEndian(file.AsSpan(22), 1);
        BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(24), Rate);
        BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(28), Rate * BytesASample);
        BinaryPrimitives.WriteInt16LittleEndian(file.AsSpan(32), BytesASample);
        BinaryPrimitives.WriteInt16LittleEndian(file.AsSpan(34), 8 * BytesASample);
        "data"u8.CopyTo(file.AsSpan(36));
        BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(40), samples.Length * BytesASample);
        for (var i = 0; i < samples.Length; i++)
            BinaryPrimitives.WriteInt16LittleEndian(file.AsSpan(HeaderBytes + i * BytesASample), (short)Math.Clamp(Math.Round(samples[i] * gain * short.MaxValue), -short.MaxValue, short.MaxValue));
        return file;
    }

    /// <summary>A loudness of 0 to 100 % as a factor: its square, because ears count ratios.</summary>
    public static double Gain(int percent) => percent / 100.0 * (percent / 100.0);
}
