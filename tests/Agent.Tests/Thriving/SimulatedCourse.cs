using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>A small invented room for scenes: lovebird chicks on the published curve, with a fixed unrest of one to two per cent.</summary>
internal static class SimulatedCourse
{
    public const string Species = "Rosy-faced lovebird";

    public static readonly DateOnly First = new(2026, 2, 1);

    private static readonly double[] Unrest = [0.004, -0.011, 0.007, 0.013, -0.006, -0.014, 0.002, 0.009, -0.008, 0.005, -0.003, 0.012, -0.010];

    /// <param name="age">On the first day.</param>
    public static WatchedChick Chick(string code, int age, int days, Func<int, double, double>? change = null, string? clutch = null, DateOnly? weaning = null) => new(
        code, Species, First.AddDays(-age), clutch, null,
        [.. Enumerable.Range(0, days).Select(day => Weight(code, day, age + day, change)).Where(weight => weight.Grams > 0)], weaning);

    /// <summary>Twelve of them, of ages from 6 to 17 days.</summary>
    public static List<WatchedChick> Room(int days) => [.. Enumerable.Range(0, 12).Select(i => Chick(Code(i), 6 + i, days))];

    public static string Code(int i) => FormattableString.Invariant($"LB-{i + 1:0000}");

    public static double Curve(int age) => PublishedGrowth.Instance.At(Species, age)!.Value.Grams;

    public static MorningSummary Judge(IReadOnlyList<WatchedChick> chicks, int days) =>
        MorningSummary.Of(chicks, PublishedGrowth.Instance, First.AddDays(days - 1));

    private static MorningWeight Weight(string code, int day, int age, Func<int, double, double>? change)
    {
        var grams = Curve(age) * Math.Exp(Unrest[(day * 5 + code[^1] * 3) % Unrest.Length]);
        return new MorningWeight(First.AddDays(day), Math.Round((decimal)(change?.Invoke(day, grams) ?? grams), 1), null, 1);
    }
}
