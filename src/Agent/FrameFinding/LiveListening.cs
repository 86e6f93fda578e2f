using System.Globalization;
using System.Threading.Channels;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol.FrameFinding;
using CaptureAgent.Protocol.Gatt;

namespace CaptureAgent.Agent.FrameFinding;

/// <summary>Asks a keeper at the keyboard for one known thing after the other, and keeps what the device sends meanwhile.</summary>
/// <param name="answers">A line a question; its end ends the questions.</param>
internal sealed class LiveListening(ILink link, bool isProbe, TextReader answers, TextWriter output, TimeProvider time)
{
    private const int Waiting = 1024;

    private readonly List<FrameSample> samples = [];
    private readonly Lock gate = new();
    private readonly ChangingBytes changing = new();

    /// <summary>What was heard so far, in the order of time.</summary>
    public IReadOnlyList<FrameSample> Samples
    {
        get
        {
            lock (gate)
                return [.. samples];
        }
    }

    /// <returns>What is known, with the seconds at which it was.</returns>
    public async Task<IReadOnlyList<KnownTime>> RunAsync(CancellationToken stop)
    {
        var started = time.GetTimestamp();
        var records = Channel.CreateBounded<TraceRecord>(Waiting);
        using var over = CancellationTokenSource.CreateLinkedTokenSource(stop);
        var running = link.RunAsync(records.Writer, over.Token);
        var keeping = KeepAsync(records.Reader, started, over.Token);
        try
        {
            return await AskAsync(started, stop);
        }
        finally
        {
            await over.CancelAsync();
            await running;
            await keeping;
        }
    }

    private async Task KeepAsync(ChannelReader<TraceRecord> records, long started, CancellationToken stop)
    {
        try
        {
            await foreach (var record in records.ReadAllAsync(stop))
            {
                if (record.Link is { } change)
                    await output.WriteLineAsync($"{(change == LinkChange.Up ? "connected" : "no connection")} {record.Detail}");
                else
                    await KeepAsync(record, time.GetElapsedTime(started).TotalSeconds);
            }
        }
        catch (OperationCanceledException)
        {
        }
    }

    private async Task KeepAsync(TraceRecord record, double seconds)
    {
        if (KnownCharacteristic.Describe(record.Source, record.Bytes.Span) is { } said)
        {
            await output.WriteLineAsync(said);
            return;
        }

        lock (gate)
            samples.Add(new FrameSample(seconds, record.Source, record.Bytes));
        if (changing.Show(record.Source, record.Bytes.Span) is { } shown)
            await output.WriteLineAsync(shown);
    }

    private async Task<List<KnownTime>> AskAsync(long started, CancellationToken stop)
    {
        var times = new List<KnownTime>();
        while (true)
        {
            await output.WriteLineAsync(Question(times));
            var answer = await Task.Run(answers.ReadLine, CancellationToken.None).WaitAsync(stop);
            if (string.IsNullOrWhiteSpace(answer))
                return times;
            if (!decimal.TryParse(answer.Trim(), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var known) || Math.Abs(known) > 1_000_000m)
            {
                await output.WriteLineAsync($"'{answer.Trim()}' is no number; a decimal mark is a point.");
                continue;
            }

            var from = time.GetElapsedTime(started).TotalSeconds;
            await output.WriteLineAsync(FormattableString.Invariant($"Listening for {KnownMarks.Seconds:0} s: touch nothing."));
            await Task.Delay(TimeSpan.FromSeconds(KnownMarks.Seconds), time, stop);
            times.Add(new KnownTime(known, from, from + KnownMarks.Seconds));
        }
    }

    private string Question(List<KnownTime> times) => (KnownMarks.Missing(times, isProbe), isProbe) switch
    {
        (null, _) => "More of it makes it surer. Enter alone ends the listening.",
        (_, true) => "Hold the probe still where you know the temperature, type it in °C and press Enter (Enter alone ends).",
        _ when times.Count == 0 => "Empty the pan, wait until the scale is still, type 0 and press Enter (Enter alone ends).",
        _ => "Put a known mass on the pan, wait until the scale is still, type its grams and press Enter (Enter alone ends).",
    };
}
