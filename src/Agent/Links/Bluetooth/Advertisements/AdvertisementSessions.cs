using System.Threading.Channels;
using CaptureAgent.Agent.Links.Bluetooth.Adapters;
using CaptureAgent.Agent.Links.Bluetooth.Bus;
using CaptureAgent.Agent.Links.Bluetooth.Gatt;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Links.Bluetooth.Advertisements;

/// <summary>Hears a device that tells its values in advertisements and is never connected.</summary>
/// <param name="isUrgent">Heard without a break, as a scale must be; else now and then, which costs little.</param>
internal sealed class AdvertisementSessions(Central central, GattPlan plan, bool isUrgent) : ISessionSource
{
    private const string BaseUuid = "0000{0}-0000-1000-8000-00805f9b34fb";

    private readonly System.Text.CompositeFormat full = System.Text.CompositeFormat.Parse(BaseUuid);

    public async Task<ISession> OpenAsync(bool afterSilence, CancellationToken stop)
    {
        var (bluez, adapter) = await central.ReachAsync(plan.Adapter, stop);
        await adapter.SwitchOnAsync(stop);
        var data = plan.Needs.ServiceData!;
        var key = $"{BluezName.DevicePath(adapter.Path, plan.Address)}#{(data.Length == 4 ? string.Format(null, full, data) : data)}";
        var session = new Session(central, bluez, adapter, plan, key, isUrgent);
        try
        {
            await session.StartAsync(stop);
            return session;
        }
        catch
        {
            await session.DisposeAsync();
            throw;
        }
    }

    private sealed class Session : ISession
    {
        private readonly Channel<TraceRecord> values = Channel.CreateUnbounded<TraceRecord>(new() { SingleReader = true });
        private readonly Central central;
        private readonly Bluez bluez;
        private readonly Adapter adapter;
        private readonly GattPlan plan;
        private readonly string key;
        private readonly IDisposable wanted;
        private long heard;

        public Session(Central central, Bluez bluez, Adapter adapter, GattPlan plan, string key, bool isUrgent)
        {
            (this.central, this.bluez, this.adapter, this.plan, this.key) = (central, bluez, adapter, plan, key);
            wanted = adapter.Discovery.Want(isUrgent);
            heard = central.Time.GetTimestamp();
            bluez.Listen(key, Take);
        }

        public string? Remark => null;

        public async Task StartAsync(CancellationToken stop)
        {
            using var over = CancellationTokenSource.CreateLinkedTokenSource(stop);
            var trouble = TroubleAsync(central.Timings.Seeing, over.Token);
            Task first = values.Reader.WaitToReadAsync(over.Token).AsTask();
            try
            {
                await (await Task.WhenAny(first, trouble));
                if (!first.IsCompleted)
                    throw adapter.Discovery.IsDeaf ? BluetoothFault.Deaf(adapter.Address) : BluetoothFault.NotHeard(plan.Address);
            }
            finally
            {
                await over.CancelAsync();
                await trouble.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
                await first.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }

        public async Task ListenAsync(ChannelWriter<TraceRecord> output, CancellationToken stop)
        {
            var pumping = PumpAsync(output, stop);
            try
            {
                while (plan.SuspectAfter - central.Time.GetElapsedTime(Volatile.Read(ref heard)) is { Ticks: > 0 } left)
                    await TroubleAsync(left, stop);
            }
            finally
            {
                bluez.Unlisten(key);
                values.Writer.TryComplete();
                await pumping;
            }
        }

        public ValueTask DisposeAsync()
        {
            bluez.Unlisten(key);
            wanted.Dispose();
            return ValueTask.CompletedTask;
        }

        // Returns after the limit; throws what is wrong with the adapter or the service before.
        private async Task TroubleAsync(TimeSpan limit, CancellationToken stop)
        {
            try
            {
                await bluez.Tree.WaitAsync<string>(_ => adapter.Trouble(plan.Adapter) is { } trouble ? throw trouble : null, limit, stop);
            }
            catch (TimeoutException)
            {
            }
        }

        private async Task PumpAsync(ChannelWriter<TraceRecord> output, CancellationToken stop)
        {
            while (await values.Reader.WaitToReadAsync(stop))
            {
                while (values.Reader.TryRead(out var record))
                {
                    if (!output.TryWrite(record))
                        await output.WriteAsync(record, stop);
                }
            }
        }

        private void Take(DateTimeOffset at, byte[] value)
        {
            Volatile.Write(ref heard, central.Time.GetTimestamp());
            values.Writer.TryWrite(new(at, plan.Device, value, plan.Needs.ServiceData));
        }
    }
}
