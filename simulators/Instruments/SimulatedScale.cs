using System.Text;
using CaptureAgent.Simulators.Instruments.Encoders;
using CaptureAgent.Simulators.Instruments.Terminals;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Instruments;

/// <summary>A scale at the end of a serial line: lets simulated time follow a clock and sends what the scale shows.</summary>
public sealed class SimulatedScale(WeighingSimulation simulation, IScaleEncoder encoder, SerialSocket socket, LineFaults faults, ulong seed)
{
    private static readonly TimeSpan Beat = TimeSpan.FromMilliseconds(10);

    private readonly Lock gate = new();
    private readonly FaultyLine wire = new(faults, seed);
    private ScaleSample? latest;

    /// <summary>Shows readings but sends none.</summary>
    public bool IsMute { get; set; }

    /// <summary>The simulated moment.</summary>
    public double Seconds => With(pan => pan.Seconds);

    /// <summary>Does something to the pan between two steps.</summary>
    public T With<T>(Func<PanForces, T> act)
    {
        lock (gate)
            return act(simulation.Pan);
    }

    /// <summary>Presses a key of the scale, or pulls its plug, between two steps.</summary>
    public void Press(Action<GramScale, double> key)
    {
        lock (gate)
            key(simulation.Scale, simulation.Pan.Seconds);
    }

    /// <summary>Keeps the pace of the clock until cancelled.</summary>
    public async Task RunAsync(TimeProvider time, CancellationToken cancellationToken)
    {
        var start = time.GetTimestamp();
        var origin = Seconds;
        using var beat = new PeriodicTimer(Beat, time);
        while (await NextBeatAsync(beat, cancellationToken))
            AdvanceTo(origin + time.GetElapsedTime(start).TotalSeconds);
    }

    /// <summary>Goes on to a moment of simulated time, sends the readings up to there and answers what was asked.</summary>
    public void AdvanceTo(double seconds)
    {
        Span<byte> asked = stackalloc byte[256];
        lock (gate)
        {
            foreach (var sample in simulation.Until(seconds))
            {
                latest = sample;
                if (encoder.TalksUnasked)
                    Send(encoder.Encode(sample));
            }

            var count = socket.Read(asked);
            if (count > 0 && encoder is RequestReply replies)
                Send(replies.Answer(asked[..count], latest, simulation.Scale));
        }
    }

    private void Send(string text)
    {
        if (IsMute || text.Length == 0)
            return;
        foreach (var write in wire.Take(Encoding.ASCII.GetBytes(text)))
            socket.Write(write);
    }

    internal static async ValueTask<bool> NextBeatAsync(PeriodicTimer beat, CancellationToken cancellationToken)
    {
        try
        {
            return await beat.WaitForNextTickAsync(cancellationToken);
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }
}
