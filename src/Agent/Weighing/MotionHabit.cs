namespace CaptureAgent.Agent.Weighing;

/// <summary>A level's motion beside that of the same chick on other mornings.</summary>
internal enum Likeness
{
    /// <summary>Too few mornings, readings too coarse to tell, or between the two.</summary>
    Unknown,

    /// <summary>As this chick usually moves; under a hand it would not.</summary>
    Usual,

    /// <summary>Markedly stiller than this chick ever was: likelier a hand that calms it.</summary>
    Stiller,
}

/// <summary>How a chick has moved on the last few mornings: log-normal over mornings.</summary>
/// <param name="LogForce">Median of ln(force / weight).</param>
/// <param name="LogMomentum">Median of ln(momentum / weight), in ln seconds.</param>
/// <param name="ForceSpread">Standard deviation of ln(force / weight) from morning to morning.</param>
/// <param name="MomentumSpread">The same of the momentum.</param>
/// <param name="Mornings">How many it is from; 0: nothing is known.</param>
internal readonly record struct MotionHabit(double LogForce, double LogMomentum, double ForceSpread, double MomentumSpread, int Mornings)
{
    /// <summary>Fewer tell no habit.</summary>
    public const int LeastMornings = 3;

    /// <summary>So many spreads below its median a chick is markedly stiller than it was: once in two hundred mornings.</summary>
    private const double Still = 2.6;

    /// <summary>Within so many spreads it moves as usual; either half of the stretch, which sees fewer strides, within more.</summary>
    private const double Near = 1.5;

    private const double NearHalf = 2;

    private const double Lively = 1.5;

    /// <summary>A motion that is to be told from a hand's must be more than what rounding and the scale make of one.</summary>
    private const double Told = 1;

    /// <summary>And of the weight more than a resting hand wanders by (a choice; no source).</summary>
    private const double LeastForce = 0.001;

    /// <summary>That a chick moves less than ever shows where its least motion is about as large as that of rounding and the scale.</summary>
    private const double StillTold = 0.7;

    /// <param name="motion">Of the level.</param>
    /// <param name="half">Of its stiller half: what a hand makes when it comes or goes is no motion of the chick's.</param>
    /// <param name="grams">What lies there weighs.</param>
    public Likeness Compare(in Motion motion, in Motion half, double grams)
    {
        if (Mornings < LeastMornings || !(grams > 0))
            return Likeness.Unknown;
        var (force, momentum) = Strays(motion, grams);
        if (force < -Still && IsTold(LogForce - Still * ForceSpread, StillTold * motion.ForceNoise / grams)
            || momentum < -Still && IsTold(LogMomentum - Still * MomentumSpread, StillTold * motion.MomentumNoise / grams))
            return Likeness.Stiller;
        var (halfForce, halfMomentum) = Strays(half, grams);
        return Math.Min(force, momentum) > -Near && Math.Max(force, momentum) < Lively && Math.Min(halfForce, halfMomentum) > -NearHalf
            && IsTold(LogForce - NearHalf * ForceSpread, Math.Max(LeastForce, Told * half.ForceNoise / grams))
            && IsTold(LogMomentum - NearHalf * MomentumSpread, Told * half.MomentumNoise / grams)
            ? Likeness.Usual
            : Likeness.Unknown;
    }

    /// <summary>Adds how much the level moves beside what is usual, and what of that could be rounding and the scale.</summary>
    public void Show(Signs signs, in Motion motion, in Motion half, double grams)
    {
        var known = Mornings >= LeastMornings;
        var (force, momentum) = known ? (grams * Math.Exp(LogForce), grams * Math.Exp(LogMomentum)) : (double.NaN, double.NaN);
        signs.Add(motion.Force / force).Add(motion.Momentum / momentum).Add(half.Force / force).Add(half.Momentum / momentum)
            .Add(motion.ForceNoise / force).Add(motion.MomentumNoise / momentum);
    }

    private static bool IsTold(double log, double least) => Math.Exp(log) > least;

    // In spreads from the median.
    private (double Force, double Momentum) Strays(in Motion motion, double grams) =>
        ((Math.Log(motion.Force / grams) - LogForce) / ForceSpread, (Math.Log(motion.Momentum / grams) - LogMomentum) / MomentumSpread);
}
