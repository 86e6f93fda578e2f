using CaptureAgent.Benchmarks.Settle.Bound;
using CaptureAgent.Simulators.Physics.Placings;

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

    /// <summary>Accepted though it must not be, or outside the band.</summary>
    public bool IsWrong(Answer answer) => !MayRecord || !(Math.Abs(Error(answer)) <= Band);

    /// <summary>Off by more than 1 % and two divisions.</summary>
    public bool IsGross(Answer answer) => Math.Abs(Error(answer)) > Math.Max(0.01 * Truth.NetGrams, 2 * Division);
}
