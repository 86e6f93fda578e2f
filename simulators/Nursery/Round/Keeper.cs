using CaptureAgent.Simulators.Instruments;
using CaptureAgent.Simulators.Nursery.Flock;
using CaptureAgent.Simulators.Nursery.Watching;
using CaptureAgent.Simulators.Physics.Pan;

namespace CaptureAgent.Simulators.Nursery.Round;

/// <summary>The two hands at the scale. They know what the agent answers and nothing else.</summary>
internal sealed class Keeper(SimulatedScale scale, SimulatedScanner scanner, EventLog log, Narration narration, TimeProvider time)
{
    /// <summary>A keeper gives up on an answer after this long.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(22);

    private int placings;
    private string towel = "";

    public void Say(string what) => narration.Say("keeper", what);

    public Task PauseAsync(double seconds, CancellationToken cancellationToken) => Task.Delay(TimeSpan.FromSeconds(seconds), time, cancellationToken);

    public void Scan(string code)
    {
        if (!scanner.Scan(code))
            narration.Say("demo", $"the scan of {code} is lost: nobody reads the scanner");
    }

    /// <summary>Gives the agent's tare; null when none came.</summary>
    public async Task<AgentEvent?> LayTowelAsync(double grams, CancellationToken cancellationToken)
    {
        var from = log.Count;
        towel = $"towel {++placings}";
        scale.With(pan =>
        {
            pan.Add(new(towel, grams));
            pan.Schedule(new Grip(pan.Seconds, towel, 0.4, 0) { Overshoot = 0.2 });
            return 0;
        });
        return await log.WaitAsync(from, one => one is { Name: "tare", Grams: > 1 }, TimeSpan.FromSeconds(12), cancellationToken);
    }

    /// <summary>Takes the towel off, with all that chicks have left on it.</summary>
    public async Task TakeTowelAsync(CancellationToken cancellationToken)
    {
        scale.With(pan =>
        {
            pan.Schedule(new Grip(pan.Seconds, towel, 0.4, 1));
            return pan.Seconds;
        });
        await PauseAsync(0.3, cancellationToken);
        scale.With(pan =>
        {
            pan.Wipe();
            return 0;
        });
        await PauseAsync(2, cancellationToken);
    }

    /// <summary>Places a chick, waits for the answer (without a code: only a while), lifts it.</summary>
    /// <param name="chick">Whose code is scanned.</param>
    /// <param name="grams">What it weighs now.</param>
    /// <param name="manner">How.</param>
    /// <param name="cancellationToken">Ends the round.</param>
    /// <returns>The weighing; null when none came.</returns>
    public async Task<AgentEvent?> WeighAsync(NurseryChick chick, double grams, Manner manner, CancellationToken cancellationToken)
    {
        var from = log.Count;
        var load = $"{chick.Code} {++placings}";
        Say(manner.Code switch
        {
            CodeTime.Before => $"scans {chick.Code} and lowers it onto the pan",
            CodeTime.After => $"lowers {chick.Code} onto the pan, its code to follow",
            _ => $"lowers {chick.Code} onto the pan and forgets its code",
        });
        if (manner.Code is CodeTime.Before)
        {
            Scan(chick.Code);
            await PauseAsync(0.5, cancellationToken);
        }

        var lettingGo = 0.5 + manner.HoldSeconds;
        scale.With(pan => Lower(pan, new(load, grams, chick.Temperament), manner, lettingGo));
        await PauseAsync(lettingGo + 0.7, cancellationToken);
        if (manner.Code is CodeTime.After)
        {
            Say($"scans {chick.Code}");
            Scan(chick.Code);
        }

        AgentEvent? answer = null;
        if (manner.Code is CodeTime.Never)
            await PauseAsync(4.5, cancellationToken);
        else
            answer = await log.WaitAsync(from, one => one.Name == "weighing" && one.Chick == chick.Code, Patience, cancellationToken);

        await LiftAsync(load, cancellationToken);
        if (manner.Code is CodeTime.Never)
            answer = await log.WaitAsync(from, one => one.Name == "weighing" && one.Chick is null, TimeSpan.FromSeconds(8), cancellationToken);
        return answer;
    }

    private static double Lower(PanForces pan, PanLoad load, Manner manner, double lettingGo)
    {
        var now = pan.Seconds;
        pan.Add(load);
        pan.Schedule(new Grip(now, load.Id, 0.5, manner.Support) { Unsteadiness = manner.Unsteadiness, Overshoot = 0.2 });
        pan.Schedule(new Grip(now + lettingGo, load.Id, 0.2, 0));
        if (manner.DroppingGrams > 0)
            pan.Schedule(new Dropping(now + lettingGo + 1.5, load.Id, manner.DroppingGrams));
        if (manner.Bumped)
            pan.Schedule(new Bump(now + lettingGo + 1.2, load.Grams * 0.3));
        return now;
    }

    private async Task LiftAsync(string load, CancellationToken cancellationToken)
    {
        var from = log.Count;
        await PauseAsync(0.4, cancellationToken);
        scale.With(pan =>
        {
            var now = pan.Seconds;
            pan.Schedule(new Grip(now, load, 0.3, 0.2) { Unsteadiness = 0.03 });
            pan.Schedule(new Grip(now + 0.6, load, 0.4, 1));
            return now;
        });
        await PauseAsync(1, cancellationToken);
        await log.WaitAsync(from, one => one.Name == "lifted", TimeSpan.FromSeconds(2.5), cancellationToken);
        await PauseAsync(1.2, cancellationToken);
    }
}
