namespace CaptureAgent.Simulators.Physics;

/// <summary>Random numbers that are the same for a seed on every machine and runtime: xoshiro256**, seeded by SplitMix64 (Blackman and Vigna, 2018).</summary>
public sealed class SeededRandom
{
    private ulong s0, s1, s2, s3;
    private double spare;
    private bool hasSpare;

    public SeededRandom(ulong seed)
    {
        var state = seed;
        s0 = SplitMix(ref state);
        s1 = SplitMix(ref state);
        s2 = SplitMix(ref state);
        s3 = SplitMix(ref state);
    }

    public ulong NextUInt64()
    {
        unchecked
        {
            var result = ulong.RotateLeft(s1 * 5, 7) * 9;
            var t = s1 << 17;
            s2 ^= s0;
            s3 ^= s1;
            s1 ^= s2;
            s0 ^= s3;
            s2 ^= t;
            s3 = ulong.RotateLeft(s3, 45);
            return result;
        }
    }

    /// <summary>In [0, 1).</summary>
    public double Unit() => (NextUInt64() >> 11) * (1.0 / (1UL << 53));

    public double Between(double low, double high) => low + ((high - low) * Unit());

    /// <summary>Equal chances for equal ratios.</summary>
    public double LogBetween(double low, double high) => low * Math.Pow(high / low, Unit());

    public bool Chance(double probability) => Unit() < probability;

    public T Pick<T>(params ReadOnlySpan<T> choices) => choices[(int)(Unit() * choices.Length)];

    public double Exponential(double mean) => -mean * Math.Log(1 - Unit());

    /// <summary>Standard normal, by Marsaglia's polar method.</summary>
    public double Normal()
    {
        if (hasSpare)
        {
            hasSpare = false;
            return spare;
        }

        while (true)
        {
            var u = (2 * Unit()) - 1;
            var v = (2 * Unit()) - 1;
            var s = (u * u) + (v * v);
            if (s is >= 1 or 0)
                continue;
            var scale = Math.Sqrt(-2 * Math.Log(s) / s);
            spare = v * scale;
            hasSpare = true;
            return u * scale;
        }
    }

    /// <summary>Another stream, independent of this one's further use.</summary>
    public SeededRandom Fork() => new(NextUInt64());

    private static ulong SplitMix(ref ulong state)
    {
        unchecked
        {
            state += 0x9E3779B97F4A7C15;
            var z = state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }
}
