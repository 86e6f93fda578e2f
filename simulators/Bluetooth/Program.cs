using CaptureAgent.Simulators.Bluetooth;
using CaptureAgent.Simulators.Bluetooth.Bus;

// A stand-in for BlueZ to try the agent against without any radio:
//   dotnet run --project simulators/Bluetooth
// prints the address of a private bus; the agent that is started with DBUS_SYSTEM_BUS_ADDRESS set to it finds a scale and a probe there.
if (!PrivateBus.IsThere)
{
    Console.Error.WriteLine($"dbus-daemon is not there: {PrivateBus.InstallLine}");
    return 1;
}

using var over = new CancellationTokenSource();
Console.CancelKeyPress += (_, pressed) =>
{
    pressed.Cancel = true;
    over.Cancel();
};
using var bus = new PrivateBus();
Console.WriteLine($"DBUS_SYSTEM_BUS_ADDRESS={bus.Address}");
await PlayedNursery.RunAsync(bus.Address, over.Token);
return 0;
