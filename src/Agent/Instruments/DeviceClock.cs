namespace CaptureAgent.Agent.Instruments;

/// <summary>The moments at which frames were sent, from the device's own clock: the quickest delivery of late tells how far that clock is from ours.</summary>
/// <remarks>A delivery can be late, never early, so that the smallest difference between arrival and device time is the nearest to the truth
/// (the minimum filter of network clock synchronisation: RFC 5905, 10). Over some seconds two clocks do not part by more than a thousandth.</remarks>
internal sealed class DeviceClock
{
    private const int Deliveries = 64;

    /// <summary>A difference that changes by more is a device that has started anew.</summary>
    private const double Restarted = 5;

    private readonly double[] differences = new double[Deliveries];
    private long count;
    private double last = double.NaN;

    public void Reset()
    {
        count = 0;
        last = double.NaN;
    }

    /// <summary>Seconds on the station's axis at which the frame was sent.</summary>
    public double Next(DateTimeOffset at, double deviceSeconds)
    {
        var now = at.Seconds();
        var difference = now - deviceSeconds;
        if (count > 0 && Math.Abs(difference - Least()) > Restarted)
            count = 0;
        differences[count++ % Deliveries] = difference;
        var sent = Math.Min(deviceSeconds + Least(), now);
        return last = sent > last || double.IsNaN(last) ? sent : last + 1e-3;
    }

    private double Least()
    {
        var least = double.MaxValue;
        for (var i = 0; i < Math.Min(count, Deliveries); i++)
            least = Math.Min(least, differences[i]);
        return least;
    }
}
