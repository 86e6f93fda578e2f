namespace CaptureAgent.Agent.Thriving;

/// <summary>One chick on one morning: the forecast, and the weight beside it.</summary>
/// <param name="Expected">Predicted ln(grams) before the weight, the room's common shift included once it is known.</param>
/// <param name="Deviation">Standard deviation of observed less expected.</param>
/// <param name="Observed">ln(grams).</param>
internal sealed class ChickMorning(ChickWatch watch, MorningWeight weight, double expected, double deviation)
{
    public ChickWatch Watch { get; } = watch;

    public MorningWeight Weight { get; } = weight;

    public double Observed { get; } = Math.Log((double)weight.Grams);

    public double Deviation { get; } = deviation;

    /// <summary>What the room's common shift is taken off from.</summary>
    public double Forecast { get; } = expected;

    public double Common { get; set; }

    public double Expected => Forecast + Common;

    public double Z => (Observed - Expected) / Deviation;

    public double ExpectedGrams => Math.Exp(Forecast);

    public double LowGrams => Math.Exp(Forecast - ChickWatch.Interval95 * Deviation);

    public double HighGrams => Math.Exp(Forecast + ChickWatch.Interval95 * Deviation);

    /// <summary>What was meant, where another reading of the written digits fits far better; null where none does.</summary>
    public (double Grams, string What)? OtherReading() =>
        Math.Abs(Z) >= Budget.OddWeight && Weight.Decimals is { } decimals ? DigitSlip.Explain(Weight.Grams, decimals, Expected, Deviation) : null;

    /// <summary>The chick's last weight that was believed, of so many days ago or more; null where none is remembered.</summary>
    public MorningWeight? WeightBefore(int days)
    {
        var weights = Watch.Chick.Weights;
        for (var i = weights.Count - 1; i >= 0; i--)
        {
            if (Weight.Day.DayNumber - weights[i].Day.DayNumber >= days && Watch.LevelOn(weights[i].Day) is not null)
                return weights[i];
        }

        return null;
    }

    /// <summary>Variance to add before the weight is taken in: far above the course it is mostly crop contents, gone tomorrow; far below, it is not believed whole at once. The second such morning it is.</summary>
    public double Doubt()
    {
        if (Watch.LastResidual is { } before && before.Z * Math.Sign(Z) > 1)
            return 0;
        var believed = Z > 0 ? 2.0 : 4.0;
        return Math.Abs(Z) <= believed ? 0 : Deviation * Deviation * (Z * Z / (believed * believed) - 1) * (Z > 0 ? 4 : 1);
    }

    /// <summary>The weight cannot be this chick's, or not be right: its course goes on without it.</summary>
    public bool IsSetAside { get; set; }
}
