using System.Threading.Channels;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Links.Bluetooth.Pairing;

/// <summary>Where a device's question to a person meets the person's answer: the question goes out as a record of the device, the answer comes from a card.</summary>
/// <remarks>Only devices of station.json may ask.</remarks>
internal sealed class PairingDesk(TimeProvider time)
{
    private readonly Lock gate = new();
    private readonly Dictionary<string, (string Device, ChannelWriter<TraceRecord> Output)> enrolled = new(StringComparer.OrdinalIgnoreCase);
    private TaskCompletionSource<bool>? asked;

    /// <summary>The device with this address is ours; until disposed.</summary>
    /// <param name="address">Its Bluetooth address.</param>
    /// <param name="device">Its id in station.json.</param>
    /// <param name="output">Where its records go; it is written to only while the device is being connected.</param>
    public IDisposable Enrol(string address, string device, ChannelWriter<TraceRecord> output)
    {
        lock (gate)
            enrolled[address] = (device, output);
        return new Withdrawal(this, address);
    }

    public bool Knows(string address)
    {
        lock (gate)
            return enrolled.ContainsKey(address);
    }

    /// <summary>Shows a number that has to be entered on the device.</summary>
    public bool Show(string address, string number) => Tell(address, PairingQuestion.Display(number));

    /// <summary>Asks whether the device shows this number; false if nobody says so in time.</summary>
    public async Task<bool> AskAsync(string address, string number, TimeSpan limit)
    {
        TaskCompletionSource<bool> mine;
        lock (gate)
        {
            asked?.TrySetResult(false);
            asked = mine = new(TaskCreationOptions.RunContinuationsAsynchronously);
        }

        if (!Tell(address, PairingQuestion.Confirm(number)))
            return false;
        try
        {
            return await mine.Task.WaitAsync(limit, time);
        }
        catch (TimeoutException)
        {
            return false;
        }
    }

    /// <summary>A person has looked: the numbers are the same.</summary>
    public void Confirm() => Answer(true);

    /// <summary>The device has given up.</summary>
    public void Cancel() => Answer(false);

    private void Answer(bool yes)
    {
        lock (gate)
        {
            asked?.TrySetResult(yes);
            asked = null;
        }
    }

    private bool Tell(string address, PairingQuestion question)
    {
        lock (gate)
        {
            return enrolled.TryGetValue(address, out var known)
                && known.Output.TryWrite(new TraceRecord(time.GetUtcNow(), known.Device, question.ToBytes(), PairingQuestion.Source));
        }
    }

    private sealed class Withdrawal(PairingDesk desk, string address) : IDisposable
    {
        public void Dispose()
        {
            lock (desk.gate)
                desk.enrolled.Remove(address);
        }
    }
}
