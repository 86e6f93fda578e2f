namespace CaptureAgent.Agent.Thriving;

/// <summary>Kalman filter for one chick along one growth curve: what it should weigh on a morning, and how sure that is.</summary>
/// <remarks>
/// State: ln(weight) on an empty crop without the day's noise; how far the chick's own growth rate is off the curve's, per day; how many days it is ahead of
/// its age; ln of its pace on the curve; the day's noise (crop residue, droppings, hour: first-order autoregressive). The growth of a day is the curve's
/// between two mornings of the chick's own time, so that the rate falls with age as the curve has it and reverts to it; linear but for the chick's time
/// (extended filter: Anderson and Moore 1979, from memory). An observation is the first plus the last state, with the weighing's own error.
/// </remarks>
internal sealed class ChickFilter
{
    public const int States = 5;

    private const int N = States, X = 0, U = 1, S = 2, P = 3, E = 4;

    private readonly IGrowthCurve curve;
    private readonly double[] mean = new double[N];
    private readonly double[] p = new double[N * N];
    private readonly double[] f = new double[N * N];
    private readonly double[] work = new double[N * N];
    private readonly double[] gain = new double[N];

    /// <param name="variance">Of the first weight's own error, in ln(grams).</param>
    public ChickFilter(double logGrams, double variance, in GrowthStart start, NoiseLevel noise, in Tuning tuning)
    {
        var share = noise.Deviation * noise.Deviation;
        curve = start.Curve;
        Age = start.Age;
        mean[X] = logGrams;
        mean[P] = start.LogPace;
        p[X * N + X] = share + variance;
        p[U * N + U] = tuning.RateFloor * tuning.RateFloor;
        p[S * N + S] = start.AheadSpread * start.AheadSpread;
        p[P * N + P] = start.PaceSpread * start.PaceSpread;
        p[E * N + E] = share;
        p[X * N + E] = p[E * N + X] = -share;
    }

    private ChickFilter(ChickFilter other)
    {
        curve = other.curve;
        Age = other.Age;
        other.mean.CopyTo(mean, 0);
        other.p.CopyTo(p, 0);
        other.f.CopyTo(f, 0);
        other.gain.CopyTo(gain, 0);
    }

    /// <summary>Days since hatching, as the register has it or as the first weight was taken for.</summary>
    public double Age { get; private set; }

    /// <summary>ln(weight) without the day's noise.</summary>
    public double Level => mean[X];

    /// <summary>Growth rate per day.</summary>
    public double Rate => curve.Rate(OwnTime(Age)) * Math.Exp(mean[P]) + mean[U];

    /// <summary>Part of the curve's final weight that a chick on its own time has reached.</summary>
    public double PartOfCurve => Math.Exp(curve.Log(OwnTime(Age)) - curve.Log(200));

    /// <summary>Predicted ln(weight) of the scale's next answer.</summary>
    public double Predicted => mean[X] + mean[E];

    /// <summary>Variance of that, without the weighing's own.</summary>
    public double PredictedVariance => p[X * N + X] + 2 * p[X * N + E] + p[E * N + E];

    /// <summary>The transition of the last day, row by row.</summary>
    public ReadOnlySpan<double> Transition => f;

    /// <summary>The gains of the last update.</summary>
    public ReadOnlySpan<double> Gain => gain;

    public ChickFilter Copy() => new(this);

    /// <summary>One day passes.</summary>
    /// <returns>The expected gain of ln(weight) over the day.</returns>
    public double Pass(in Tuning tuning, NoiseLevel noise)
    {
        var pace = Math.Exp(mean[P]);
        var (from, to) = (OwnTime(Age), OwnTime(Age + 1));
        var (before, after) = (curve.Rate(from), curve.Rate(to));
        var expected = curve.Log(to) - curve.Log(from) + mean[U];
        Array.Clear(f);
        f[X * N + X] = 1;
        f[X * N + U] = 1;
        f[X * N + S] = after - before;
        f[X * N + P] = pace * (after * (Age + 1) - before * Age);
        f[U * N + U] = tuning.Lasting;
        f[S * N + S] = 1;
        f[P * N + P] = 1;
        f[E * N + E] = noise.Correlation;
        mean[X] += expected;
        mean[U] *= tuning.Lasting;
        mean[E] *= noise.Correlation;
        Spread();
        var wander = Square(tuning.RateFloor) + Square(tuning.RateShare * before * pace);
        p[X * N + X] += Square(tuning.LevelJump) + wander / 3 + (Age < Tuning.HatchlingDays ? Square(tuning.HatchlingJump) : 0);
        p[X * N + U] += wander / 2;
        p[U * N + X] += wander / 2;
        p[U * N + U] += wander;
        p[E * N + E] += Square(noise.Deviation) * (1 - Square(noise.Correlation));
        Age++;
        return expected;
    }

    /// <summary>Takes a weight in.</summary>
    /// <param name="innovation">Observed less predicted.</param>
    /// <param name="variance">Of the innovation: <see cref="PredictedVariance"/>, the weighing's own and, for a doubtful weight, more.</param>
    public void Update(double innovation, double variance)
    {
        for (var i = 0; i < N; i++)
            gain[i] = (p[i * N + X] + p[i * N + E]) / variance;
        for (var i = 0; i < N; i++)
        {
            mean[i] += gain[i] * innovation;
            for (var j = 0; j <= i; j++)
                p[j * N + i] = p[i * N + j] -= gain[i] * gain[j] * variance;
        }
    }

    private double OwnTime(double age) => Math.Exp(mean[P]) * age + mean[S];

    // P = F P F'.
    private void Spread()
    {
        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j < N; j++)
            {
                var sum = 0.0;
                for (var l = 0; l < N; l++)
                    sum += f[i * N + l] * p[l * N + j];
                work[i * N + j] = sum;
            }
        }

        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = 0.0;
                for (var l = 0; l < N; l++)
                    sum += work[i * N + l] * f[j * N + l];
                p[i * N + j] = p[j * N + i] = sum;
            }
        }
    }

    private static double Square(double value) => value * value;
}

/// <summary>What is known of a chick's growth before its first weight.</summary>
/// <param name="Age">In days; where no date of hatching is known, the age at which the curve has this weight.</param>
/// <param name="AheadSpread">Standard deviation of the days by which the chick is ahead of its age.</param>
/// <param name="LogPace">ln of its pace on the curve.</param>
/// <param name="PaceSpread">Its standard deviation.</param>
/// <param name="Weight">Probability of this start beside others.</param>
internal readonly record struct GrowthStart(IGrowthCurve Curve, double Age, double AheadSpread, double LogPace, double PaceSpread, double Weight);
