namespace CaptureAgent.Agent.Thriving;

/// <summary>What the weights of a morning have in common: scale, food or room, not the chicks.</summary>
/// <param name="Shift">In ln(weight).</param>
/// <param name="Error">Its standard error.</param>
/// <param name="Chicks">How many chicks it comes from.</param>
internal readonly record struct RoomEffect(double Shift, double Error, int Chicks)
{
    /// <summary>Standard deviation of what ordinary mornings have in common, in ln(weight); small, as nobody has published it.</summary>
    private const double Ordinary = 0.002;

    /// <summary>Fewer chicks cannot tell a room from a chick.</summary>
    private const int Least = 8;

    /// <summary>A shift is told from this on: house rule of the trade (common practice, no source).</summary>
    private const double Told = 0.0135;

    /// <summary>No scale, food or room does more to all chicks; such a morning is not understood.</summary>
    private const double Largest = 0.08;

    /// <summary>Large enough to be told, and no chance.</summary>
    public bool IsShift => Chicks >= Least && Math.Abs(Shift) + Error >= Told && Math.Abs(Shift) >= Math.Max(3.3 * Error, 0.8 * Told);

    /// <summary>What is taken off each chick's residual: a shift whole; less than that only as far as it is known better than it is small. Taking off all of it would let the courses of all drift away together unseen.</summary>
    public double Common => IsShift ? Math.Clamp(Shift, -Largest, Largest)
        : Chicks < Least ? 0
        : Shift * Ordinary * Ordinary / (Ordinary * Ordinary + Error * Error);

    /// <summary>The middle of the residuals, each by its own deviation: Huber's estimate, which a third of failing chicks does not move much.</summary>
    public static RoomEffect Of(List<(double Residual, double Deviation)> residuals)
    {
        const double Bend = 1.345;
        if (residuals.Count == 0)
            return default;
        var middle = Median(residuals);
        double weights = 0;
        for (var round = 0; round < 8; round++)
        {
            double sum = 0;
            weights = 0;
            foreach (var (residual, deviation) in residuals)
            {
                var z = Math.Abs(residual - middle) / deviation;
                var weight = (z <= Bend ? 1 : Bend / z) / (deviation * deviation);
                sum += weight * residual;
                weights += weight;
            }

            middle = sum / weights;
        }

        return new RoomEffect(middle, 1 / Math.Sqrt(weights), residuals.Count);
    }

    private static double Median(List<(double Residual, double Deviation)> residuals)
    {
        var sorted = residuals.Select(each => each.Residual).Order().ToArray();
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }
}
