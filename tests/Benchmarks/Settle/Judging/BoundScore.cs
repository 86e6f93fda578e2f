using CaptureAgent.Benchmarks.Settle.Bound;

namespace CaptureAgent.Benchmarks.Settle.Judging;

/// <summary>How the oracle did at its own decisions, over those placings that must be recorded.</summary>
internal sealed class BoundScore
{
    private readonly List<double> seconds = [], cautious = [], errors = [], ratios = [];
    private readonly List<double>[] course = [.. Oracle.CourseSeconds.Select(_ => new List<double>())];

    public BoundScore(IEnumerable<Trial> trials)
    {
        foreach (var trial in trials.Where(trial => trial.Truth.MustRecord))
        {
            MustRecord++;
            for (var i = 0; i < course.Length; i++)
            {
                if (!double.IsNaN(trial.Bound!.Course[i]))
                    course[i].Add((trial.Bound.Course[i] - trial.Truth.NetGrams) / trial.Band);
            }

            if (trial.Bound!.Stop is not { } stop)
                continue;
            cautious.Add((trial.Bound.Cautious?.At ?? trial.Truth.HandsBackAt) - trial.Truth.HandsOffAt);
            seconds.Add(stop.At - trial.Truth.HandsOffAt);
            errors.Add(trial.Error(stop) / trial.Band);
            ratios.Add((trial.Bound.Whole - stop.Grams) / stop.Uncertainty);
        }
    }

    public int MustRecord { get; private set; }

    /// <summary>For how many it became sure.</summary>
    public int Decided => seconds.Count;

    /// <summary>Of them, within the band.</summary>
    public int Right => errors.Count(error => Math.Abs(error) <= 1);

    public double Error => Score.RootMeanSquare(errors);

    /// <summary>Root mean square of what waiting to the end changed, over the standard error at the decision: what waiting cannot better falls out.</summary>
    public double ChangeOverError => Score.RootMeanSquare(ratios);

    public double Seconds(double share) => Score.Quantile(seconds, share);

    /// <summary>Of the cautious oracle, over the same placings.</summary>
    public double CautiousSeconds(double share) => Score.Quantile(cautious, share);

    /// <summary>Root mean square error in bands at each of <see cref="Oracle.CourseSeconds"/>, whether sure or not.</summary>
    public IEnumerable<(double Seconds, double Error)> Course => Oracle.CourseSeconds.Zip(course.Select(Score.RootMeanSquare));
}
