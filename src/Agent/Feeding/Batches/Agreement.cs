namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>Two settled readings that agree: the probe lifted and put back between them, or 25 s in one place. Readings at two places that disagree mean: stir.</summary>
/// <param name="spread">Difference in °C up to which they agree.</param>
internal sealed class Agreement(double spread)
{
    private const double SecondsBetween = 25;

    private (double Seconds, double Celsius, int Visit)? first, last;

    public bool Confirmed { get; private set; }

    /// <summary>Readings disagreed, and no new movement has been followed by one that agrees.</summary>
    public bool Stir { get; private set; }

    /// <summary>The newest settled reading.</summary>
    public double? Celsius => last?.Celsius;

    /// <param name="least">The coldest that the batch can be now by its own cooling, where that is known.</param>
    public void Take(double seconds, double celsius, int visit, double? least)
    {
        var moved = last is { } before && before.Visit != visit;
        if (first is not { } one || last is not { } newest)
        {
            first = (seconds, celsius, visit);
        }
        else if (moved && !Agrees(newest.Celsius, celsius, least))
        {
            (Stir, Confirmed) = (true, false);
            first = (seconds, celsius, visit);
        }
        else if (moved || (!Stir && !Confirmed && seconds - one.Seconds >= SecondsBetween))
        {
            if (moved || Agrees(one.Celsius, celsius, least))
                (Confirmed, Stir) = (true, false);
            else
                first = (seconds, celsius, visit);
        }

        last = (seconds, celsius, visit);
    }

    private bool Agrees(double before, double now, double? least) => now <= before + spread && now >= Math.Min(before, least ?? before) - spread;
}
