using System.Globalization;
using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Benchmarks.Settle;

namespace CaptureAgent.Benchmarks.Tares;

/// <summary>How often the comparison of the tares before and after is right, on simulated placings, beside one that does not wait for stable equilibrium.</summary>
internal static class TaresCommand
{
    private const int Count = 4000;
    private const ulong Seed = 1;

    // In these something is otherwise after the lift than before it; the drifting zero has a row of its own.
    private static readonly string[] Changed = ["soiled liner", "towel hangs over"];

    public static int Run()
    {
        var load = Machine.Load();
        var drawn = Trials.Draw(Count, Seed, family: null);
        var played = new LiftedPlacing?[drawn.Count];
        Parallel.For(0, drawn.Count, i => played[i] = LiftedPlacing.Play(drawn[i].Placing));
        List<LiftedPlacing> lifted = [.. played.OfType<LiftedPlacing>()];
        ResultFile.Write("tares", Machine.Describe(load, Path.GetTempPath()), Report(lifted));
        return 0;
    }

    private static string Report(List<LiftedPlacing> lifted)
    {
        string[] rows =
        [
            Row("nothing but the chick came and went", [.. lifted.Where(one => !Changed.Contains(one.Family))]),
            .. Changed.Select(family => Row(family, [.. lifted.Where(one => one.Family == family)])),
        ];
        return string.Create(CultureInfo.InvariantCulture, $"""
            {Count} placings of seed {Seed}, played to the real core; {lifted.Count} were accepted and lifted. The scripts end one to two seconds after the lift, so that not every
            pan has come to rest. Baseline: the first half second after the lift that lies within two divisions. A slip: a change of more than the greater of one division and 0.3 %.

            | families | accepted and lifted | compared | slips | baseline: compared | slips |
            | --- | --- | --- | --- | --- | --- |
            {string.Join('\n', rows)}

            {Drift([.. lifted.Where(one => one is { Family: "drifting zero", Told.DriftFreeGrams: not null })])}

            In "soiled liner" a dropping of 0.3 to 3 g stays, which is less than the band for a heavy chick; the weight counts it in, for it came from the chick.
            """);
    }

    private static string Row(string name, List<LiftedPlacing> some) =>
        $"| {name} | {some.Count} | {some.Count(one => one.Told is not null)} | {some.Count(one => one.Told is { Slip: true })} | {some.Count(one => one.HastySlip is not null)} | {some.Count(one => one.HastySlip == true)} |";

    private static string Drift(List<LiftedPlacing> drifting) => drifting.Count == 0 ? "No placing with a drifting zero was compared." : string.Create(
        CultureInfo.InvariantCulture,
        $"Drifting zero, {drifting.Count} compared: RMS error {Rms(drifting, one => (double)one.Weighing.Grams!.Value):0.000} bands as told, {Rms(drifting, one => (double)one.Told!.DriftFreeGrams!.Value):0.000} bands without the drift.");

    private static double Rms(List<LiftedPlacing> some, Func<LiftedPlacing, double> grams) =>
        Math.Sqrt(some.Average(one => Math.Pow((grams(one) - one.TruthGrams) / one.BandGrams, 2)));
}
