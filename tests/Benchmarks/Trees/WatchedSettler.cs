using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Benchmarks.Trees;

/// <summary>The station's settler, of which every evaluation is written down and which never says that a weight has settled, so that all of a placing is seen.</summary>
/// <param name="witness">Told of the grams and the signs of each evaluation that had any.</param>
internal sealed class WatchedSettler(WatchedSettler.Witness witness) : ISettler
{
    private readonly PlateauSettler settler = new();
    private double told = double.NaN;

    public delegate void Witness(double grams, ReadOnlySpan<float> signs);

    public SettleState State => settler.State == SettleState.Settled ? SettleState.Contact : settler.State;

    public double Grams => settler.Grams;

    public double StandardError => settler.StandardError;

    public bool Lively => settler.Lively;

    public bool Stepped => settler.Stepped;

    public LowPlateau LowPlateau => settler.LowPlateau;

    public Motion Motion => settler.Motion;

    public double Rounding => settler.Rounding;

    public void Begin(in SettleContext context) => settler.Begin(context);

    public Surest? Surest => null;

    public Rise RiseTo(double level, double until) => settler.RiseTo(level, until);

    public void Expect(double grams, in MotionHabit habit = default) => settler.Expect(grams, habit);

    public void Add(double seconds, double grams)
    {
        settler.Add(seconds, grams);
        if (settler.EvaluatedSeconds == told)
            return;
        told = settler.EvaluatedSeconds;
        if (settler.Signs.Length > 0)
            witness(settler.Grams, settler.Signs);
    }

    public void Gap() => settler.Gap();
}
