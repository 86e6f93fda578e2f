namespace CaptureAgent.Agent.Feeding.Probes;

/// <summary>Where a probe that was just put into something will come to rest, from the readings so far: temperatures in °C, times in seconds.</summary>
/// <remarks>
/// A probe follows what it is in with one time constant, or two (tip and sheath): reading = level before + b g(t) + d g'(t), g the answer to something that
/// is one degree warmer than before and cools on, d what a dip a little sooner or later adds. Time constant, ratio of the second to the first and moment of
/// the dip are a grid of hypotheses; for each of them b and d are linear, with normal priors, so that its likelihood and its forecast have closed forms (Bayesian linear regression; Bishop, Pattern Recognition and
/// Machine Learning, 2006, 3.3; from memory). The forecast is the mixture of all, and its spread is the uncertainty.
/// </remarks>
internal sealed class StepFit
{
    /// <summary>A bowl's rate of cooling, a second: 0.02 a minute, between a jug's 0.01 and a cup's 0.04 (computed from heat loss, no source).</summary>
    public const double Cooling = 0.02 / 60;

    /// <summary>Hypotheses this much less likely (natural logarithm) than the best are given up.</summary>
    private const double GiveUp = 22;

    private const int Moments = 5;

    /// <summary>Readings' worth of trust in the noise assumed at the outset.</summary>
    private const double NoiseTrust = 6;

    private readonly StepPrior prior;
    private readonly double[] start, first, second, steady, fast, slow, logPrior;
    private readonly int[] constant, ratio;
    private readonly double[] sumGG, sumGD, sumDD, sumGY, sumDY, mean, variance, weight;
    private readonly double cell;
    private int alive, count, best;
    private double sumYY, noise, now, shift;

    /// <param name="from">Earliest moment of the dip.</param>
    /// <param name="to">Latest moment of the dip.</param>
    public StepFit(StepPrior prior, LagMemory lag, double from, double to)
    {
        this.prior = prior;
        noise = prior.Kinship * prior.Noise * prior.Noise;
        var size = LagMemory.Constants.Count * LagMemory.Ratios.Count * Moments;
        (start, first, second, steady, fast, slow, logPrior) = (new double[size], new double[size], new double[size], new double[size], new double[size], new double[size], new double[size]);
        (sumGG, sumGD, sumDD, sumGY, sumDY) = (new double[size], new double[size], new double[size], new double[size], new double[size]);
        (mean, variance, weight) = (new double[size], new double[size], new double[size]);
        (constant, ratio) = (new int[size], new int[size]);
        Dipped = to;
        cell = (to - from) / Moments;
        shift = Shift(prior.Step);
        for (var i = 0; i < LagMemory.Constants.Count; i++)
        {
            for (var j = 0; j < LagMemory.Ratios.Count; j++)
            {
                for (var k = 0; k < Moments; k++)
                    Suppose(i, j, from + ((to - from) * (k + 0.5) / Moments), lag.LogPrior(i, j));
            }
        }
    }

    /// <summary>What the probe will show at rest, less what is in it that cools meanwhile: the temperature now.</summary>
    public double Mean { get; private set; }

    /// <summary>One standard uncertainty of <see cref="Mean"/>, of the fit alone.</summary>
    public double Deviation { get; private set; } = double.PositiveInfinity;

    /// <summary>The most likely moment of the dip.</summary>
    public double Dipped { get; private set; }

    /// <summary>Natural logarithm of the time constant in seconds: mean and standard deviation.</summary>
    public (double Mean, double Deviation) LogConstant { get; private set; }

    public double ConstantSeconds => Math.Exp(LogConstant.Mean);

    public int Count => count;

    /// <summary>Standard deviation of single readings about the curve.</summary>
    public double Noise => Math.Sqrt(noise / prior.Kinship);

    /// <summary>Height of the step: how much warmer what it is in is than what it was in.</summary>
    public double Step => Mean - prior.Level;

    public void Add(double seconds, double celsius)
    {
        var y = celsius - prior.Level;
        now = seconds;
        count++;
        sumYY += y * y;
        for (var h = 0; h < alive; h++)
        {
            var g = Response(h, seconds, out var d);
            sumGG[h] += g * g;
            sumGD[h] += g * d;
            sumDD[h] += d * d;
            sumGY[h] += g * y;
            sumDY[h] += d * y;
        }

        if (count > 3)
            shift = Shift(Step);
        if (count > NoiseTrust)
            noise = prior.Kinship * ((NoiseTrust * prior.Noise * prior.Noise) + Misfit(best)) / (NoiseTrust + count - 3);
        Weigh();
    }

    /// <summary>What the best hypothesis expects the probe to show at a moment.</summary>
    public double Expected(double seconds)
    {
        var (b, d, _) = Solve(best);
        return prior.Level + (b * Response(best, seconds, out var slope)) + (d * slope);
    }

    /// <summary>Chance that it is at least so warm.</summary>
    public double ChanceAtLeast(double celsius)
    {
        var chance = 0.0;
        for (var h = 0; h < alive; h++)
        {
            if (weight[h] > 1e-6)
                chance += weight[h] * Normal.Cumulative((mean[h] - celsius) / Math.Sqrt(variance[h] + StepPrior.Doubt(mean[h] - Now)));
        }

        return chance;
    }

    /// <summary>How likely each pair of <see cref="LagMemory.Constants"/> and <see cref="LagMemory.Ratios"/> is.</summary>
    public double[,] LagChances()
    {
        var chances = new double[LagMemory.Constants.Count, LagMemory.Ratios.Count];
        for (var h = 0; h < alive; h++)
            chances[constant[h], ratio[h]] += weight[h];
        return chances;
    }

    /// <summary>What the probe itself has now, without the noise of one reading.</summary>
    public double Now { get; private set; }

    // What a moment between two of those supposed can do to a step of this height.
    private double Shift(double step) => Math.Max(Math.Abs(step), 2) * (0.02 + (0.4 * cell));

    private void Suppose(int i, int j, double dipped, double log)
    {
        var (tau, r) = (LagMemory.Constants[i], LagMemory.Ratios[j]);
        var h = alive++;
        (constant[h], ratio[h], start[h], logPrior[h]) = (i, j, dipped, log);
        (fast[h], slow[h]) = (r > 0 ? 1 / (r * tau) : 0, 1 / tau);

        // Partial fractions of 1 / ((1 + p tau)(1 + p r tau)(p + k)).
        steady[h] = 1 / ((1 - (Cooling * tau)) * (1 - (Cooling * r * tau)));
        first[h] = 1 / ((1 - r) * (1 - (Cooling * tau)));
        second[h] = r > 0 ? 1 / ((1 - (1 / r)) * (1 - (Cooling * r * tau))) : 0;
    }

    // The answer to a step of one degree, and its slope in the moment of the dip.
    private double Response(int h, double seconds, out double slope)
    {
        var s = seconds - start[h];
        slope = 0;
        if (s <= 0)
            return 0;
        var tip = first[h] * Math.Exp(-s * slow[h]);
        var g = (steady[h] * (1 - (Cooling * s))) - tip;
        slope = tip * slow[h];
        if (second[h] == 0)
            return g;
        var sheath = second[h] * Math.Exp(-s * fast[h]);
        slope += sheath * fast[h];
        return g - sheath;
    }

    private (double B, double D, double Determinant) Solve(int h)
    {
        var (pb, pd) = (1 / (prior.StepDeviation * prior.StepDeviation), 1 / (shift * shift));
        var (bb, bd, dd) = ((sumGG[h] / noise) + pb, sumGD[h] / noise, (sumDD[h] / noise) + pd);
        var (yb, yd) = ((sumGY[h] / noise) + (prior.Step * pb), sumDY[h] / noise);
        var determinant = (bb * dd) - (bd * bd);
        return (((yb * dd) - (yd * bd)) / determinant, ((yd * bb) - (yb * bd)) / determinant, determinant);
    }

    // Sum of squared residuals.
    private double Misfit(int h)
    {
        var (b, d, _) = Solve(h);
        return Math.Max(0, sumYY - (2 * b * sumGY[h]) - (2 * d * sumDY[h]) + (b * b * sumGG[h]) + (2 * b * d * sumGD[h]) + (d * d * sumDD[h]));
    }

    private void Weigh()
    {
        var (pb, pd) = (1 / (prior.StepDeviation * prior.StepDeviation), 1 / (shift * shift));
        var highest = double.NegativeInfinity;
        for (var h = 0; h < alive; h++)
        {
            var (b, d, determinant) = Solve(h);
            var q = 1 - (Cooling * Math.Max(0, now - start[h]));
            mean[h] = prior.Level + (b * q);
            variance[h] = q * q * ((sumDD[h] / noise) + pd) / determinant;
            var gained = (b * ((sumGY[h] / noise) + (prior.Step * pb))) + (d * sumDY[h] / noise);
            weight[h] = logPrior[h] + (0.5 * (gained - Math.Log(determinant)));
            if (weight[h] > highest)
                (highest, best) = (weight[h], h);
        }

        Normalise(highest);
        Summarise();
    }

    // Gives up what is far less likely than the best, once there is enough to judge by.
    private void Normalise(double highest)
    {
        var kept = 0;
        var total = 0.0;
        for (var h = 0; h < alive; h++)
        {
            if (count >= 8 && weight[h] < highest - GiveUp)
                continue;
            if (h == best)
                best = kept;
            if (kept != h)
                Move(h, kept);
            total += weight[kept] = Math.Exp(weight[h] - highest);
            kept++;
        }

        alive = kept;
        for (var h = 0; h < alive; h++)
            weight[h] /= total;
    }

    private void Move(int h, int to)
    {
        (start[to], first[to], second[to], steady[to], fast[to], slow[to], logPrior[to]) = (start[h], first[h], second[h], steady[h], fast[h], slow[h], logPrior[h]);
        (constant[to], ratio[to]) = (constant[h], ratio[h]);
        (sumGG[to], sumGD[to], sumDD[to], sumGY[to], sumDY[to]) = (sumGG[h], sumGD[h], sumDD[h], sumGY[h], sumDY[h]);
        (mean[to], variance[to]) = (mean[h], variance[h]);
    }

    private void Summarise()
    {
        double m = 0, square = 0, inner = 0, log = 0, logSquare = 0, dipped = 0;
        for (var h = 0; h < alive; h++)
        {
            var w = weight[h];
            m += w * mean[h];
            square += w * mean[h] * mean[h];
            inner += w * variance[h];
            var lag = LagMemory.LogConstants[constant[h]];
            log += w * lag;
            logSquare += w * lag * lag;
            dipped += w * start[h];
        }

        (Mean, Dipped) = (m, dipped);
        Now = Expected(now);
        Deviation = Math.Sqrt(inner + Math.Max(0, square - (m * m)) + StepPrior.Doubt(m - Now));
        LogConstant = (log, Math.Sqrt(Math.Max(0, logSquare - (log * log))));
    }
}

/// <summary>What is known before the first reading after a dip.</summary>
/// <param name="Level">What the probe showed before.</param>
/// <param name="Step">How much warmer the new place probably is.</param>
/// <param name="StepDeviation">Its standard deviation: wide, so that readings decide.</param>
/// <param name="Noise">Standard deviation of single readings, rounding included.</param>
/// <param name="Kinship">Roundings of neighbouring readings, and what stirring does, are akin: so many readings are worth one that is independent.</param>
internal readonly record struct StepPrior(double Level, double Step, double StepDeviation, double Noise, double Kinship = 1.5)
{
    /// <summary>No probe is exactly what the model says: this part of the way still to go is in doubt.</summary>
    private const double Share = 0.025;

    /// <summary>A variance.</summary>
    public static double Doubt(double toGo) => Share * Share * toGo * toGo;
}
