using System.Text;
using CaptureAgent.Simulators.Instruments.Encoders;
using CaptureAgent.Simulators.Instruments.Terminals;
using CaptureAgent.Simulators.Physics.Probes;

namespace CaptureAgent.Simulators.Instruments;

/// <summary>A temperature probe that sends a line a second over a serial line.</summary>
public sealed class SimulatedProbe(LaggingProbe probe, SerialSocket socket, LineFaults faults, ulong seed)
{
    private static readonly TimeSpan Beat = TimeSpan.FromSeconds(1);

    private readonly Lock gate = new();
    private readonly FaultyLine wire = new(faults, seed);

    public void Dip()
    {
        lock (gate)
            probe.Dip();
    }

    public void TakeOut()
    {
        lock (gate)
            probe.TakeOut();
    }

    /// <summary>Keeps the pace of the clock until cancelled.</summary>
    public async Task RunAsync(TimeProvider time, CancellationToken cancellationToken)
    {
        var start = time.GetTimestamp();
        using var beat = new PeriodicTimer(Beat, time);
        while (await SimulatedScale.NextBeatAsync(beat, cancellationToken))
            SendReadingAt(time.GetElapsedTime(start).TotalSeconds);
    }

    /// <summary>Sends the reading of a moment of simulated time.</summary>
    public void SendReadingAt(double seconds)
    {
        lock (gate)
        {
            foreach (var write in wire.Take(Encoding.ASCII.GetBytes(TextProbe.Encode(probe.ReadAt(seconds)))))
                socket.Write(write);
        }
    }
}
