using System.Globalization;
using System.Text;

namespace CaptureAgent.Acceptance.Tests.Bench;

/// <summary>A probe that the test dips: four lines a second, a tenth of a degree, one time constant of two seconds.</summary>
internal sealed class BenchProbe : IAsyncDisposable
{
    private const double LagSeconds = 2, PerSecond = 4;

    private readonly Socket socket;
    private readonly CancellationTokenSource off = new();
    private readonly Task running;
    private double tip = 23;

    public BenchProbe(Socket socket)
    {
        this.socket = socket;
        socket.Plug();
        running = RunAsync();
    }

    /// <summary>What it is in, °C.</summary>
    public double Around { get; set; } = 23;

    public async ValueTask DisposeAsync()
    {
        await off.CancelAsync();
        await running;
        off.Dispose();
        socket.Dispose();
    }

    // By the time that has passed and not by the lines: a busy machine sends them late.
    private async Task RunAsync()
    {
        using var pace = new PeriodicTimer(TimeSpan.FromSeconds(1 / PerSecond));
        var last = TimeProvider.System.GetTimestamp();
        try
        {
            while (await pace.WaitForNextTickAsync(off.Token))
            {
                var passed = TimeProvider.System.GetElapsedTime(last).TotalSeconds;
                last = TimeProvider.System.GetTimestamp();
                tip += (Around - tip) * (1 - Math.Exp(-passed / LagSeconds));
                socket.Send(Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{tip:0.0} C\r\n")));
            }
        }
        catch (OperationCanceledException)
        {
        }
    }
}
