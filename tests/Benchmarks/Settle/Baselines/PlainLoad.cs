using System.Runtime.InteropServices;

namespace CaptureAgent.Benchmarks.Settle.Baselines;

/// <summary>The readings since a load came, for <see cref="PlainEstimator"/>; forgotten when it goes.</summary>
internal sealed class PlainLoad(double interval, double expectedGrams, double division)
{
    private const double HatchlingGrams = 20, LeastOfHatchling = 1, LeastOfOthers = 1.5, LeastDivisions = 3.2;

    // Gone is what shows less than these shares of the least and of the most that lay there, for so long and so many readings.
    private const double GoneOfLeast = 0.5, GoneOfMost = 0.12, GoneSeconds = 0.4;
    private const int GoneReadings = 2;

    private readonly double least = Math.Max(expectedGrams < HatchlingGrams ? LeastOfHatchling : LeastOfOthers, LeastDivisions * division);
    private readonly List<double> readings = [];
    private double most;
    private int light;

    /// <summary>Seconds.</summary>
    public double CameAt { get; private set; }

    /// <summary>Grams above the tare.</summary>
    public ReadOnlySpan<double> Readings => CollectionsMarshal.AsSpan(readings);

    /// <returns>Whether there is a load.</returns>
    public bool Add(double seconds, double net)
    {
        if (readings.Count == 0)
        {
            if (net <= least)
                return false;
            (CameAt, most, light) = (seconds, net, 0);
        }

        most = Math.Max(most, net);
        light = net < Math.Max(GoneOfLeast * least, GoneOfMost * most) ? light + 1 : 0;
        if (light >= Math.Max(GoneReadings, (int)(GoneSeconds / interval)))
        {
            Clear();
            return false;
        }

        readings.Add(net);
        return true;
    }

    public void Clear() => readings.Clear();
}
