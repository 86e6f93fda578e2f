using CaptureAgent.Store;

namespace CaptureAgent.Agent.Checks;

/// <summary>Can the store be used? Creates nothing: a store made by an administrator could not be written by the agent's own user.</summary>
internal static class StoreCheck
{
    public static void Look(string path, TimeProvider time, CheckReport report)
    {
        if (!File.Exists(path))
        {
            var folder = Path.GetDirectoryName(path);
            if (Directory.Exists(folder))
                report.Good("store", $"{path} is not there yet; the first run or import creates it");
            else
                report.Wrong("store", $"the folder {folder} does not exist. Create it and give it to the agent's user, or name another place for the store.");
            return;
        }

        try
        {
            using var store = CaptureStore.Open(path, time);
            report.Good("store", $"{path}: sound, {store.Chicks().Count} chicks in the register");
        }
        catch (StoreException failure)
        {
            report.Wrong("store", $"{failure.Message} {failure.Remedy}");
        }
    }

    /// <summary>What other checks read of the record: the store is given to them, null where there is none yet. One that cannot be used is passed over, for <see cref="Look"/> tells of it.</summary>
    public static void Use(string path, TimeProvider time, Action<CaptureStore?> look)
    {
        try
        {
            // Its pages were gone through already.
            using var store = File.Exists(path) ? CaptureStore.Open(path, time, toRead: true) : null;
            look(store);
        }
        catch (StoreException)
        {
            // Told.
        }
    }
}
