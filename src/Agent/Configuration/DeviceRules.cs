using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Configuration;

/// <summary>The rules for the list of devices.</summary>
internal static class DeviceRules
{
    private const int LongestId = 32;

    public static void Check(IList<DeviceOptions> devices, bool areOpened, bool framesAreProven, RuleBook book)
    {
        if (areOpened && devices.Count == 0)
            book.Add("devices", null, "there is no device to listen to; name at least a scale.");

        var ids = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < devices.Count; i++)
        {
            var path = $"devices[{i}]";
            CheckId(devices[i].Id, $"{path}.id", ids, i, book);
            CheckDialect(devices[i], path, book);
            CheckNumbers(devices[i], path, book);
            CheckMass(devices[i], path, book);
            CheckKey(devices[i], path, book);
            FrameRules.Check(devices[i], path, framesAreProven, book);
            ConnectionRules.Check(devices[i], $"{path}.connection", areOpened, book);
        }
    }

    private static void CheckId(string id, string path, Dictionary<string, int> ids, int index, RuleBook book)
    {
        const string allowed = "allowed: 1 to 32 letters, digits, '-' and '_', the first a letter or digit.";
        if (id.Length == 0)
            book.Add(path, null, $"missing; {allowed}");
        else if (id.Length > LongestId || !char.IsAsciiLetterOrDigit(id[0]) || !id.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '_'))
            book.Add(path, id, allowed);
        else if (!ids.TryAdd(id, index))
            book.Add(path, id, $"devices[{ids[id]}] has this id already; each device needs its own.");
    }

    private static void CheckDialect(DeviceOptions device, string path, RuleBook book)
    {
        if (device.Role.Length == 0)
            book.Add($"{path}.role", null, $"missing; allowed: {string.Join(", ", Dialects.Roles)}.");
        else if (book.OneOf($"{path}.role", device.Role, Dialects.Roles))
            CheckDialectOfRole(device, path, book);
    }

    private static void CheckDialectOfRole(DeviceOptions device, string path, RuleBook book)
    {
        var served = Dialects.Served(device.Role);
        if (device.Dialect.Length == 0)
            book.Add($"{path}.dialect", null, $"missing; allowed for a {device.Role}: {string.Join(", ", served)}.");
        else if (Dialects.Unserved(device.Role).Contains(device.Dialect, StringComparer.Ordinal))
            book.Add($"{path}.dialect", device.Dialect, $"not served by this version. Served for a {device.Role}: {string.Join(", ", served)}.");
        else if (!served.Contains(device.Dialect, StringComparer.Ordinal))
            RefuseDialect(device, path, served, book);
        else if (device.Dialect == ScaleDialects.Custom)
            CheckCustom(device, path, book);
    }

    private static void RefuseDialect(DeviceOptions device, string path, IReadOnlyList<string> served, RuleBook book)
    {
        var other = Dialects.Roles.FirstOrDefault(role => Dialects.Served(role).Concat(Dialects.Unserved(role)).Contains(device.Dialect, StringComparer.Ordinal));
        if (other is null)
            book.OneOf($"{path}.dialect", device.Dialect, served);
        else
            book.Add($"{path}.dialect", device.Dialect, $"a dialect of a {other}, and this is a {device.Role}. Allowed: {string.Join(", ", served)}.");
    }

    // The protocol tries the pattern on the sample; its sentences name both.
    private static void CheckCustom(DeviceOptions device, string path, RuleBook book)
    {
        foreach (var fault in ScaleDialects.Create(device.Dialect, device.Pattern, device.Sample).Faults)
            book.Add($"{path}.{(fault.Contains(" sample", StringComparison.Ordinal) ? "sample" : "pattern")}", null, fault);
    }

    private static void CheckNumbers(DeviceOptions device, string path, RuleBook book)
    {
        book.Between($"{path}.divisionGrams", device.DivisionGrams, 0.0001m, 100m, "g");
        book.Between($"{path}.capacityGrams", device.CapacityGrams, 1m, 1_000_000m, "g");
        book.Between($"{path}.accuracyGrams", device.AccuracyGrams, 0.0001m, 1000m, "g");
        book.Between($"{path}.accuracyCelsius", device.AccuracyCelsius, 0.05m, 5m, "°C");
        book.Between($"{path}.silentAfterSeconds", RuleBook.Bounded(device.SilentAfterSeconds), 0.5m, 86_400m, "s");
        book.Between($"{path}.pollMilliseconds", device.PollMilliseconds, 20m, 60_000m, "ms");
        book.Between($"{path}.batteryWarnPercent", device.BatteryWarnPercent, 0m, 100m, "%");
        if (device is { DivisionGrams: { } division, CapacityGrams: { } capacity } && division >= capacity)
            book.Add($"{path}.divisionGrams", RuleBook.Text(division), $"must be smaller than capacityGrams, {RuleBook.Text(capacity)}.");
    }

    // The address is part of the nonce: without it nothing can be opened, in a replay neither.
    private static void CheckKey(DeviceOptions device, string path, RuleBook book)
    {
        if (device.Key is not { } key)
            return;
        if (key.Length != 32 || !key.All(char.IsAsciiHexDigit))
            book.Add($"{path}.key", $"{key.Length} characters, not shown", "must be 32 hexadecimal digits.");
        else if (device.Dialect == "bthome" && device.Connection?.Address is null)
            book.Add($"{path}.connection.address", null, "missing: with a key, the device's Bluetooth address is needed to open what it sends, in a replay too.");
        else if (device.Dialect == "bthome" && !System.Security.Cryptography.AesCcm.IsSupported)
            book.Add($"{path}.key", "not shown", "this machine has no AES-CCM: install OpenSSL 3 (libssl3), or let the device send without encryption and leave the key out.");
    }

    private static void CheckMass(DeviceOptions device, string path, RuleBook book)
    {
        book.Between($"{path}.checkMassGrams", device.CheckMassGrams, 0.1m, 1_000_000m, "g");
        book.Between($"{path}.checkToleranceGrams", device.CheckToleranceGrams, 0.001m, 1000m, "g");
        if (device is { CheckMassGrams: { } heavy, CapacityGrams: { } capacity } && heavy > capacity)
            book.Add($"{path}.checkMassGrams", RuleBook.Text(heavy), $"must not be more than capacityGrams, {RuleBook.Text(capacity)}.");
        if (device.CheckToleranceGrams is not { } tolerance)
            return;
        if (device.CheckMassGrams is not { } mass)
            book.Add($"{path}.checkToleranceGrams", RuleBook.Text(tolerance), "means nothing without checkMassGrams.");
        else if (tolerance >= mass)
            book.Add($"{path}.checkToleranceGrams", RuleBook.Text(tolerance), $"must be smaller than checkMassGrams, {RuleBook.Text(mass)}.");
    }
}
