namespace CaptureAgent.Agent.Weighing;

/// <summary>What a settler knows of the load at this moment.</summary>
internal enum SettleState
{
    /// <summary>The value is not known well enough: motion, a step, a tail.</summary>
    Moving,

    /// <summary>The value would do, but a hand cannot be excluded yet.</summary>
    Contact,

    /// <summary>The value is within the acceptance band and a hand is excluded.</summary>
    Settled,
}

/// <summary>Finds the weight of what lies on the pan from its readings less the tare. The seam for better rules.</summary>
/// <remarks>Pure: time comes with the readings. The scale's own stability mark is deliberately no input:
/// it is evidence that is stored, but a mark stuck at stable or unstable must not change a weight.</remarks>
internal interface ISettler
{
    SettleState State { get; }

    /// <summary>Best value in grams so far; NaN before there is one.</summary>
    double Grams { get; }

    /// <summary>Standard error of <see cref="Grams"/> from motion and settling alone, in grams.</summary>
    double StandardError { get; }

    /// <summary>True when the readings move as only an animal (or a hand) does.</summary>
    bool Lively { get; }

    /// <summary>True when a step between two levels was seen: a hand that left, or came.</summary>
    bool Stepped { get; }

    /// <summary>What lay there before the newest level.</summary>
    LowPlateau LowPlateau { get; }

    /// <summary>How the newest level moves.</summary>
    Motion Motion { get; }

    /// <summary>Of <see cref="StandardError"/>, what rounding makes, in grams.</summary>
    double Rounding { get; }

    /// <summary>The weight so far that is least likely to be wrong; null where none is known well enough.</summary>
    Surest? Surest { get; }

    void Begin(in SettleContext context);

    /// <summary>How the load rose to <paramref name="level"/> grams.</summary>
    Rise RiseTo(double level, double until);

    /// <summary>What this chick should weigh, once it is known who it is: evidence for or against a hand, never a pull on the value. Not a number: not known.</summary>
    /// <param name="grams">By its own record.</param>
    /// <param name="habit">How it moved on earlier mornings, as far as that is known.</param>
    void Expect(double grams, in MotionHabit habit = default);

    /// <param name="seconds">On the station's axis, rising.</param>
    /// <param name="grams">Reading less tare.</param>
    void Add(double seconds, double grams);

    /// <summary>Readings were missed: what lies there now must be proved again, hands included.</summary>
    void Gap();
}

/// <param name="Seconds">When the load came.</param>
/// <param name="Division">Scale interval d, in grams.</param>
/// <param name="StillDeviation">Standard deviation of the readings when nothing moves, in grams.</param>
/// <param name="TareUncertainty">Standard uncertainty of the tare from noise, in grams.</param>
/// <param name="FastestRise">Seconds of the fastest rise that this scale has shown: the smear of its filter; not a number where none was seen.</param>
internal readonly record struct SettleContext(
    double Seconds, double Division, double StillDeviation, double TareUncertainty, double FastestRise = double.NaN);
