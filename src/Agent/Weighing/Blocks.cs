namespace CaptureAgent.Agent.Weighing;

/// <summary>The readings of one load in blocks of equal length: their means are nearly independent where single readings are not.</summary>
internal sealed class Blocks
{
    /// <summary>Longer than a wing beat, shorter than a hand's stay.</summary>
    public const double Seconds = 0.3;

    private const int MinReadings = 2;
    private const int Capacity = 256;
    private readonly Block[] blocks = new Block[Capacity];
    private double start, sum, squares, pivot;
    private int readings;

    public int Count { get; private set; }

    public Block this[int i] => blocks[i];

    /// <summary>Counted from the end: <c>[^1]</c> is the newest.</summary>
    public Block this[Index i] => blocks[i.GetOffset(Count)];

    public void Clear()
    {
        Count = 0;
        readings = 0;
    }

    /// <summary>True when the reading completed a block (and began the next).</summary>
    public bool Add(double seconds, double grams)
    {
        var complete = readings >= MinReadings && seconds - start >= Seconds;
        if (complete)
            blocks[Count++] = new Block(start, seconds, pivot + sum / readings, Variance());
        if (complete || readings == 0)
            Start(seconds, grams);
        var deviation = grams - pivot;
        sum += deviation;
        squares += deviation * deviation;
        readings++;
        return complete;
    }

    /// <summary>Forgets the oldest blocks once there is no room, for a load that lies for minutes; gives how many.</summary>
    public int MakeRoom()
    {
        if (Count < Capacity)
            return 0;
        const int Oldest = Capacity / 4;
        Array.Copy(blocks, Oldest, blocks, 0, Count - Oldest);
        Count -= Oldest;
        return Oldest;
    }

    private double Variance() => Math.Max(0, (squares - sum * sum / readings) / (readings - 1));

    private void Start(double seconds, double grams)
    {
        start = seconds;
        pivot = grams;
        sum = 0;
        squares = 0;
        readings = 0;
    }
}

/// <param name="From">Seconds, like <paramref name="To"/>.</param>
/// <param name="Mean">Grams.</param>
/// <param name="Motion">Variance of the readings within the block, grams².</param>
internal readonly record struct Block(double From, double To, double Mean, double Motion);
