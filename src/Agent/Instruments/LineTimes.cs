namespace CaptureAgent.Agent.Instruments;

/// <summary>The moments of lines that came in one piece: spread back at the rate at which the device sends, for a lump that was held up on its way is no stillness.</summary>
internal sealed class LineTimes
{
    private double previous = double.NaN, interval = 0.1, last, step;
    private int count;

    public void Reset() => previous = double.NaN;

    /// <summary>Takes the arrival of <paramref name="lines"/> lines.</summary>
    public void Spread(DateTimeOffset at, int lines)
    {
        if (lines == 0)
            return;
        var now = at.UtcTicks / (double)TimeSpan.TicksPerSecond;
        count = lines;
        step = interval;
        if (!double.IsNaN(previous))
        {
            var each = Math.Max(0, now - previous) / lines;
            step = Math.Min(step, each);

            // Learned slowly: single arrivals jitter.
            if (each < 2)
                interval += 0.05 * (each - interval);
        }

        last = now;
        previous = now;
    }

    /// <summary>Seconds of the i-th line, 0 being the oldest.</summary>
    public double Of(int i) => last - (count - 1 - i) * step;
}
