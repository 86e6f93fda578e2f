using CaptureAgent.Agent.Links.Bluetooth.Bus;
using CaptureAgent.Agent.Links.Bluetooth.Proxies;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Adapters;

/// <summary>Watches whether discovery hears anyone at all, and does what helps when it does not: each remedy is given as long as the last to show itself.</summary>
/// <remarks>Only time during which discovery ran counts.</remarks>
internal sealed class Hearing(ObjectTree tree, BluetoothTimings timings, TimeProvider time)
{
    private TimeSpan listened;
    private long began;
    private long? heard;
    private int remedies;

    /// <summary>Discovery has been switched on.</summary>
    public void Begin() => began = time.GetTimestamp();

    /// <summary>Discovery has been switched off. Most listening is in pieces shorter than what it takes to be called deaf.</summary>
    public void End() => listened += time.GetElapsedTime(began);

    /// <summary>To be called while discovery runs; says when to look again.</summary>
    public async Task<TimeSpan> LookAsync(AdapterProxy adapter, Discovery discovery, CancellationToken stop)
    {
        End();
        Begin();
        if (tree.Heard(adapter.Path) is { } at && at != heard)
        {
            heard = at;
            listened = TimeSpan.Zero;
            remedies = 0;
            discovery.SetDeaf(false);
        }

        if (listened < timings.Deaf)
            return timings.Deaf - listened;

        listened = TimeSpan.Zero;
        remedies++;
        if (remedies % 2 == 0 && !discovery.IsInUse)
            await PowerCycleAsync(adapter, stop);
        await discovery.RestartAsync(stop);
        if (remedies > 2)
            discovery.SetDeaf(true);
        return timings.Deaf;
    }

    private static async Task PowerCycleAsync(AdapterProxy adapter, CancellationToken stop)
    {
        adapter.IsPowerCycled = true;
        try
        {
            await adapter.SetPoweredAsync(false, stop);
            await adapter.SetPoweredAsync(true, stop);
        }
        catch (Exception failure) when (failure is DBusErrorReplyException or TimeoutException)
        {
            // Whoever wants the adapter finds it off and says so.
        }
        finally
        {
            adapter.IsPowerCycled = false;
        }
    }
}
