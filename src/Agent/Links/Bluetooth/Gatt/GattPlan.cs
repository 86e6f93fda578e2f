using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Instruments;

namespace CaptureAgent.Agent.Links.Bluetooth.Gatt;

/// <summary>All that a Bluetooth link needs to know of its device.</summary>
/// <param name="Address">Of the device, in capital letters.</param>
/// <param name="Adapter">Address of the adapter; null: the first.</param>
/// <param name="Service">UUID of the service that the characteristics must be part of, in short form; null: any.</param>
/// <param name="SuspectAfter">Silence after which the connection is not believed any more and made anew.</param>
internal sealed record GattPlan(string Device, string Address, string? Adapter, BluetoothNeeds Needs, string? Service, TimeSpan SuspectAfter)
{
    private const double SilencesBeforeReconnecting = 6, UsualScaleSilenceSeconds = 10, UsualProbeSilenceSeconds = 30, FinishedWeightsSeconds = 900;

    /// <exception cref="ArgumentException">The connection has no address.</exception>
    public static GattPlan For(DeviceOptions device, ConnectionOptions connection)
    {
        var address = ConnectionParts.Required(device, connection.Address, "address", "a Bluetooth device").ToUpperInvariant();
        var service = device.Frame?.Service is { } uuid ? BluetoothNeeds.Short(uuid) : null;
        return new(device.Id, address, connection.Adapter?.ToUpperInvariant(), BluetoothNeeds.Of(device), service, TimeSpan.FromSeconds(connection.SuspectAfterSeconds ?? UsualSuspicion(device)));
    }

    // A scale of the Weight Scale Service may speak only once a weighing; the others send all the time.
    private static double UsualSuspicion(DeviceOptions device) => device switch
    {
        { SilentAfterSeconds: { } silence } => SilencesBeforeReconnecting * silence,
        { Dialect: "weight-scale" } or { Role: "scanner" } => FinishedWeightsSeconds,
        { Role: "probe" } => SilencesBeforeReconnecting * UsualProbeSilenceSeconds,
        _ => SilencesBeforeReconnecting * UsualScaleSilenceSeconds,
    };
}
