using System.Globalization;
using CaptureAgent.Agent.Links.Bluetooth.Bus;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Pairing;

/// <summary>org.bluez.Agent1 (BlueZ, doc/org.bluez.Agent.rst): the object that BlueZ asks when a device wants to be paired. The keys stay with BlueZ.</summary>
/// <remarks>It answers for the pairings that this program begins, and is not the computer's default agent.</remarks>
internal sealed class PairingAgent(PairingDesk desk, BluetoothTimings timings) : IPathMethodHandler
{
    private const string ObjectPath = "/captureagent/pairing", Refused = "org.bluez.Error.Rejected";

    public string Path => ObjectPath;

    public bool HandlesChildPaths => false;

    /// <summary>Registers one for this life of the service. Without one the devices that need no pairing work all the same.</summary>
    public static async Task RegisterAsync(Bluez bluez, PairingDesk desk, BluetoothTimings timings, CancellationToken stop)
    {
        bluez.Export(new PairingAgent(desk, timings));
        try
        {
            await bluez.CallAsync(
                BluezName.Root,
                BluezName.AgentManager,
                "RegisterAgent",
                "os",
                static (ref writer) =>
                {
                    writer.WriteObjectPath(ObjectPath);
                    writer.WriteString("DisplayYesNo");
                },
                timings.Calling,
                stop);
        }
        catch (Exception failure) when (failure is DBusErrorReplyException or TimeoutException)
        {
        }
    }

    public ValueTask HandleMethodAsync(MethodContext context)
    {
        var reader = context.Request.GetBodyReader();
        switch (context.Request.MemberAsString)
        {
            case "RequestConfirmation":
                var asking = AddressOf(reader.ReadObjectPathAsString());
                var number = Digits(reader.ReadUInt32());
                context.DisposesAsynchronously = true;
                _ = ConfirmAsync(context, asking, number);
                break;
            case "DisplayPasskey":
                Answer(context, desk.Show(AddressOf(reader.ReadObjectPathAsString()), Digits(reader.ReadUInt32())));
                break;
            case "DisplayPinCode":
                Answer(context, desk.Show(AddressOf(reader.ReadObjectPathAsString()), reader.ReadString()));
                break;
            case "RequestAuthorization" or "AuthorizeService":
                Answer(context, desk.Knows(AddressOf(reader.ReadObjectPathAsString())));
                break;
            case "Cancel":
                desk.Cancel();
                Answer(context, true);
                break;
            case "Release":
                Answer(context, true);
                break;
            default:
                // There is no keyboard on which a number could be entered.
                Answer(context, false);
                break;
        }

        return ValueTask.CompletedTask;
    }

    /// <summary>/org/bluez/hci0/dev_C0_FF_EE_00_00_01 is C0:FF:EE:00:00:01.</summary>
    internal static string AddressOf(string path) => path[(path.LastIndexOf("dev_", StringComparison.Ordinal) + "dev_".Length)..].Replace('_', ':');

    private static string Digits(uint passkey) => passkey.ToString("000000", CultureInfo.InvariantCulture);

    private static void Answer(MethodContext context, bool yes)
    {
        if (!yes)
        {
            context.ReplyError(Refused, "Not now");
            return;
        }

        using var writer = context.CreateReplyWriter(null!);
        context.Reply(writer.CreateMessage());
    }

    private async Task ConfirmAsync(MethodContext context, string address, string number)
    {
        using (context)
            Answer(context, await desk.AskAsync(address, number, timings.Confirming));
    }
}
