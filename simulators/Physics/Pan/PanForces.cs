namespace CaptureAgent.Simulators.Physics.Pan;

/// <summary>What presses on the pan, step by step. The same loads, actions and seed give the same forces. Not safe for two threads at once.</summary>
public sealed class PanForces(ulong seed)
{
    private readonly SeededRandom random = new(seed);
    private readonly Dictionary<string, HeldLoad> loads = [];
    private readonly PriorityQueue<PanAction, (double At, int Order)> queue = new();
    private readonly List<Disturbance> disturbances = [];
    private long steps;
    private int scheduled;

    /// <summary>Simulated time: the start of the next step.</summary>
    public double Seconds => steps * SimulatedTime.StepSeconds;

    /// <summary>What lies there for good until it is wiped off: droppings that chicks left.</summary>
    public double LeftBehindGrams { get; private set; }

    public void Add(PanLoad load) => loads.Add(load.Id, new(load, random.Fork()));

    /// <summary>An action whose moment has passed happens in the next step.</summary>
    public void Schedule(PanAction action) => queue.Enqueue(action, (action.At, scheduled++));

    public void Wipe() => LeftBehindGrams = 0;

    /// <summary>Whether the load lies there with its whole weight and nobody touches it.</summary>
    public bool IsFree(string load) => loads[load].IsFree(Seconds);

    /// <summary>The present mass of a load, without what it has left behind.</summary>
    public double GramsOf(string load) => loads[load].Grams;

    /// <summary>Mean force in the next step, in grams; time goes on by one step.</summary>
    public double Step()
    {
        var now = Seconds;
        while (queue.TryPeek(out var action, out var due) && due.At <= now + 1e-9)
        {
            queue.Dequeue();
            Apply(action, now);
        }

        var force = LeftBehindGrams;
        foreach (var load in loads.Values)
            force += load.Force(now);
        for (var i = disturbances.Count - 1; i >= 0; i--)
        {
            if (now >= disturbances[i].End)
                disturbances.RemoveAt(i);
            else
                force += disturbances[i].Force(now);
        }

        steps++;
        return force;
    }

    private void Apply(PanAction action, double now)
    {
        switch (action)
        {
            case Grip grip:
                loads[grip.Load].Take(grip with { At = Math.Max(grip.At, now) });
                break;
            case Dropping dropping:
                loads[dropping.Load].Grams -= dropping.Grams;
                LeftBehindGrams += dropping.Grams;
                break;
            default:
                disturbances.Add(Disturbance.From(action with { At = now }, random.Fork()));
                break;
        }
    }
}
