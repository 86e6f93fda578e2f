using CaptureAgent.Simulators.Bluetooth.Bus;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Simulators.Bluetooth.StandIn;

/// <content>What is called, and what it does.</content>
public sealed partial class BluezStandIn
{
    private static readonly TimeSpan Work = TimeSpan.FromMilliseconds(20);

    private async Task CallAsync(MethodContext context)
    {
        if (objects.TryAnswer(context))
            return;
        var (path, member) = (context.Request.PathAsString!, context.Request.MemberAsString!);
        switch (context.Request.InterfaceAsString)
        {
            case "org.freedesktop.DBus.Properties" when member == "Set":
                Set(context, path);
                break;
            case "org.bluez.AgentManager1" when member == "RegisterAgent":
                agent = (context.Request.SenderAsString!, context.Request.GetBodyReader().ReadObjectPathAsString());
                ExportedObjects.Done(context);
                break;
            case AdapterInterface when objects.Has(path):
                CallAdapter(context, path, member);
                break;
            case DeviceInterface when Find(path) is { } device && objects.Has(path):
                await CallDeviceAsync(context, device, path, member);
                break;
            case CharacteristicInterface when objects.Has(path) && Find(path) is { } owner:
                CallCharacteristic(context, owner, path, member);
                break;
            default:
                context.ReplyError("org.freedesktop.DBus.Error.UnknownObject", $"Method \"{member}\" doesn't exist");
                break;
        }
    }

    private SimulatedPeripheral? Find(string path)
    {
        lock (gate)
            return peripherals.FirstOrDefault(one => path == one.Key || path.StartsWith(one.Key + "/", StringComparison.Ordinal)).Value;
    }

    private void Note(string call)
    {
        lock (gate)
        {
            adapterCalls.Enqueue(call);
            if (adapterCalls.Count > MostAdapterCalls)
                adapterCalls.Dequeue();
        }

        if (call == HealedBy)
            IsDeaf = false;
    }

    private void Set(MethodContext context, string path)
    {
        var reader = context.Request.GetBodyReader();
        var (@interface, property, value) = (reader.ReadString(), reader.ReadString(), reader.ReadVariantValue());
        if (property == "Powered")
        {
            Note(value.GetBool() ? "PowerOn" : "PowerOff");
            if (value.GetBool() && IsBlocked)
            {
                context.ReplyError(Failed, "Failed");
                return;
            }

            if (!value.GetBool())
                objects.Set(path, AdapterInterface, ("Discovering", false));
        }

        objects.Set(path, @interface, (property, value));
        ExportedObjects.Done(context);
    }

    private void CallAdapter(MethodContext context, string path, string member)
    {
        Note(member);
        switch (member)
        {
            case "StartDiscovery" when objects.Get(path, AdapterInterface, "Powered")?.GetBool() is not true:
                context.ReplyError("org.bluez.Error.NotReady", "Resource Not Ready");
                return;
            case "StartDiscovery":
                objects.Set(path, AdapterInterface, ("Discovering", true));
                break;
            case "StopDiscovery":
                objects.Set(path, AdapterInterface, ("Discovering", false));
                break;
            case "RemoveDevice":
                if (Find(context.Request.GetBodyReader().ReadObjectPathAsString()) is { } forgotten)
                    Forget(forgotten);
                break;
        }

        ExportedObjects.Done(context);
    }

    private async Task CallDeviceAsync(MethodContext context, SimulatedPeripheral device, string path, string member)
    {
        switch (member)
        {
            case "Connect":
                await ConnectAsync(context, device, path);
                break;
            case "Disconnect":
                device.Pending?.TrySetResult(false);
                Drop(device);
                ExportedObjects.Done(context);
                break;
            case "Pair":
                await PairAsync(context, path);
                break;
            default:
                context.ReplyUnknownMethodError();
                break;
        }
    }

    private async Task ConnectAsync(MethodContext context, SimulatedPeripheral device, string path)
    {
        device.ConnectCalls++;
        if (device.ConnectErrors.TryDequeue(out var fault))
        {
            context.ReplyError("org.bluez.Error." + fault.Error, fault.Text);
            return;
        }

        // As the real one (device.c, dev_connect): what is so already is answered, and no signal follows.
        if (IsConnected(path))
        {
            ExportedObjects.Done(context);
            return;
        }

        // As the real one: pending until the device is there, or Disconnect is called.
        if (!device.IsInRange)
        {
            device.Pending = new(TaskCreationOptions.RunContinuationsAsynchronously);
            if (!await device.Pending.Task)
            {
                context.ReplyError(Failed, "le-connection-abort-by-local");
                return;
            }
        }

        await Task.Delay(Work);
        device.Connections++;
        // As seen of the real one: the answer first, the news of it a moment later.
        ExportedObjects.Done(context);
        await Task.Delay(Work);
        Tell(device, path, "Connected");
        if (device.NeverResolves)
            return;
        await Task.Delay(Work);
        if (!device.IsLate)
            AddCharacteristics(device, path);
        Tell(device, path, "ServicesResolved");
        if (device.IsLate)
        {
            await Task.Delay(Work);
            AddCharacteristics(device, path);
        }
    }

    private bool IsConnected(string path) => objects.Get(path, DeviceInterface, "Connected")?.GetBool() is true;

    private void Tell(SimulatedPeripheral device, string path, string property)
    {
        if (device.IsUnsaid)
            objects.SetUnsaid(path, DeviceInterface, (property, true));
        else
            objects.Set(path, DeviceInterface, (property, true));
    }

    private void AddCharacteristics(SimulatedPeripheral device, string path)
    {
        foreach (var one in device.Characteristics)
        {
            var at = CharacteristicPath(device, one.Uuid);
            var service = at[..at.LastIndexOf('/')];
            if (!objects.Has(service))
                objects.Add(service, new() { ["org.bluez.GattService1"] = new() { ["UUID"] = Uuid.Full(one.Service), ["Primary"] = true } });
            objects.Add(at, new()
            {
                [CharacteristicInterface] = new()
                {
                    ["UUID"] = Uuid.Full(one.Uuid),
                    ["Service"] = new ObjectPath(service),
                    ["Flags"] = VariantValue.Array(one.Flags),
                    ["Notifying"] = false,
                },
            });
        }

        if (device.Battery is { } percent)
        {
            // One object with two interfaces, as BlueZ has it; told again as a whole.
            objects.Add(path, new()
            {
                [DeviceInterface] = new() { ["Address"] = device.Address, ["Connected"] = true, ["ServicesResolved"] = false, ["Paired"] = false },
                [BatteryInterface] = new() { ["Percentage"] = percent },
            });
        }
    }

    private async Task PairAsync(MethodContext context, string path)
    {
        if (agent is not { } asked || !await ConfirmedAsync(asked.Owner, asked.Path, path))
        {
            context.ReplyError("org.bluez.Error.AuthenticationRejected", "Authentication Rejected");
            return;
        }

        objects.Set(path, DeviceInterface, ("Paired", true));
        ExportedObjects.Done(context);
    }

    private async Task<bool> ConfirmedAsync(string owner, string agentPath, string device)
    {
        try
        {
            await connection.CallMethodAsync(Question(owner, agentPath, device));
            return true;
        }
        catch (DBusErrorReplyException)
        {
            return false;
        }
    }

    private MessageBuffer Question(string owner, string agentPath, string device)
    {
        using var writer = connection.GetMessageWriter();
        writer.WriteMethodCallHeader(owner, agentPath, "org.bluez.Agent1", "RequestConfirmation", "ou");
        writer.WriteObjectPath(device);
        writer.WriteUInt32(Passkey);
        return writer.CreateMessage();
    }

    /// <summary>The number that both sides show.</summary>
    public const uint Passkey = 42017;

    private void CallCharacteristic(MethodContext context, SimulatedPeripheral owner, string path, string member)
    {
        var one = owner.Characteristics.FirstOrDefault(each => CharacteristicPath(owner, each.Uuid) == path);
        if (one is null && member == "StartNotify")
        {
            // A ghost: it takes everything and gives nothing.
            ExportedObjects.Done(context);
            return;
        }

        if (owner.WantsPairing && objects.Get(DevicePath(owner), DeviceInterface, "Paired")?.GetBool() is not true)
        {
            context.ReplyError("org.bluez.Error.NotAuthorized", "Operation Not Authorized");
            return;
        }

        switch (member)
        {
            case "StartNotify":
                owner.Notifying.Add(path);
                ExportedObjects.Done(context);
                objects.Set(path, CharacteristicInterface, ("Notifying", true));
                break;
            case "ReadValue" when one is not null:
                using (var writer = context.CreateReplyWriter("ay"))
                {
                    writer.WriteArray(one.Value);
                    context.Reply(writer.CreateMessage());
                }

                break;
            case "WriteValue" when one is not null:
                owner.Written.Add((one.Uuid, context.Request.GetBodyReader().ReadArrayOfByte()));
                ExportedObjects.Done(context);
                break;
            default:
                context.ReplyUnknownMethodError();
                break;
        }
    }

    private sealed class Handler(BluezStandIn standIn) : IPathMethodHandler
    {
        public string Path => "/";

        public bool HandlesChildPaths => true;

        // Answered on the side: a Connect that waits must not hold up the Disconnect that ends it.
        public ValueTask HandleMethodAsync(MethodContext context)
        {
            context.DisposesAsynchronously = true;
            _ = AnswerAsync(context);
            return ValueTask.CompletedTask;
        }

        private async Task AnswerAsync(MethodContext context)
        {
            using (context)
                await standIn.CallAsync(context);
        }
    }
}
