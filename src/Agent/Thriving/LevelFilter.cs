namespace CaptureAgent.Agent.Thriving;

/// <summary>Kalman filter of a chick's ln(weight) about a growth curve: how sure the level is. The same for every curve, as the curve only adds a known gain.</summary>
/// <remarks>
/// State: ln(weight) on an empty crop without the day's noise; how far the chick's own growth rate is off the curve's, per day; the day's noise (crop
/// residue, droppings, hour: first-order autoregressive). An observation is the first plus the last, with the weighing's own error.
/// </remarks>
internal sealed class LevelFilter
{
    private const int N = 3, X = 0, U = 1, E = 2;

    private readonly double[] p = new double[N * N];

    /// <param name="variance">Of the first weight's own error, in ln(grams).</param>
    /// <param name="rateVariance">Of the chick's own deviation from the curve's rate, per day.</param>
    public LevelFilter(double variance, double rateVariance, NoiseLevel noise)
    {
        var share = Square(noise.Deviation);
        p[X * N + X] = share + variance;
        p[U * N + U] = rateVariance;
        p[E * N + E] = share;
        p[X * N + E] = p[E * N + X] = -share;
    }

    private LevelFilter(LevelFilter other)
    {
        other.p.CopyTo(p, 0);
        (Level, Rate, Noise, Lasting, Correlation) = (other.Level, other.Rate, other.Noise, other.Lasting, other.Correlation);
    }

    /// <summary>Variance of the scale's next answer, without the weighing's own.</summary>
    public double Variance => p[X * N + X] + 2 * p[X * N + E] + p[E * N + E];

    /// <summary>Gain of the last update on ln(weight); likewise on the rate and on the noise.</summary>
    public double Level { get; private set; }

    public double Rate { get; private set; }

    public double Noise { get; private set; }

    /// <summary>What the last day left of the rate's deviation; likewise of the noise.</summary>
    public double Lasting { get; private set; } = 1;

    public double Correlation { get; private set; }

    /// <summary>Variance of the deviation from a growth rate, per day, of a chick of which nothing is known yet.</summary>
    public static double RateVariance(double rate, in Tuning tuning) => Wander(rate, tuning) / (1 - Square(tuning.Lasting));

    public LevelFilter Copy() => new(this);

    /// <summary>One day passes.</summary>
    /// <param name="rate">Expected growth rate, per day.</param>
    /// <param name="jump">Standard deviation of what the level does besides, in ln(weight).</param>
    public void Pass(double rate, double jump, NoiseLevel noise, in Tuning tuning)
    {
        var (l, c) = (tuning.Lasting, noise.Correlation);
        (Lasting, Correlation) = (l, c);
        var (xx, xu, xe, uu, ue, ee) = (p[X * N + X], p[X * N + U], p[X * N + E], p[U * N + U], p[U * N + E], p[E * N + E]);
        var wander = Wander(rate, tuning);
        Set(X, X, xx + 2 * xu + uu + Square(jump) + wander / 3);
        Set(X, U, l * (xu + uu) + wander / 2);
        Set(X, E, c * (xe + ue));
        Set(U, U, l * l * uu + wander);
        Set(U, E, l * c * ue);
        Set(E, E, c * c * ee + Square(noise.Deviation) * (1 - c * c));
    }

    /// <summary>A weight is taken in.</summary>
    /// <param name="variance">Of its innovation: <see cref="Variance"/>, the weighing's own and, for a doubtful weight, more.</param>
    public void Update(double variance)
    {
        Span<double> gain = stackalloc double[N];
        for (var i = 0; i < N; i++)
            gain[i] = (p[i * N + X] + p[i * N + E]) / variance;
        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j <= i; j++)
                Set(i, j, p[i * N + j] - gain[i] * gain[j] * variance);
        }

        (Level, Rate, Noise) = (gain[X], gain[U], gain[E]);
    }

    private static double Wander(double rate, in Tuning tuning) => Square(tuning.RateFloor) + Square(tuning.RateShare * rate);

    private void Set(int i, int j, double value) => p[i * N + j] = p[j * N + i] = value;

    private static double Square(double value) => value * value;
}
