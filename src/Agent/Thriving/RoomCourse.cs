namespace CaptureAgent.Agent.Thriving;

/// <summary>What the mornings of a room have had in common of late, in ln(weight).</summary>
/// <param name="Usual">On mornings without a shift: a fault of the forecasts, which is not told.</param>
/// <param name="Yesterday">The shift of the morning before; 0: there was none.</param>
internal readonly record struct RoomCourse(double Usual, double Yesterday)
{
    /// <summary>How much of a morning's own is believed to be usual, of a room that is known well.</summary>
    private const double Step = 0.1;

    /// <summary>Standard deviation of the forecasts' common fault.</summary>
    private const double Fault = 0.003;

    /// <summary>What the morning has in common beyond what is usual.</summary>
    public RoomEffect Passing(in RoomEffect effect) => effect with { Shift = effect.Shift - Usual };

    /// <summary>A shift that is there again, as large as yesterday's or nearly, has come to stay: another scale, another feed. The courses go on from there.</summary>
    public bool Stays(in RoomEffect passing) =>
        passing.IsShift && Yesterday != 0 && passing.Shift / Yesterday is > 0.5 and < 2;

    // A shift tells nothing of what is usual: learnt from it, the courses and this would chase each other.
    public RoomCourse After(in RoomEffect passing) =>
        passing.IsShift ? this with { Yesterday = Stays(passing) ? 0 : passing.Shift }
        : passing.Chicks == 0 ? this
        : new RoomCourse(Usual + passing.Shift * Step * Fault * Fault / (Fault * Fault + passing.Error * passing.Error), 0);
}
