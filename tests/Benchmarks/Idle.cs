using System.Globalization;
using System.Text;
using CaptureAgent.Benchmarks.Driving;
using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Benchmarks.Rounds;

namespace CaptureAgent.Benchmarks;

/// <summary>What the agent costs the processor while nothing happens: three devices that send ten lines a second each.</summary>
internal static class Idle
{
    private const double TargetPercent = 1;

    private static readonly TimeSpan Settling = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(90);

    /// <param name="native">A natively compiled capture-agent; null: only the managed one is measured.</param>
    public static int Run(string? native)
    {
        var load = Machine.Load();
        using var managed = new FedAgent(null);
        using var compiled = native is null ? null : new FedAgent(Path.GetFullPath(native));
        using var nothing = AgentUnderTest.StartThis(IdleHost.Name);
        List<(string Name, int Id)> watched = [("managed, three devices at 10 Hz", managed.Id)];
        if (compiled is not null)
            watched.Add(("native, three devices at 10 Hz", compiled.Id));
        watched.Add(("baseline: a managed process with the same host and no device", nothing.Id));

        Thread.Sleep(Settling);
        var before = watched.ConvertAll(one => AgentUnderTest.ProcessorSeconds(one.Id));
        var lines = managed.Lines;
        Thread.Sleep(Measured);
        var after = watched.ConvertAll(one => AgentUnderTest.ProcessorSeconds(one.Id));
        lines = managed.Lines - lines;
        nothing.Kill();

        var rows = new StringBuilder();
        for (var i = 0; i < watched.Count; i++)
        {
            var (ticks, scheduled) = (after[i].Ticks - before[i].Ticks, after[i].Scheduled - before[i].Scheduled);
            rows.AppendLine(CultureInfo.InvariantCulture,
                $"| {watched[i].Name} | {ticks:0.00} | {100 * ticks / Measured.TotalSeconds:0.00} % | {100 * scheduled / Measured.TotalSeconds:0.00} % |");
        }

        ResultFile.Write("idle", Machine.Describe(load, Path.GetTempPath()), string.Create(CultureInfo.InvariantCulture, $"""
            `capture-agent run --events -` on three pseudo-terminals: an empty pan, a probe at rest and a scanner that sees one code, ten lines
            a second each ({lines / Measured.TotalSeconds:0.0} lines a second to each agent). All processes side by side for {Measured.TotalSeconds:0} s, after {Settling.TotalSeconds:0} s to settle.

            | process | user + system s | of a core | of a core, by the scheduler's count |
            | --- | --- | --- | --- |
            {rows}
            User and system time are from /proc/PID/stat; the last column is the run time of all threads from /proc/PID/task/*/schedstat, which does not count in ticks.
            Target: {TargetPercent:0} % of a core.{(native is null ? " The native executable was not measured." : "")}
            """));
        return 0;
    }
}
