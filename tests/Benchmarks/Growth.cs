using System.Diagnostics;
using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Growth.Fitting;
using CaptureAgent.Agent.Growth.Models;
using CaptureAgent.Benchmarks.GrowthFits;
using CaptureAgent.Benchmarks.Reporting;

namespace CaptureAgent.Benchmarks;

/// <summary>How long fits of growth curves take: one chick, beside R on the same chicks, and a whole register from its store.</summary>
internal static class Growth
{
    private const int WeightsOfAChick = 60;
    private const int ChicksBesideR = 5000;
    private const int WeightsInTheRegister = 50;
    private const int Rounds = 5;

    public static int Run(int registerChicks)
    {
        var load = Machine.Load();
        var chicks = Enumerable.Range(0, ChicksBesideR).Select(seed => SimulatedChicks.Chick(seed, WeightsOfAChick)).ToArray();
        var body = new StringBuilder();
        OneChick(body, chicks);
        BesideR(body, chicks);
        Register(body, registerChicks);
        ResultFile.Write("growth", Machine.Describe(load, Path.GetTempPath()), body.ToString());
        return 0;
    }

    private static void OneChick(StringBuilder body, (double[] Ages, double[] Grams)[] chicks)
    {
        body.AppendLine(CultureInfo.InvariantCulture, $"""
            ## One chick

            {chicks.Length} simulated chicks, {WeightsOfAChick} weights each (sizes and rates over the range of parrots, 2 % noise). One thread; each fit begins without any
            start value, leaves out what cannot belong, and ends with standard errors. The same chicks twice; the second time counts.

            {Spread.Head}
            """);
        var fitter = new Fitter();
        foreach (var models in (IReadOnlyList<GrowthModel>[])[.. GrowthModel.All.Select(model => (IReadOnlyList<GrowthModel>)[model]), GrowthModel.All])
        {
            var times = Array.Empty<double>();
            for (var round = 0; round < 2; round++)
                times = [.. chicks.Select(chick => Milliseconds(() => models.Count(model => fitter.Fit(model, chick.Ages, chick.Grams)!.IsIdentifiable)))];
            body.AppendLine(new Spread(times).Row(models.Count == 1 ? models[0].Name : "all four models"));
        }

        body.AppendLine().AppendLine("Target: 1 ms.").AppendLine();
    }

    private static void BesideR(StringBuilder body, (double[] Ages, double[] Grams)[] chicks)
    {
        body.AppendLine("## Beside R").AppendLine();
        if (RBaseline.Run(chicks) is not { } baseline)
        {
            body.AppendLine("R is not installed (`apt-get install r-base-core`): not measured.").AppendLine();
            return;
        }

        var fitter = new Fitter();
        GrowthFit[] fits = [];
        var (seconds, processor) = (double.PositiveInfinity, double.PositiveInfinity);
        for (var round = 0; round < Rounds; round++)
        {
            var (start, used) = (Stopwatch.GetTimestamp(), ProcessorTime());
            fits = [.. chicks.Select(chick => fitter.Fit(GrowthModel.Logistic, chick.Ages, chick.Grams, leavesOut: false)!)];
            (seconds, processor) = (Math.Min(seconds, Stopwatch.GetElapsedTime(start).TotalSeconds), Math.Min(processor, (ProcessorTime() - used).TotalSeconds));
        }

        var compared = fits.Zip(baseline.Asymptotes).Where(pair => !double.IsNaN(pair.Second)).Select(pair => Math.Abs(pair.First.Asymptote / pair.Second - 1)).Order().ToList();
        body.AppendLine(CultureInfo.InvariantCulture, $"""
            The same {chicks.Length} logistic fits in the same run, one thread each; reading the data and starting R do not count. R: `nls(w ~ SSlogis(t, A, m, k))`,
            default control. Ours: every weight kept, as nls keeps it; the best of five rounds. Asymptotes differ by {compared[compared.Count / 2]:0.0e+0} (median, relative) and
            {compared[^1]:0.0e+0} (largest) over the {compared.Count} that nls fitted.

            | | seconds | processor seconds | processor ms a fit | without a result | times R, by processor time |
            | --- | --- | --- | --- | --- | --- |
            | {baseline.Version}, nls | {baseline.Seconds:0.00} | {baseline.ProcessorSeconds:0.00} | {1000 * baseline.ProcessorSeconds / chicks.Length:0.000} | {chicks.Length - compared.Count} | 1 |
            | this | {seconds:0.000} | {processor:0.000} | {1000 * processor / chicks.Length:0.0000} | {fits.Count(fit => !fit.IsIdentifiable)} | {baseline.ProcessorSeconds / processor:0} |

            Target: 50 times. On a busy machine only processor time tells.

            """);
    }

    private static void Register(StringBuilder body, int chicks)
    {
        var folder = Directory.CreateTempSubdirectory("register-").FullName;
        try
        {
            var path = Path.Combine(folder, "register.db");
            RegisterFile.Fill(path, chicks, WeightsInTheRegister);
            var run = RegisterRun.Measure(path, chicks);
            body.AppendLine(CultureInfo.InvariantCulture, $"""
                ## A register

                A store of {run.Chicks} chicks with {run.Weights} weights ({new FileInfo(path).Length / 1e6:0} MB), day by day in the order of arrival; every chick is read from it and fitted with all
                four models, the best one kept. Baseline: reading the same rows and doing nothing with them.

                | | seconds | processor seconds |
                | --- | --- | --- |
                | reading only | {run.SecondsReading:0.0} | |
                | reading and fitting | {run.Seconds:0.0} | {run.ProcessorSeconds:0.0} |

                {run.Identifiable} chicks have an identifiable curve. After each tenth of the chicks the program holds {Listed(run.LiveMegabytes)} MB (the register among it);
                resident memory of the process, filling the store included: {Listed(run.ResidentMegabytes)} MB.

                Target: 100,000 chicks and 5 million weights within 120 s on two cores, memory flat.
                """);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static string Listed(IEnumerable<double> megabytes) =>
        string.Join(", ", megabytes.Select(each => each.ToString("0", CultureInfo.InvariantCulture)));

    private static TimeSpan ProcessorTime()
    {
        using var process = Process.GetCurrentProcess();
        return process.TotalProcessorTime;
    }

    private static double Milliseconds(Func<int> work)
    {
        var start = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
    }
}
