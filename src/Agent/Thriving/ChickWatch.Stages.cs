using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Thriving;

// How far the chick has come, by the evidence and by the keeper's word, and what it has lost since.
internal sealed partial class ChickWatch
{
    /// <summary>Part of its final weight: before that no chick is weaned from the hand, whatever a card says (no source; chicks turn to other food as they near their peak).</summary>
    private const double LeastPartWeaned = 0.8;

    /// <summary>Days without a feed by hand after which one is weaned that keeps its weight.</summary>
    private const int UnfedDays = 3;

    /// <summary>Change of ln(weight) over so many days of a chick that keeps its weight.</summary>
    private const double Kept = 0.012;

    private const int KeptDays = 7;

    // ln(weight), the most since it was weaned; NaN before that.
    private double weanedLevel = double.NaN;

    public Stage Stage { get; private set; }

    /// <summary>Days since the stage began.</summary>
    public int DaysInStage { get; private set; }

    /// <summary>The stage, as far as it is known: of a chick without a weight by its age alone; null where that does not tell it.</summary>
    public Stage? StageOn(DateOnly day) => Count > 0 ? Stage : AgeOn(day) <= LastHatchlingDay ? Stage.Hatchling : null;

    /// <summary>ln(weight) at the peak, without noise; NaN before there is a course.</summary>
    public double PeakLevel { get; private set; } = double.NaN;

    /// <summary>Part of the peak weight that is lost, without noise; 0 before there is a peak.</summary>
    public double Lost => Below(PeakLevel);

    /// <summary>Of a weaned chick: part lost of the most it has weighed since; else 0.</summary>
    public double LostSinceWeaned => Below(weanedLevel);

    /// <summary>Being weaned, as a card said, and far too young for it by its course, or told to fall short of it: it is watched as before.</summary>
    public bool IsWeaningDoubtful => Chick.Weaning <= Day && Stage <= Stage.Growing && !MayBeWeaned;

    private bool MayBeWeaned => Lasting is null && (course is null || course.IsSoonOver > Possible || course.PartOfCurve >= LeastPartWeaned);

    // The filter's rate leans towards the course, which has a grown chick keep its weight.
    private bool KeepsItsWeight => LevelBefore(KeptDays) is { } before && Math.Abs(Level - before.Level) < Kept;

    private double Below(double level) => level > Level ? 1 - Math.Exp(Level - level) : 0;

    // The stages, by the evidence of the course. A chick that fails has not reached its peak.
    private void Move(IReferenceGrowth reference)
    {
        if (Count >= 3 && !(Level <= PeakLevel))
            PeakLevel = Level;
        var next = Stage switch
        {
            < Stage.Weaning when Chick.Weaning <= Day && MayBeWeaned => Stage.Weaning,
            Stage.Hatchling when AgeOn(Day) > LastHatchlingDay => Stage.Growing,
            Stage.Growing when Lasting is null && Shortfall.LogRatio < 1.5 && HasPeaked(reference) => Stage.Peak,
            Stage.Peak when PeakLevel - Level > 0.03 => Stage.Weaning,
            Stage.Weaning when DaysInStage >= 14 && KeepsItsWeight && !(Day.DayNumber - Chick.LastFed?.DayNumber < UnfedDays) => Stage.Weaned,
            _ => Stage,
        };
        if (next != Stage)
        {
            (Stage, DaysInStage) = (next, 0);
            // From here on it is held against another weight.
            if (next == Stage.Weaned)
                told = null;
        }

        if (Stage == Stage.Weaned && !(Level <= weanedLevel))
            weanedLevel = Level;
    }

    private bool HasPeaked(IReferenceGrowth reference)
    {
        const double Large = 0.7;
        if (Count < 4 || course!.IsOver < 0.5)
            return false;
        if (AgeOn(Day) is not { } age)
            return Count >= 6;
        var final = reference.At(Chick.Species, age)?.PeakGrams ?? Unlisted.FinalGrams(age, Math.Exp(Level));
        return Math.Exp(Level) > Large * final;
    }
}
