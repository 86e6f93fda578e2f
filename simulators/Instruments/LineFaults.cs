using CaptureAgent.Simulators.Physics;

namespace CaptureAgent.Simulators.Instruments;

/// <summary>How often a line of serial text comes to harm on its way; each is a chance per line.</summary>
public sealed record LineFaults
{
    public static LineFaults None { get; } = new();

    /// <summary>Noise bytes before the line.</summary>
    public double Garbage { get; init; }

    /// <summary>A byte of the line is another one.</summary>
    public double Corrupt { get; init; }

    /// <summary>The line is cut in two writes.</summary>
    public double Split { get; init; }

    /// <summary>The line is kept and goes out together with the next.</summary>
    public double Merge { get; init; }
}

/// <summary>Does the harm: lines in, writes out. Nothing but garbage and corruption changes the bytes or their order.</summary>
public sealed class FaultyLine(LineFaults faults, ulong seed)
{
    private readonly SeededRandom random = new(seed);
    private byte[] kept = [];

    /// <summary>The writes that this line causes, in order; none where it is kept for the next.</summary>
    public IReadOnlyList<byte[]> Take(ReadOnlySpan<byte> line)
    {
        byte[] bytes = [.. kept, .. random.Chance(faults.Garbage) ? Noise() : [], .. line];
        kept = [];
        if (random.Chance(faults.Corrupt))
            bytes[(int)(random.Unit() * bytes.Length)] ^= (byte)(1 << (int)(random.Unit() * 8));
        if (random.Chance(faults.Merge))
        {
            kept = bytes;
            return [];
        }

        if (bytes.Length < 2 || !random.Chance(faults.Split))
            return [bytes];
        var cut = 1 + (int)(random.Unit() * (bytes.Length - 1));
        return [bytes[..cut], bytes[cut..]];
    }

    private byte[] Noise()
    {
        var noise = new byte[1 + (int)(random.Unit() * 12)];
        for (var i = 0; i < noise.Length; i++)
            noise[i] = (byte)(random.NextUInt64() & 0xFF);
        return noise;
    }
}
