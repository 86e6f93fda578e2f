using CaptureAgent.Store;

namespace CaptureAgent.Agent.Page.Serving;

/// <summary>The page's own connection to the store: one request at a time, away from the loop that captures.</summary>
/// <remarks>Readers never hold up the writer (write-ahead log); a write of the page holds the file for one commit, which the capture waits for or tries again.</remarks>
internal sealed class PageStore(CaptureStore store) : IDisposable
{
    private readonly SemaphoreSlim turn = new(1, 1);

    public async Task<T> DoAsync<T>(Func<CaptureStore, T> work, CancellationToken stop)
    {
        await turn.WaitAsync(stop);
        try
        {
            return work(store);
        }
        finally
        {
            turn.Release();
        }
    }

    public void Dispose()
    {
        turn.Dispose();
        store.Dispose();
    }
}
