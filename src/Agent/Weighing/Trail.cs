namespace CaptureAgent.Agent.Weighing;

/// <summary>The readings of one load in order of time; the oldest are forgotten when a load lies for minutes.</summary>
internal sealed class Trail
{
    private const int Capacity = 4096;
    private readonly double[] seconds = new double[Capacity];
    private readonly double[] grams = new double[Capacity];

    public int Count { get; private set; }

    public void Clear() => Count = 0;

    public void Add(double at, double value)
    {
        if (Count == Capacity)
        {
            const int Oldest = Capacity / 4;
            Array.Copy(seconds, Oldest, seconds, 0, Count - Oldest);
            Array.Copy(grams, Oldest, grams, 0, Count - Oldest);
            Count -= Oldest;
        }

        seconds[Count] = at;
        grams[Count++] = value;
    }

    /// <summary>Index of the first reading at or after a moment.</summary>
    public int IndexAt(double at)
    {
        var found = Array.BinarySearch(seconds, 0, Count, at);
        return found < 0 ? ~found : found;
    }

    public ReadOnlySpan<double> SecondsFrom(int index) => seconds.AsSpan(index, Count - index);

    public ReadOnlySpan<double> GramsFrom(int index) => grams.AsSpan(index, Count - index);
}
