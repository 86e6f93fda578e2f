using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Benchmarks.Settle.Baselines;

/// <summary>The mean of a moving window whose standard deviation is below a threshold: the more lenient of some divisions and a share of the weight.</summary>
/// <remarks>Window and thresholds are those of a grid (1 to 3 s, 0.5 to 1.5 d, 0.1 to 1 % of the weight; 1000 placings of seed 1) whose shares lie nearest to
/// <see cref="Judging.KnownBaselines"/>: its agreement there is by choice and says nothing about the simulation.</remarks>
internal sealed class MovingDeviation : IBaseline
{
    private const double WindowSeconds = 3;
    private const double Divisions = 1;
    private const double Share = 0.003;
    private const int LeastReadings = 5;

    private readonly Queue<(double Seconds, double Net, bool Loaded)> window = [];

    public double? Add(in ScaleSample sample, double net, bool loaded, double division)
    {
        var now = sample.Seconds;
        window.Enqueue((now, net, loaded));
        while (window.Peek().Seconds < now - WindowSeconds)
            window.Dequeue();
        if (window.Count < LeastReadings || now - window.Peek().Seconds < 0.8 * WindowSeconds || window.Any(reading => !reading.Loaded))
            return null;
        var mean = window.Average(reading => reading.Net);
        var deviation = Math.Sqrt(window.Average(reading => (reading.Net - mean) * (reading.Net - mean)));
        return deviation < Math.Max(Divisions * division, Share * mean) ? mean : null;
    }

    public void Clear() => window.Clear();
}
