namespace CaptureAgent.Agent.Weighing;

/// <summary>How far the weight of one level, as it was told from evaluation to evaluation, has wandered lately: under a force of its own it goes on doing so.</summary>
internal sealed class EstimatePath
{
    private const int Capacity = 64;
    private readonly (double Seconds, double Grams)[] ring = new (double, double)[Capacity];
    private int count;

    public void Clear() => count = 0;

    public void Add(double seconds, double grams) => ring[count++ % Capacity] = (seconds, grams);

    /// <summary>Highest less lowest of the last <paramref name="span"/> seconds, in grams; not a number where the level is younger.</summary>
    public double Range(double span)
    {
        var (lowest, highest) = (double.PositiveInfinity, double.NegativeInfinity);
        for (var i = 0; i < Math.Min(count, Capacity); i++)
        {
            var (seconds, grams) = ring[(count - 1 - i) % Capacity];
            (lowest, highest) = (Math.Min(lowest, grams), Math.Max(highest, grams));
            if (ring[(count - 1) % Capacity].Seconds - seconds >= span)
                return highest - lowest;
        }

        return double.NaN;
    }
}
