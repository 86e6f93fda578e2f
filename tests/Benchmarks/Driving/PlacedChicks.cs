using System.Globalization;
using CaptureAgent.Benchmarks.Rounds;
using CaptureAgent.Simulators.Physics;

namespace CaptureAgent.Benchmarks.Driving;

/// <summary>What the devices of one station send, tenth of a second by tenth of a second, while a keeper places chick after chick on a liner.</summary>
/// <param name="chicks">How many are placed.</param>
/// <param name="seed">Of their weights and motions.</param>
/// <param name="isAnswered">Whether the i-th chick has been answered; it is lifted then.</param>
internal sealed class PlacedChicks(int chicks, ulong seed, Func<int, bool> isAnswered)
{
    private const double Liner = 8.2;
    private const double Motion = 0.4;
    private const int LongestPlacing = 250;

    private readonly SeededRandom random = new(seed);
    private double carry;

    /// <param name="Scan">A code to scan before the line goes out; null: none.</param>
    /// <param name="Line">The scale's line.</param>
    internal readonly record struct Tenth(string? Scan, string Line);

    public IEnumerable<Tenth> Play()
    {
        foreach (var tenth in Hold(30, 0, 0).Concat(Ramp(4, 0, Liner)).Concat(Hold(45, Liner, 0)))
            yield return tenth;
        for (var i = 0; i < chicks; i++)
        {
            var load = Liner + Math.Round(random.Between(60, 400), 1);
            yield return Show(Liner, false) with { Scan = RoundFiles.Code(i) };
            foreach (var tenth in Hold(5, Liner, 0).Concat(Ramp(6, Liner, load + 8)).Concat(Hold(12, load - 20, 0.8)).Concat(Ramp(2, load - 20, load)))
                yield return tenth;
            for (var waited = 0; waited < LongestPlacing && !isAnswered(i); waited++)
                yield return Moving(load, Motion);
            foreach (var tenth in Ramp(4, load, Liner).Concat(Hold(25, Liner, 0)))
                yield return tenth;
        }
    }

    private IEnumerable<Tenth> Hold(int tenths, double grams, double motion)
    {
        for (var i = 0; i < tenths; i++)
            yield return Moving(grams, motion);
    }

    private static IEnumerable<Tenth> Ramp(int tenths, double from, double to)
    {
        for (var i = 1; i <= tenths; i++)
            yield return Show(from + ((to - from) * i / tenths), true);
    }

    // The force of a motion is the change of a momentum, so that its mean over time is nothing.
    private Tenth Moving(double grams, double motion)
    {
        var momentum = motion * random.Normal();
        var shown = grams + momentum - carry;
        carry = momentum;
        return Show(shown, motion > 0);
    }

    private static Tenth Show(double grams, bool moving)
    {
        var shown = Math.Round((decimal)grams, 1);
        return new(null, string.Create(CultureInfo.InvariantCulture, $"{(moving ? "US" : "ST")},GS,{(shown < 0 ? '-' : '+')}{Math.Abs(shown),8:F1}  g\r\n"));
    }
}
