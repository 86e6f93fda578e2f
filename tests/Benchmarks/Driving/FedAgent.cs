using System.Globalization;
using System.Text;
using CaptureAgent.Benchmarks.Rounds;
using CaptureAgent.Simulators.Instruments.Terminals;

namespace CaptureAgent.Benchmarks.Driving;

/// <summary>An agent whose three devices say the same again and again, ten times a second, none at the moment of another.</summary>
internal sealed class FedAgent : IDisposable
{
    private static readonly TimeSpan Beat = TimeSpan.FromSeconds(1.0 / 30);

    private readonly RoundFiles files = new();
    private readonly PseudoTerminal[] terminals = [PseudoTerminal.Open(), PseudoTerminal.Open(), PseudoTerminal.Open()];
    private readonly AgentUnderTest agent;
    private readonly Thread feeding;
    private readonly Thread reading;
    private volatile bool stopping;
    private long lines;

    public FedAgent(string? native)
    {
        files.Write(1, new Dictionary<string, string>
        {
            ["scale"] = terminals[0].DevicePath,
            ["probe"] = terminals[1].DevicePath,
            ["scanner"] = terminals[2].DevicePath,
        });
        agent = AgentUnderTest.Run(files.Folder, native);
        feeding = new Thread(Feed) { IsBackground = true };
        reading = new Thread(() => agent.Events.BaseStream.CopyTo(Stream.Null)) { IsBackground = true };
        feeding.Start();
        reading.Start();
    }

    public int Id => agent.Id;

    /// <summary>Lines that were taken so far.</summary>
    public long Lines => Interlocked.Read(ref lines);

    public void Dispose()
    {
        stopping = true;
        feeding.Join();
        agent.Dispose();
        foreach (var terminal in terminals)
            terminal.Dispose();
        files.Dispose();
    }

    private void Feed()
    {
        using var beat = new PeriodicTimer(Beat);
        for (var turn = 0; !stopping; turn++)
        {
            var text = (turn % 3) switch
            {
                0 => turn % 2 == 0 ? "ST,GS,+     0.0  g\r\n" : "ST,GS,+     0.1  g\r\n",
                1 => string.Create(CultureInfo.InvariantCulture, $"{22 + (turn % 2 / 10m):0.0} C\r\n"),
                _ => RoundFiles.Code(0) + "\r",
            };
            if (terminals[turn % 3].Write(Encoding.ASCII.GetBytes(text)) == text.Length)
                Interlocked.Increment(ref lines);
            beat.WaitForNextTickAsync().AsTask().Wait();
        }
    }
}
