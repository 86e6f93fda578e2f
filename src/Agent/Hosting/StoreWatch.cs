using CaptureAgent.Agent.Recording;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Hosting;

/// <summary>Notices that another program (an import, mostly) has written to the store, and gives the core the new register.</summary>
internal sealed partial class StoreWatch(CaptureStore store, IRound round, TimeProvider time, ILogger logger)
{
    private long? version;

    private bool failing;

    /// <summary>Looks once. While decisions wait for the store, what the store says is older than what the core knows.</summary>
    /// <returns>Whether something was written.</returns>
    public bool Look(Recorder recorder)
    {
        if (recorder.Waiting > 0)
            return false;

        try
        {
            var now = store.DataVersion();
            var isNew = version is not null && version != now;
            if (isNew)
            {
                round.Reload(Ledgers.Read(store, time.GetUtcNow()));
                LogReloaded();
            }

            (version, failing) = (now, false);
            return isNew;
        }
        catch (StoreException failure)
        {
            if (!failing)
                LogUnreadable(failure.Message, failure.Remedy);
            failing = true;
            return false;
        }
    }

    [LoggerMessage(210, LogLevel.Information, "Another program has written to the store; the register was read again")]
    private partial void LogReloaded();

    [LoggerMessage(211, LogLevel.Warning, "The store cannot be read: {Reason} {Remedy}")]
    private partial void LogUnreadable(string reason, string remedy);
}
