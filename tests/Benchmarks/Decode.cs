using System.Globalization;
using System.Text;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using CaptureAgent.Benchmarks.Decoding;
using CaptureAgent.Benchmarks.Reporting;

namespace CaptureAgent.Benchmarks;

/// <summary>How many lines a second are decoded, and what each allocates.</summary>
internal static class Decode
{
    private const double TargetMillions = 5;

    public static int Run()
    {
        var load = Machine.Load();
        // In this process: the agent's own settings of the runtime hold, and no second project is built.
        var config = ManualConfig.CreateEmpty()
            .AddJob(Job.Default.WithToolchain(InProcessEmitToolchain.Instance).WithWarmupCount(5).WithIterationCount(15))
            .AddDiagnoser(MemoryDiagnoser.Default)
            .AddColumnProvider(BenchmarkDotNet.Columns.DefaultColumnProviders.Instance)
            .AddLogger(ConsoleLogger.Default)
            .WithArtifactsPath(Path.Combine(Path.GetTempPath(), "capture-agent-benchmarks"));
        var summary = BenchmarkRunner.Run<LineDecoding>(config);
        if (summary.HasCriticalValidationErrors || summary.Reports.Any(report => !report.Success))
            return 1;
        ResultFile.Write("decode", Machine.Describe(load, Path.GetTempPath()), Body(summary));
        return 0;
    }

    private static string Body(Summary summary)
    {
        var body = new StringBuilder("""
            One thread takes lines out of pieces of 4096 bytes (the size of one read of a serial port; a line is cut by nearly every piece):
            framing, decoding and, for scales, the conversion to grams. Ordinary lines, in equal parts still and moving.
            BenchmarkDotNet with its memory diagnoser, in-process. The baseline gets the same lines one by one, as bytes, and does what
            a first version would: `Encoding.GetString`, `Regex.Match`, `decimal.Parse`.

            | decoder | million lines a second | ns a line (mean ± standard error) | B a line | times the baseline |
            | --- | --- | --- | --- | --- |

            """);
        var baseline = summary.Reports.First(report => report.BenchmarkCase.Descriptor.Baseline).ResultStatistics!.Mean;
        foreach (var report in summary.Reports)
        {
            var (mean, error) = (report.ResultStatistics!.Mean, report.ResultStatistics.StandardError);
            var bytes = report.GcStats.GetBytesAllocatedPerOperation(report.BenchmarkCase);
            body.AppendLine(CultureInfo.InvariantCulture,
                $"| {report.BenchmarkCase.Descriptor.WorkloadMethodDisplayInfo.Trim('\'')} | {1000 / mean:0.0} | {mean:0.0} ± {error:0.0} | {bytes} | {baseline / mean:0.0} |");
        }

        body.AppendLine().Append(CultureInfo.InvariantCulture,
            $"Target: {TargetMillions:0} million lines a second on one core and 0 B a line for the built-in dialects of scales and probes.");
        return body.ToString();
    }
}
