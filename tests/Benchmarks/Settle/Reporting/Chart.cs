using CaptureAgent.Benchmarks.Reporting;

namespace CaptureAgent.Benchmarks.Settle.Reporting;

internal static class Chart
{
    public static void Write(IReadOnlyList<Trial> trials) => _ = (trials, ResultFile.Root);
}
