using System.Net;
using System.Net.Sockets;

namespace CaptureAgent.Page.Tests.Support;

/// <summary>A network between a browser and the station that can go dead as a radio does: nothing gets through and nobody is told.</summary>
internal sealed class CutLine : IAsyncDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource ending = new();
    private readonly int port;
    private readonly Task accepting;
    private volatile TaskCompletionSource open = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <param name="port">The station's.</param>
    public CutLine(int port)
    {
        this.port = port;
        open.SetResult();
        listener.Start();
        accepting = AcceptAsync();
    }

    public string Address => $"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}";

    public void Cut() => open = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public void Mend() => open.TrySetResult();

    public async ValueTask DisposeAsync()
    {
        await ending.CancelAsync();
        Mend();

        // One that was accepted in this moment: the listener must still be there when it is asked for the next.
        await accepting;
        listener.Stop();
        ending.Dispose();
    }

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
                _ = CarryAsync(await listener.AcceptTcpClientAsync(ending.Token));
        }
        catch (OperationCanceledException)
        {
        }
    }

    private async Task CarryAsync(TcpClient near)
    {
        using (near)
        using (var far = new TcpClient())
        {
            try
            {
                await open.Task.WaitAsync(ending.Token);
                await far.ConnectAsync(IPAddress.Loopback, port, ending.Token);
                await Task.WhenAny(CopyAsync(near, far), CopyAsync(far, near));
            }
            catch (Exception gone) when (gone is IOException or SocketException or OperationCanceledException)
            {
            }
        }
    }

    private async Task CopyAsync(TcpClient from, TcpClient to)
    {
        var piece = new byte[16_384];
        try
        {
            while (await from.GetStream().ReadAsync(piece, ending.Token) is > 0 and var length)
            {
                await open.Task.WaitAsync(ending.Token);
                await to.GetStream().WriteAsync(piece.AsMemory(0, length), ending.Token);
            }
        }
        catch (Exception gone) when (gone is IOException or SocketException or OperationCanceledException or ObjectDisposedException or InvalidOperationException)
        {
        }
    }
}
