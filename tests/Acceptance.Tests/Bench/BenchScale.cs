using System.Globalization;
using System.Text;

namespace CaptureAgent.Acceptance.Tests.Bench;

/// <summary>A gram scale that the test loads: ten lines a second, whatever happens. Division 0.1 g.</summary>
/// <remarks>
/// An easy signal: what lies on the pan, a straight change from one load to the next, and the motion of an animal that takes back
/// what it gave, as a body that rests on a pan must. No measure of the estimator.
/// </remarks>
internal sealed class BenchScale : IAsyncDisposable
{
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(100);

    private readonly Socket socket;
    private readonly Lock gate = new();
    private readonly Random random = new(11);
    private readonly CancellationTokenSource off = new();
    private readonly Task running;
    private double from, to, motion, momentum;
    private long since;
    private TimeSpan takes;

    public BenchScale(Socket socket)
    {
        this.socket = socket;
        running = RunAsync();
    }

    /// <summary>What becomes of a line on its way; the test may spoil it.</summary>
    public Func<byte[], byte[]> Wire { get; set; } = line => line;

    /// <summary>What lies on the pan from now on.</summary>
    /// <param name="lively">Standard deviation of an animal's motion in grams; 0 for a thing.</param>
    public void Load(double grams, double lively, TimeSpan change)
    {
        lock (gate)
        {
            (from, to, motion) = (Level(), grams, lively);
            (since, takes) = (TimeProvider.System.GetTimestamp(), change);
        }
    }

    /// <summary>One line as the <c>header-comma</c> scales send it: mark, kind, signed value in eight places, unit.</summary>
    public static string Line(double grams, bool moves) => string.Create(
        CultureInfo.InvariantCulture,
        $"{(moves ? "US" : "ST")},GS,{(grams <= -0.05 ? '-' : '+')}{Math.Abs(Math.Round(grams, 1)),8:F1}  g\r\n");

    public async ValueTask DisposeAsync()
    {
        await off.CancelAsync();
        await running;
        off.Dispose();
    }

    private async Task RunAsync()
    {
        using var pace = new PeriodicTimer(Period);
        try
        {
            while (await pace.WaitForNextTickAsync(off.Token))
                socket.Send(Wire(Encoding.ASCII.GetBytes(Next())));
        }
        catch (OperationCanceledException)
        {
        }
    }

    private string Next()
    {
        lock (gate)
        {
            var before = momentum;
            momentum = motion * Gauss();
            var level = Level();
            return Line(level + momentum - before, motion > 0 || level != to);
        }
    }

    private double Level()
    {
        var passed = TimeProvider.System.GetElapsedTime(since);
        return passed >= takes ? to : from + (to - from) * (passed / takes);
    }

    // Box and Muller, 1958.
    private double Gauss() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
