using System.Text.RegularExpressions;

namespace CaptureAgent.Agent.Configuration;

/// <summary>The rules for how a device is reached.</summary>
internal static partial class ConnectionRules
{
    public static void Check(DeviceOptions device, string path, bool isOpened, RuleBook book)
    {
        if (device.Connection is not { } connection)
        {
            if (isOpened)
                book.Add(path, null, "missing: say how the device is reached, as in { \"kind\": \"serial\", \"path\": \"/dev/serial/by-id/...\" }.");
            return;
        }

        CheckForm(connection, path, book);
        if (isOpened)
            CheckOpenable(connection, path, book);
    }

    private static void CheckForm(ConnectionOptions connection, string path, RuleBook book)
    {
        book.OneOf($"{path}.kind", connection.Kind, Dialects.Kinds);
        book.Between($"{path}.baud", connection.Baud, 50m, 4_000_000m, "");
        book.Between($"{path}.dataBits", connection.DataBits, 7m, 8m, "");
        book.OneOf($"{path}.parity", connection.Parity, ["none", "odd", "even", "mark", "space"]);
        book.Between($"{path}.stopBits", connection.StopBits, 1m, 2m, "");
        book.OneOf($"{path}.flow", connection.Flow, ["none", "xon-xoff", "rts-cts"]);
        CheckAddress(connection.Address, $"{path}.address", book);
        CheckAddress(connection.Adapter, $"{path}.adapter", book);
        book.Between($"{path}.suspectAfterSeconds", RuleBook.Bounded(connection.SuspectAfterSeconds), 1m, 86_400m, "s");
    }

    private static void CheckOpenable(ConnectionOptions connection, string path, RuleBook book)
    {
        if (!Dialects.Kinds.Contains(connection.Kind, StringComparer.Ordinal))
            return;

        if (!Dialects.ServedKinds.Contains(connection.Kind, StringComparer.Ordinal))
            book.Add($"{path}.kind", connection.Kind, $"not served by this version. Served: {string.Join(", ", Dialects.ServedKinds)}.");
        else if (connection.Kind == "bluetooth")
            CheckPresent(connection.Address, $"{path}.address", "missing: the device's Bluetooth address, such as C0:FF:EE:00:00:01; `bluetoothctl scan le` shows those that are heard.", book);
        else if (connection.Kind == "keyboard")
            CheckPresent(connection.Path, $"{path}.path", "missing: the scanner's file under /dev/input/by-id that ends in -event-kbd.", book);
        else if (connection.Kind == "hid")
            CheckPresent(connection.Path, $"{path}.path", "missing: the scale's file under /dev that begins with hidraw, best a link to it that a udev rule makes.", book);
        else
            CheckPresent(connection.Path, $"{path}.path", "missing: the device file, best the one under /dev/serial/by-id, which stays the same when the cable is replugged.", book);
    }

    private static void CheckPresent(string? value, string path, string problem, RuleBook book)
    {
        if (string.IsNullOrWhiteSpace(value))
            book.Add(path, value, problem);
    }

    private static void CheckAddress(string? address, string path, RuleBook book)
    {
        if (!string.IsNullOrWhiteSpace(address) && !BluetoothAddress().IsMatch(address))
            book.Add(path, address, "must be a Bluetooth address: six pairs of hexadecimal digits, such as C0:FF:EE:00:00:01.");
    }

    [GeneratedRegex(@"\A[0-9A-Fa-f]{2}(:[0-9A-Fa-f]{2}){5}\z", RegexOptions.CultureInvariant)]
    private static partial Regex BluetoothAddress();
}
