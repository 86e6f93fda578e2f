using CaptureAgent.Agent.Weighing;
using CaptureAgent.Benchmarks.Settle.Bound;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Placings;
using Placing = CaptureAgent.Simulators.Physics.Placings.Placing;

namespace CaptureAgent.Benchmarks.Settle;

/// <summary>What everybody said of one placing.</summary>
/// <param name="Number">Counted from 1 in the order of the draw.</param>
/// <param name="Answers">By method, in the order of <see cref="Methods"/>; null: nothing was accepted.</param>
/// <param name="Said">What the station said, in words.</param>
/// <param name="Bound">Null where no weight could be right.</param>
internal sealed record Trial(int Number, Placing Placing, IReadOnlyList<Answer?> Answers, string Said, OracleResult? Bound)
{
    public PlacingTruth Truth => Placing.Truth;

    public double Division => (double)Placing.Scale.DivisionGrams;

    public double Band => Truth.Band(Placing.Scale.DivisionGrams);

    /// <summary>Whether an accepted weight, if it is right, is no error.</summary>
    public bool MayRecord => Truth.MustRecord || Truth.MayRecord;

    public double Error(Answer answer) => answer.Grams - Truth.NetGrams;

    /// <summary>What the scale's error differs by, in grams, when it is drawn evenly within what the station takes for its specification (OIML R 76-1, class II) in place of the simulated slope's.</summary>
    public double SpecifiedError()
    {
        var largest = Uncertainty.Accuracy(Truth.NetGrams, Division);
        return new SeededRandom((ulong)Number).Between(-largest, largest) - (Placing.Scale.GainError * Truth.NetGrams);
    }

    /// <summary>Accepted though it must not be, or outside the band.</summary>
    public bool IsWrong(Answer answer) => !MayRecord || !(Math.Abs(Error(answer)) <= Band);

    /// <summary>Off by more than 1 % and two divisions.</summary>
    public bool IsGross(Answer answer) => Math.Abs(Error(answer)) > Math.Max(0.01 * Truth.NetGrams, 2 * Division);
}
