namespace CaptureAgent.Agent.Answers.Tones;

/// <summary>A stretch of sound that is put together from knocks, rasps and glides. Times in milliseconds, pitches in hertz.</summary>
internal sealed class Strip(double milliseconds)
{
    private const double Click = 3, Edge = 8;

    private readonly double[] samples = new double[Count(milliseconds)];

    private ulong noise = 0x9E3779B97F4A7C15;

    /// <summary>Something solid is hit: a click of noise, and what rings dies away.</summary>
    /// <param name="rings">Pitches of the body, each half as loud as the one before.</param>
    /// <param name="decay">After which a ring is at 1/e; higher ones die sooner.</param>
    public Strip Knock(double at, double decay, double level, params ReadOnlySpan<double> rings)
    {
        var start = Count(at);
        for (var i = start; i < samples.Length; i++)
        {
            var t = Milliseconds(i - start);
            var sum = t < 4 * Click ? 0.5 * Noise() * Math.Exp(-t / Click) : 0;
            for (var k = 0; k < rings.Length; k++)
                sum += Math.Pow(0.5, k) * Math.Sin(Turn(rings[k], t)) * Math.Exp(-t * (1 + 0.5 * k) / decay);
            samples[i] += level * sum * Math.Min(1, t / 0.5);
        }

        return this;
    }

    /// <summary>Something rough is dragged: all harmonics of a low pitch, chopped.</summary>
    /// <param name="chopped">How often a second it stops and starts.</param>
    public Strip Rasp(double at, double length, double pitch, double chopped)
    {
        const int Harmonics = 14;
        for (var i = Count(at); i < Math.Min(samples.Length, Count(at + length)); i++)
        {
            var t = Milliseconds(i) - at;
            var sum = 0.0;
            for (var k = 1; k <= Harmonics; k++)
                sum += Math.Sin(Turn(k * pitch, t)) / k;
            samples[i] += sum * (0.15 + 0.85 * (0.5 - 0.5 * Math.Cos(Turn(chopped, t)))) * Edges(t, length);
        }

        return this;
    }

    /// <summary>A voice without words: it glides from one pitch to another.</summary>
    public Strip Glide(double at, double length, double from, double to)
    {
        for (var i = Count(at); i < Math.Min(samples.Length, Count(at + length)); i++)
        {
            var t = Milliseconds(i) - at;
            // Even in octaves; the phase is the pitch's integral.
            var octaves = Math.Log2(to / from) / length;
            var phase = 2 * Math.PI * from / 1000 * (Math.Pow(2, octaves * t) - 1) / (octaves * Math.Log(2));
            samples[i] += (Math.Sin(phase) + 0.25 * Math.Sin(2 * phase) + 0.08 * Math.Sin(3 * phase)) * Math.Sin(Math.PI * Math.Pow(t / length, 0.7)) * Edges(t, length);
        }

        return this;
    }

    /// <summary>The samples, so loud that the loudest eighth of a second (the time weighting F of IEC 61672-1) has this level.</summary>
    /// <param name="decibels">Root mean square, below full scale.</param>
    public double[] AtLevel(double decibels)
    {
        var factor = Math.Pow(10, decibels / 20) / Loudness.LoudestEighth(samples, Wave.Rate);
        return [.. samples.Select(sample => sample * factor)];
    }

    private static double Edges(double t, double length) => Math.Min(1, Math.Min(t, length - t) / Edge);

    private static double Turn(double pitch, double t) => 2 * Math.PI * pitch * t / 1000;

    private static double Milliseconds(int samples) => 1000.0 * samples / Wave.Rate;

    private static int Count(double milliseconds) => (int)(milliseconds * Wave.Rate / 1000);

    // The same noise each time: a tone never sounds otherwise than it was tested (xorshift64, Marsaglia, J. Stat. Softw. 8(14), 2003).
    private double Noise()
    {
        noise ^= noise << 13;
        noise ^= noise >> 7;
        noise ^= noise << 17;
        return (noise >> 11) / (double)(1UL << 52) - 1;
    }
}
