using CaptureAgent.Simulators.Instruments;
using CaptureAgent.Simulators.Instruments.Encoders;
using CaptureAgent.Simulators.Nursery.Flock;
using CaptureAgent.Simulators.Nursery.Round;
using CaptureAgent.Simulators.Nursery.Watching;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Probes;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Nursery;

/// <summary>The whole demo: folder, import, instruments, agent, round, report.</summary>
internal static class Demo
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(225);
    private static readonly TimeSpan StartLimit = TimeSpan.FromSeconds(20);

    /// <summary>Gives the exit code.</summary>
    public static async Task<int> RunAsync(ulong seed, FileInfo? executable, bool keep, Narration narration, CancellationToken stop)
    {
        var time = TimeProvider.System;
        using var limit = new CancellationTokenSource(Limit, time);
        using var ended = CancellationTokenSource.CreateLinkedTokenSource(limit.Token, stop);
        var (today, dayStartsAt) = NurseryDay(time.GetUtcNow());
        var specification = new ScaleSpecification { GainError = 0.0002, DriftGramsPerMinute = 0.01, WanderGramsPerRootMinute = 0.01 };
        var nursery = new InventedNursery(seed, today);
        using var folder = new StationFolder(keep);
        folder.Write(nursery, dayStartsAt, specification.DivisionGrams);
        narration.Say("demo", $"an invented nursery of {nursery.Chicks.Count} chicks, seed {seed}{(keep ? $", in {folder.Path}" : "")}");

        var agent = new AgentProcess(executable, folder.Path, narration);
        await agent.DoAsync(["import", "register", "register.csv", "--station", "station.json"], ended.Token);
        await agent.DoAsync(["import", "weights", "history.csv", "--station", "station.json"], ended.Token);

        var simulation = new WeighingSimulation(new(seed), new(specification, seed + 1));
        var scale = new SimulatedScale(simulation, new HeaderComma(), folder.Scale, new() { Split = 0.1, Merge = 0.02 }, seed + 2);
        var probe = new SimulatedProbe(new LaggingProbe(new Bowl(41.5), seed + 3), folder.Probe, new() { Split = 0.1 }, seed + 4);
        folder.Scale.Plug();
        folder.Scanner.Plug();
        folder.Probe.Plug();
        using var off = new CancellationTokenSource();
        var instruments = Task.WhenAll(scale.RunAsync(time, off.Token), probe.RunAsync(time, off.Token));

        var log = new EventLog(time);
        agent.Run(["run", "--station", "station.json", "--events", "-"], log);
        string? ending = null;
        var round = new MorningRound(nursery, new(scale, new(folder.Scanner), log, narration, time), log, specification.DivisionGrams);
        try
        {
            await WaitUntilReadyAsync(agent, log, folder, time, ended.Token);
            narration.Say("keeper", "stirs the formula and dips the probe");
            probe.Dip();
            var going = round.RunAsync(ended.Token);
            if (await Task.WhenAny(going, agent.WaitForEndAsync()) != going)
                await ended.CancelAsync();
            await going;
        }
        catch (OperationCanceledException)
        {
            // Where the agent's own end stopped the round, that is told instead, below.
            ending = stop.IsCancellationRequested ? "stopped by hand" : $"not done within {Limit.TotalSeconds:F0} s";
        }
        finally
        {
            var early = agent.HasEnded;
            var code = await agent.StopAsync(TimeSpan.FromSeconds(5));
            if (early || code != 0)
                ending = $"the agent ended {(early ? "in the middle of the round " : "")}with {(code is null ? "no answer to SIGTERM" : $"exit code {code}")}:{Environment.NewLine}{agent.LastErrors}";
            await off.CancelAsync();
            await instruments;
        }

        return Report.Print(narration, round.Outcomes, round.Planned, ending) ? 0 : 1;
    }

    private static async Task WaitUntilReadyAsync(AgentProcess agent, EventLog log, StationFolder folder, TimeProvider time, CancellationToken cancellationToken)
    {
        if (await log.WaitAsync(0, one => one.Name == "ready", StartLimit, cancellationToken) is null)
            throw new DemoException($"The agent did not say that it is ready within {StartLimit.TotalSeconds:F0} s.{Environment.NewLine}{agent.LastErrors}");
        var deadline = time.GetUtcNow() + StartLimit;
        while (!(folder.Scale.HasReader && folder.Scanner.HasReader))
        {
            if (time.GetUtcNow() > deadline)
                throw new DemoException($"The agent did not open the simulated scale and scanner within {StartLimit.TotalSeconds:F0} s.{Environment.NewLine}{agent.LastErrors}");
            await Task.Delay(TimeSpan.FromMilliseconds(50), time, cancellationToken);
        }

        await Task.Delay(TimeSpan.FromSeconds(1.5), time, cancellationToken);
    }

    /// <summary>The nursery's day, and an hour at which it starts such that the round does not run over it.</summary>
    internal static (DateOnly Today, TimeOnly StartsAt) NurseryDay(DateTimeOffset now)
    {
        var start = new TimeOnly(now.UtcDateTime.Hour is 2 or 3 ? 5 : 3, 0);
        var date = DateOnly.FromDateTime(now.UtcDateTime);
        return (TimeOnly.FromDateTime(now.UtcDateTime) < start ? date.AddDays(-1) : date, start);
    }
}
