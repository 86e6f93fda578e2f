namespace CaptureAgent.Benchmarks.Settle.Judging;

/// <summary>How one method did over a set of placings. Shares are of 1; not a number where there is nothing to share.</summary>
internal sealed class Score
{
    private readonly List<double> seconds = [], oracleSeconds = [], cautiousSeconds = [], errors = [], oracleErrors = [], dueErrors = [], dueOracleErrors = [], ratios = [], specified = [];

    /// <param name="trials">Of a family, or of all.</param>
    /// <param name="method">Index in <see cref="Methods"/>.</param>
    public Score(IEnumerable<Trial> trials, int method)
    {
        foreach (var trial in trials)
            Count(trial, method);
    }

    public int Placings { get; private set; }

    public int MustRecord { get; private set; }

    /// <summary>Of those that must be recorded: accepted within the band.</summary>
    public int Right { get; private set; }

    /// <summary>Of all: see <see cref="Trial.IsWrong"/>.</summary>
    public int Wrong { get; private set; }

    /// <summary>Of all: see <see cref="Trial.IsGross"/>.</summary>
    public int Gross { get; private set; }

    /// <summary>Of those that must be recorded: nothing accepted.</summary>
    public int Missed { get; private set; }

    /// <summary>Of those that must be recorded: the cautious oracle became sure of them before the hands came back.</summary>
    public int Weighable { get; private set; }

    /// <summary>Of those: nothing accepted.</summary>
    public int MissedWeighable { get; private set; }

    public double RightShare => Share(Right, MustRecord);

    public double WrongShare => Share(Wrong, Placings);

    public double GrossShare => Share(Gross, Placings);

    public double MissedShare => Share(Missed, MustRecord);

    public double MissedWeighableShare => Share(MissedWeighable, Weighable);

    /// <summary>Seconds from release to decision, of the right ones among those that must be recorded for which the oracle became sure too.</summary>
    public double Seconds(double share) => Quantile(seconds, share);

    /// <summary>The oracle's over the same placings.</summary>
    public double OracleSeconds(double share) => Quantile(oracleSeconds, share);

    /// <summary>Of the same placings, the cautious oracle's; those for which it never became sure count with the hands' whole absence.</summary>
    public double CautiousSeconds(double share) => Quantile(cautiousSeconds, share);

    /// <summary>Root mean square error in acceptance bands, of the placings that may be recorded and that both this method and the oracle accept.</summary>
    public double Error => RootMeanSquare(errors);

    /// <summary>The oracle's over the same placings, at the method's moments of decision.</summary>
    public double OracleError => RootMeanSquare(oracleErrors);

    /// <summary>As <see cref="Error"/>, of the right ones among those that must be recorded.</summary>
    public double RightError => RootMeanSquare(dueErrors);

    public double RightOracleError => RootMeanSquare(dueOracleErrors);

    /// <summary>Of the accepted ones that may be recorded: within two standard uncertainties of the truth.</summary>
    public double Covered => Share(ratios.Count(ratio => Math.Abs(ratio) <= 2), ratios.Count);

    /// <summary>Root mean square of error over standard uncertainty, of the same.</summary>
    public double ErrorOverUncertainty => RootMeanSquare(ratios);

    /// <summary>As <see cref="Covered"/>, but with the scale's own error drawn within its specification instead of the simulated scale's.</summary>
    public double SpecifiedCovered => Share(specified.Count(ratio => Math.Abs(ratio) <= 2), specified.Count);

    /// <summary>As <see cref="ErrorOverUncertainty"/>, drawn so, of those within five standard uncertainties: what is beyond is counted as wrong.</summary>
    public double SpecifiedRatio => RootMeanSquare([.. specified.Where(ratio => Math.Abs(ratio) < 5)]);

    /// <summary>For what is the same for the oracle's own decisions.</summary>
    public static double RootMeanSquare(IReadOnlyCollection<double> values) =>
        values.Count == 0 ? double.NaN : Math.Sqrt(values.Average(value => value * value));

    /// <summary>The smallest value that at least this share of all does not exceed (nearest rank).</summary>
    public static double Quantile(IReadOnlyCollection<double> values, double share) =>
        values.Count == 0 ? double.NaN : values.Order().ElementAt(Math.Clamp((int)Math.Ceiling(share * values.Count) - 1, 0, values.Count - 1));

    private void Count(Trial trial, int method)
    {
        Placings++;
        MustRecord += trial.Truth.MustRecord ? 1 : 0;
        var isWeighable = trial.Truth.MustRecord && trial.Bound?.Cautious is not null;
        Weighable += isWeighable ? 1 : 0;
        if (trial.Answers[method] is not { } answer)
        {
            Missed += trial.Truth.MustRecord ? 1 : 0;
            MissedWeighable += isWeighable ? 1 : 0;
            return;
        }

        var wrong = trial.IsWrong(answer);
        Wrong += wrong ? 1 : 0;
        Gross += trial.IsGross(answer) ? 1 : 0;
        if (!trial.MayRecord)
            return;
        if (!double.IsNaN(answer.Uncertainty))
        {
            ratios.Add(trial.Error(answer) / answer.Uncertainty);
            specified.Add((trial.Error(answer) + trial.SpecifiedError()) / answer.Uncertainty);
        }

        if (trial.Bound?.Stop is { } stop)
        {
            errors.Add(trial.Error(answer) / trial.Band);
            oracleErrors.Add((trial.Bound.Grams[method] - trial.Truth.NetGrams) / trial.Band);
            if (!wrong && trial.Truth.MustRecord)
            {
                dueErrors.Add(errors[^1]);
                dueOracleErrors.Add(oracleErrors[^1]);
                seconds.Add(answer.At - trial.Truth.HandsOffAt);
                oracleSeconds.Add(stop.At - trial.Truth.HandsOffAt);
                cautiousSeconds.Add((trial.Bound.Cautious?.At ?? trial.Truth.HandsBackAt) - trial.Truth.HandsOffAt);
            }
        }

        Right += !wrong && trial.Truth.MustRecord ? 1 : 0;
    }

    private static double Share(int count, int of) => of == 0 ? double.NaN : (double)count / of;
}
