using System.Buffers.Binary;
using System.Diagnostics;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Links.Bluetooth;
using CaptureAgent.Simulators.Bluetooth.StandIn;

namespace CaptureAgent.Benchmarks.Radio;

/// <summary>What many connections and drops leave behind.</summary>
internal sealed record Cycles(int Count, int Sent, int Received, int Lost, int Doubled, IReadOnlyList<long> Kilobytes, IReadOnlyList<long> BaselineKilobytes, double MillisecondsEach)
{
    public const int ValuesEach = 5;

    /// <summary>After so many connections the memory in use is taken.</summary>
    public static readonly int[] Points = [100, 250, 500, 1000];

    private static readonly int Times = Points[^1];

    // A session that is lost within two seconds counts as a failed try, after which a link waits: here that would be an hour of waiting.
    private static readonly LinkTimings Unpausing = LinkTimings.Default with { FirstDelay = TimeSpan.FromMilliseconds(1), LongestDelay = TimeSpan.FromMilliseconds(1), ShortestSession = TimeSpan.Zero };

    // A loss waits a moment for its reason; a thousand of them need not.
    private static readonly BluetoothTimings Hasty = BluetoothTimings.Default with { Reason = TimeSpan.FromMilliseconds(1) };

    public static async Task<Cycles> MeasureAsync()
    {
        var baseline = await BaselineAsync();
        await using var bench = await RadioBench.StartAsync(Unpausing, Hasty);
        int sent = 0, received = 0, doubled = 0, last = 0;
        var kilobytes = new List<long>();
        var started = Stopwatch.GetTimestamp();
        for (var cycle = 1; cycle <= Times; cycle++)
        {
            await bench.SubscribedAsync();
            for (var i = 0; i < ValuesEach; i++)
            {
                var value = new byte[4];
                BinaryPrimitives.WriteInt32LittleEndian(value, sent + 1);
                if (bench.Send(value))
                    sent++;
            }

            while (received < sent)
            {
                var record = await bench.Records.ReadAsync();
                if (record.Link is not null)
                    continue;
                var number = BinaryPrimitives.ReadInt32LittleEndian(record.Bytes.Span);
                if (number != last + 1)
                    doubled++;
                last = number;
                received++;
            }

            if (Points.Contains(cycle))
                kilobytes.Add(Memory());
            bench.Bluez.Drop(bench.Device);
        }

        var each = Stopwatch.GetElapsedTime(started).TotalMilliseconds / Times;
        while (bench.Records.TryRead(out var rest))
            received += rest.Link is null ? 1 : 0;
        return new(Times, sent, received, sent - Math.Min(sent, received), doubled + Math.Max(0, received - sent), kilobytes, baseline, each);
    }

    private static async Task<IReadOnlyList<long>> BaselineAsync()
    {
        await using var bench = await RadioBench.StartAsync(null);
        using var client = await BareClient.ConnectAsync(bench);
        var kilobytes = new List<long>();
        for (var cycle = 1; cycle <= Times; cycle++)
        {
            for (var i = 0; i < ValuesEach; i++)
            {
                bench.Send([1, 2, 3, 4]);
                await client.Values.ReadAsync();
            }

            bench.Bluez.Drop(bench.Device);
            await client.SubscribeAsync();
            if (Points.Contains(cycle))
                kilobytes.Add(Memory());
        }

        return kilobytes;
    }

    private static long Memory()
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        return GC.GetTotalMemory(forceFullCollection: true) / 1024;
    }
}
