namespace CaptureAgent.Agent.Links.Bluetooth.Gatt;

/// <summary>When a device's battery is asked for: at its first connection, then from time to time, however often it reconnects meanwhile.</summary>
internal sealed class BatteryRound(TimeProvider time, TimeSpan every)
{
    private long? asked;

    public TimeSpan Remaining => asked is { } at ? every - time.GetElapsedTime(at) : TimeSpan.Zero;

    public void Done() => asked = time.GetTimestamp();
}
