using System.Globalization;
using System.Text;
using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Benchmarks.Thrive.Bound;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive;

/// <summary>Detection at the stated budget of false alarms, on simulated rooms, beside two baselines; the interval; the time of the summary.</summary>
internal static class ThriveCommand
{
    private const ulong CalmSeed = 510_000, DisturbedSeed = 520_000;

    private static readonly (double Noise, double Correlation)[] Conditions = [(0.02, 0.4), (0.02, 0), (0.02, 0.7), (0.01, 0.4), (0.03, 0.4)];

    /// <param name="rooms">Of each kind.</param>
    /// <param name="native">A natively compiled capture-agent to time; null: the managed one.</param>
    public static int Run(int rooms, string? native)
    {
        var load = Machine.Load();
        var body = new StringBuilder(FormattableString.Invariant($"""
            Simulated rooms of 100 chicks (`simulators/Rooms`), {rooms} for each row, judged over their last 40 mornings (calm) or from the first morning that
            shows the disturbance. Species: published curves and others with the allometry of them; a third of the chicks of a species that the agent does
            not know, a tenth without a date of hatching, 2 % of the weighings missing. A morning counts as found with a look or a red; in brackets,
            notes too. The baselines see the true final weight; nothing else is tuned for them. The bound is what one finds who knows each chick's healthy
            course, the noise, its correlation and what will go wrong, and has for each row one test alone, which spends the whole budget of looks. The joint
            bound is what one finds who knows the law each chick grows by (curve, peak, how it wanders, noise), learns from the weights how heavy it is, and
            looks for halved growth, a stop, a loss and a full crop at once, all alike likely, with one budget of 1.2 false looks and reds. The learner's bound
            is the same for one who does not know that law, but of what chicks it is one of: the species where it is listed, else how all grow, the noise, and
            the day of hatching where a keeper knows it. Neither looks for exchanged chicks or digits, for slow crossing, nor at chicks near or past the peak.

            """));
        foreach (var (noise, correlation) in Conditions)
            Add(body, new RoomConditions { Noise = noise, Correlation = correlation }, rooms);
        body.Append(Summary(native));
        ResultFile.Write("thrive", Machine.Describe(load, Path.GetTempPath()), body.ToString());
        return 0;
    }

    /// <summary>Prints only how long the summary takes, and writes no result.</summary>
    public static int RunSummary(string? native)
    {
        Console.WriteLine(Summary(native));
        return 0;
    }

    /// <summary>Prints only the disturbances whose name has a word in it, and writes no result: for many rooms where only one thing is asked.</summary>
    public static int RunOnly(int rooms, string word)
    {
        var body = new StringBuilder();
        List<Disturbance> asked = [.. Disturbance.All.Where(each => each.Name.Contains(word, StringComparison.OrdinalIgnoreCase))];
        foreach (var (noise, correlation) in Conditions)
        {
            body.Append(CultureInfo.InvariantCulture, $"\nNoise {100 * noise:0} %, correlation from day to day {correlation:0.0}\n");
            var conditions = new RoomConditions { Noise = noise, Correlation = correlation };
            var bounds = asked.Any(each => each.IsInJointBound) ? Bounds(conditions, rooms) : [];
            foreach (var disturbance in asked)
                Add(body, disturbance, conditions, rooms, bounds);
        }

        Console.WriteLine(body);
        return 0;
    }

    /// <summary>Prints only the false alarms of calm rooms, and which chicks were red in their recession; writes no result.</summary>
    public static int RunCalm(int rooms)
    {
        foreach (var (noise, correlation) in Conditions)
        {
            var calm = Calm.Of(new RoomConditions { Noise = noise, Correlation = correlation }, rooms, CalmSeed);
            Console.WriteLine(FormattableString.Invariant($"\nNoise {100 * noise:0} %, correlation from day to day {correlation:0.0}\n{Alarms(calm)}\n{Kinds(calm)}"));
            foreach (var red in calm.RecessionReds)
                Console.WriteLine(red);
        }

        return 0;
    }

    private static string Alarms(Calm calm) => FormattableString.Invariant($"""
        Calm, {calm.ChickMornings:N0} chick-mornings: false looks **{calm.Rate("look"):0.00}** and reds **{calm.Rate("red"):0.000}** a morning for 100 chicks (budget 1 and 0.2), notes {calm.Rate("note"):0.0};
        any loss {100.0 * calm.Baseline.Any / calm.ChickMornings:0.00}, little gain {100.0 * calm.Baseline.Little / calm.ChickMornings:0.00}. False room shifts: {calm.Shifts} in {calm.Mornings} mornings.
        Reds on {calm.RecessionMornings:N0} mornings of chicks in their recession: {calm.RecessionReds.Count}.
        """);

    private static string Kinds(Calm calm) =>
        $"Of these: {string.Join(", ", calm.Told.Where(each => !each.Key.StartsWith("note", StringComparison.Ordinal)).Select(each => string.Create(CultureInfo.InvariantCulture, $"{each.Key} {100.0 * each.Value / calm.ChickMornings:0.000}")))}.";

    private static string Summary(string? native)
    {
        var (morning, start, reading, weights) = MorningTime.Measure(native);
        return string.Create(CultureInfo.InvariantCulture, $"""

            ## The summary

            `morning --json` of 120 chicks over {weights:N0} weights of ten years ({(native is null ? "managed" : "native")}): {morning:0} ms, `--version` {start:0} ms; the difference is
            **{morning - start:0} ms** (target 300; medians of 11). To read every one of the weights once takes {reading:0} ms here in a process that runs already.
            """);
    }

    private static void Add(StringBuilder body, RoomConditions conditions, int rooms)
    {
        var calm = Calm.Of(conditions, rooms, CalmSeed);
        var bounds = Bounds(conditions, rooms);
        body.Append(CultureInfo.InvariantCulture, $"""

            ## Noise {100 * conditions.Noise:0} %, correlation from day to day {conditions.Correlation:0.0}

            {Alarms(calm)}
            The 95 % interval holds {calm.Coverage:0.0} % and is {calm.Width:0.0} % wide (median); that of the joint bound {bounds[0].Width:0.0} %, of the learner's {bounds[1].Width:0.0} %. The joint bound spends {bounds[0].Spent.Heavy:0.00} on full crops and {bounds[0].Spent.Light:0.00} on growth, the learner's {bounds[1].Spent.Heavy:0.00} and {bounds[1].Spent.Light:0.00}.

            {Kinds(calm)}

            | disturbance | count | median morning | by the 1st % | by the 2nd % | by the 4th % | bound: median, 1st, 2nd, 4th % | joint bound, likewise | learner's bound, likewise | any loss: median, 2nd % | little gain: median, 2nd % |
            | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |

            """);
        foreach (var disturbance in Disturbance.All)
            Add(body, disturbance, conditions, rooms, bounds);
    }

    private static JointBound[] Bounds(RoomConditions conditions, int rooms) =>
        [JointBound.ToldTheLaws(conditions, rooms, CalmSeed, DisturbedSeed), JointBound.ToldTheRegister(conditions, rooms, CalmSeed, DisturbedSeed)];

    private static void Add(StringBuilder body, Disturbance disturbance, RoomConditions conditions, int rooms, JointBound[] bounds)
    {
        var found = Detection.Of(disturbance, conditions, rooms, DisturbedSeed);
        body.Append(CultureInfo.InvariantCulture, $"| {disturbance.Name} | {found.Agent.Count} | {Morning(found.Agent)} ({Morning(found.WithNotes)}) ");
        foreach (var within in (ReadOnlySpan<int>)[1, 2, 4])
            body.Append(CultureInfo.InvariantCulture, $"| {Detection.Share(found.Agent, within):0.0} ({Detection.Share(found.WithNotes, within):0.0}) ");
        Append(body, Bound.Bound.Of(disturbance, conditions, rooms, CalmSeed, DisturbedSeed).Mornings);
        foreach (var bound in bounds)
            Append(body, disturbance.IsInJointBound ? bound.Mornings(disturbance) : []);
        body.Append(CultureInfo.InvariantCulture, $"| {Baseline(found.AnyLoss)} | {Baseline(found.LittleGain)} |\n");
        if (found.Shifted.All > 0)
            body.Append(CultureInfo.InvariantCulture, $"\nOn the morning of a shift {100.0 * found.Shifted.Blamed / found.Shifted.All:0.00} of 100 chicks have a look or a red, on the same mornings without it {100.0 * found.BlamedElse / found.Shifted.All:0.00}.\n");
    }

    private static void Append(StringBuilder body, List<int> bound) =>
        body.Append(bound.Count == 0 ? "| " : string.Create(CultureInfo.InvariantCulture, $"| {Morning(bound)}, {Detection.Share(bound, 1):0.0}, {Detection.Share(bound, 2):0.0}, {Detection.Share(bound, 4):0.0} "));

    private static string Morning(List<int> mornings) => Detection.Median(mornings) is var median && median == Detection.Never ? "not found" : median.ToString(CultureInfo.InvariantCulture);

    private static string Baseline(List<int> mornings) =>
        mornings.Count == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{Morning(mornings)}, {Detection.Share(mornings, 2):0.0}");
}
