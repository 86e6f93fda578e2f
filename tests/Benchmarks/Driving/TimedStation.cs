using System.Diagnostics;
using System.Text;
using System.Text.Json;
using CaptureAgent.Benchmarks.Rounds;
using CaptureAgent.Simulators.Instruments.Terminals;

namespace CaptureAgent.Benchmarks.Driving;

/// <summary>One agent with its own store, driven over pseudo-terminals; notes when each line of the scale was written and when each accepted event was read.</summary>
internal sealed class TimedStation : IDisposable
{
    // The agent's clock and ours both count on from a wall time taken once; lines are 100 ms apart.
    private static readonly TimeSpan ClockTolerance = TimeSpan.FromMilliseconds(5);

    private readonly RoundFiles files = new();
    private readonly PseudoTerminal scale = PseudoTerminal.Open();
    private readonly PseudoTerminal scanner = PseudoTerminal.Open();
    private readonly PseudoTerminal probe = PseudoTerminal.Open();
    private readonly AgentUnderTest agent;
    private readonly Thread reading;
    private readonly IEnumerator<PlacedChicks.Tenth> script;
    private readonly Lock gate = new();
    private readonly List<DateTimeOffset> written = [];
    private readonly List<Decision> decisions = [];
    private readonly List<Told> accepted = [];
    private readonly Action afterEach;
    private readonly DateTimeOffset wall = DateTimeOffset.UtcNow;
    private readonly long monotonic = Stopwatch.GetTimestamp();
    /// <summary>Accepted or rejected.</summary>
    private volatile int answered;

    /// <param name="chicks">How many are placed, one after the other.</param>
    /// <param name="seed">Of their weights and motions.</param>
    /// <param name="native">A natively compiled executable; null: the one built with this project.</param>
    /// <param name="afterEach">Called on the reading thread after each accepted event has been stamped.</param>
    /// <param name="listen">Where its page is.</param>
    public TimedStation(int chicks, ulong seed, string? native, Action afterEach, string listen = "http://127.0.0.1:0")
    {
        this.afterEach = afterEach;
        files.Write(chicks, new Dictionary<string, string> { ["scale"] = scale.DevicePath, ["scanner"] = scanner.DevicePath, ["probe"] = probe.DevicePath }, listen);
        AgentUnderTest.Do(files.Folder, "import", "register", files.Register);
        agent = AgentUnderTest.Run(files.Folder, native);
        script = new PlacedChicks(chicks, seed, i => answered > i).Play().GetEnumerator();
        reading = new Thread(Read) { IsBackground = true };
        reading.Start();
    }

    /// <summary>One decision, in milliseconds.</summary>
    /// <param name="Total">From before the deciding line was written to after the event was read.</param>
    /// <param name="ToStamp">Of that, until the agent stamped the line as arrived.</param>
    internal readonly record struct Decision(double Total, double ToStamp);

    /// <summary>An accepted weighing.</summary>
    /// <param name="At">Carried by the event: the agent's stamp of the line that decided.</param>
    /// <param name="Read">When it was read from standard output, where it stands right after its commit.</param>
    internal readonly record struct Told(string Chick, DateTimeOffset At, DateTimeOffset Read);

    /// <summary>The agent's process.</summary>
    public int Id => agent.Id;

    public IReadOnlyList<Told> Accepted
    {
        get
        {
            lock (gate)
                return [.. accepted];
        }
    }

    public IReadOnlyList<Decision> Decisions
    {
        get
        {
            lock (gate)
                return [.. decisions];
        }
    }

    /// <summary>Weighings that were rejected: the script means all to be accepted.</summary>
    public int Rejected { get; private set; }

    /// <summary>Sends each station's next tenth of a second ten times a second, until all have had theirs; their rounds start one after the other, so that they do not decide together.</summary>
    public static void Drive(IReadOnlyList<TimedStation> stations)
    {
        var tenth = TimeSpan.FromMilliseconds(100);
        var start = Stopwatch.GetTimestamp();
        var going = stations.Select((station, i) => (Station: station, Due: (tenth * i / stations.Count) + (TimeSpan.FromSeconds(1.7) * i))).ToList();
        while (going.Count > 0)
        {
            var next = going.MinBy(one => one.Due);
            var wait = next.Due - Stopwatch.GetElapsedTime(start);
            if (wait > TimeSpan.Zero)
                Thread.Sleep(wait);
            going.Remove(next);
            if (next.Station.Step())
                going.Add((next.Station, next.Due + tenth));
        }
    }

    /// <summary>What the probe sends.</summary>
    public void SayTemperature(string line) => probe.Write(Encoding.ASCII.GetBytes(line + "\r\n"));

    /// <summary>Sends the next tenth of a second; false at the end.</summary>
    public bool Step()
    {
        if (!script.MoveNext())
            return false;
        if (script.Current.Scan is { } code)
            scanner.Write(Encoding.ASCII.GetBytes(code + "\r"));
        var line = Encoding.ASCII.GetBytes(script.Current.Line);
        // Stamped before the write, so that a writer that is held up behind it does not flatter the figure.
        lock (gate)
            written.Add(Now());
        if (scale.Write(line) != line.Length)
            throw new InvalidOperationException("The agent does not read the scale.");
        return true;
    }

    public void Dispose()
    {
        agent.Dispose();
        reading.Join();
        scale.Dispose();
        scanner.Dispose();
        probe.Dispose();
        script.Dispose();
        files.Dispose();
    }

    private DateTimeOffset Now() => wall + Stopwatch.GetElapsedTime(monotonic);

    private void Read()
    {
        while (agent.Events.ReadLine() is { } line)
        {
            var read = Now();
            using var document = JsonDocument.Parse(line);
            var root = document.RootElement;
            if (root.GetProperty("event").GetString() != "weighing")
                continue;
            answered++;
            if (root.GetProperty("verdict").GetString() != "accepted")
            {
                Rejected++;
                continue;
            }

            Note(root.GetProperty("chick").GetString()!, root.GetProperty("at").GetDateTimeOffset(), read);
            afterEach();
        }
    }

    /// <summary>The event carries the moment at which the deciding line arrived: that line is the last one written before.</summary>
    private void Note(string chick, DateTimeOffset at, DateTimeOffset read)
    {
        lock (gate)
        {
            var line = written.FindLast(one => one <= at + ClockTolerance);
            decisions.Add(new((read - line).TotalMilliseconds, (at - line).TotalMilliseconds));
            accepted.Add(new(chick, at, read));
        }
    }
}
