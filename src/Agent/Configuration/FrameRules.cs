using System.Text.RegularExpressions;

namespace CaptureAgent.Agent.Configuration;

/// <summary>The rules for a frame description: first its parts, then what it makes of frames whose value is known.</summary>
internal static partial class FrameRules
{
    private const decimal FarthestPlace = 511;

    private static readonly string[] Ends = ["little", "big"];

    /// <param name="path">Of the device.</param>
    public static void Check(DeviceOptions device, string path, bool mustBeProven, RuleBook book)
    {
        if (device.Frame is not { } frame)
        {
            if (device.Dialect == "frame" && mustBeProven)
                book.Add($"{path}.frame", null, $"missing: say where in what the device sends its value stands; `capture-agent devices --listen {device.Id}` finds it.");
            return;
        }

        var before = book.Faults.Count;
        CheckWhere(frame, $"{path}.frame", book);
        if (device.Dialect != "frame")
        {
            if (frame.Value is not null || !HasLines(device))
                book.Add($"{path}.frame", null, $"means nothing here: the dialect {device.Dialect} says itself what its bytes mean. (With a dialect of lines, service, characteristic, start and startCharacteristic say where the lines come from.)");
            return;
        }

        if (frame.Value is null)
            book.Add($"{path}.frame.value", null, "missing: the place of the number, as in { \"offset\": 3, \"width\": 2, \"factor\": 0.1 }.");
        else
            CheckValue(frame.Value, device.Role, $"{path}.frame.value", book);
        CheckParts(frame, device.Role, $"{path}.frame", book);
        if (book.Faults.Count == before && mustBeProven)
            FrameProof.Check(device, frame, $"{path}.frame.proof", book);
    }

    private static void CheckWhere(FrameOptions frame, string path, RuleBook book)
    {
        Uuid($"{path}.service", frame.Service, book);
        Uuid($"{path}.characteristic", frame.Characteristic, book);
        Uuid($"{path}.startCharacteristic", frame.StartCharacteristic, book);
        Bytes($"{path}.start", frame.Start, book);
        if (frame.StartCharacteristic is not null && frame.Start is null)
            book.Add($"{path}.startCharacteristic", frame.StartCharacteristic, "means nothing without start, the bytes to write there.");
        if (frame.Start is not null && frame.Characteristic is null)
            book.Add($"{path}.characteristic", null, "missing: a start command needs it.");
    }

    private static void CheckValue(FrameValueOptions value, string role, string path, RuleBook book)
    {
        Place($"{path}.offset", value.Offset, book);
        book.Between($"{path}.width", value.Width, 1, 4, "bytes");
        book.OneOf($"{path}.endianness", value.Endianness, Ends);
        book.OneOf($"{path}.sign", value.Sign, ["none", "twos-complement", "bit"]);
        Place($"{path}.signOffset", value.SignOffset, book);
        Mask($"{path}.signMask", value.SignMask, book);
        book.Between($"{path}.factor", value.Factor, 0.000001m, 1000m, "");
        if (value.Unit is { } unit)
            book.OneOf($"{path}.unit", unit, UnitsOf(role));
    }

    private static void CheckParts(FrameOptions frame, string role, string path, RuleBook book)
    {
        book.Between($"{path}.minLength", frame.MinLength, 1, 512, "bytes");
        Bytes($"{path}.begins", frame.Begins, book);
        if (frame.Units is { } units)
            CheckUnits(units, role, $"{path}.units", book);
        if (frame.Stable is { } stable)
        {
            Place($"{path}.stable.offset", stable.Offset, book);
            Mask($"{path}.stable.mask", stable.Mask, book);
            book.OneOf($"{path}.stable.set", stable.Set, ["stable", "moving"]);
        }

        if (frame.Checksum is { } checksum)
            CheckChecksum(checksum, $"{path}.checksum", book);
        if (frame.Clock is { } clock)
        {
            Place($"{path}.clock.offset", clock.Offset, book);
            book.Between($"{path}.clock.width", clock.Width, 1, 4, "bytes");
            book.OneOf($"{path}.clock.endianness", clock.Endianness, Ends);
            book.Between($"{path}.clock.milliseconds", clock.Milliseconds, 0.001m, 60_000m, "ms");
        }
    }

    private static void CheckUnits(FrameUnitsOptions units, string role, string path, RuleBook book)
    {
        Place($"{path}.offset", units.Offset, book);
        Mask($"{path}.mask", units.Mask, book);
        if (units.Table.Count == 0)
            book.Add($"{path}.table", null, "missing: which bits mean which unit, as in [ { \"byte\": \"00\", \"unit\": \"g\" } ].");
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < units.Table.Count; i++)
        {
            var row = units.Table[i];
            if (!OneByte().IsMatch(row.Byte))
                book.Add($"{path}.table[{i}].byte", row.Byte, "must be two hexadecimal digits.");
            else if (!seen.Add(row.Byte))
                book.Add($"{path}.table[{i}].byte", row.Byte, "stands twice.");
            book.OneOf($"{path}.table[{i}].unit", row.Unit, UnitsOf(role));
        }
    }

    private static void CheckChecksum(FrameChecksumOptions checksum, string path, RuleBook book)
    {
        book.OneOf($"{path}.kind", checksum.Kind, ["sum", "xor", "crc8", "crc16"]);
        Place($"{path}.at", checksum.At ?? 0, book);
        Place($"{path}.from", checksum.From, book);
        Place($"{path}.through", checksum.Through ?? 0, book);
        book.OneOf($"{path}.bits", checksum.Bits, ["normal", "reflected"]);
        book.OneOf($"{path}.endianness", checksum.Endianness, Ends);
        foreach (var (key, value) in new[] { ("polynomial", checksum.Polynomial), ("initial", checksum.Initial), ("xorOut", checksum.XorOut) })
        {
            if (!Word().IsMatch(value))
                book.Add($"{path}.{key}", value, "must be one to four hexadecimal digits.");
        }
    }

    private static bool HasLines(DeviceOptions device) =>
        device.Dialect is "text" or "line" or "transponder" || Protocol.Scales.ScaleDialects.Names.Contains(device.Dialect, StringComparer.Ordinal);

    private static string[] UnitsOf(string role) => role == "probe" ? ["C", "F"] : ["g", "kg", "mg", "oz", "lb"];

    private static void Place(string path, int offset, RuleBook book) => book.Between(path, offset, -FarthestPlace - 1, FarthestPlace, "");

    private static void Mask(string path, string mask, RuleBook book)
    {
        if (!OneByte().IsMatch(mask) || FrameDescriptions.Hex(mask) == 0)
            book.Add(path, mask, "must be two hexadecimal digits with a bit set, such as 80.");
    }

    private static void Uuid(string path, string? uuid, RuleBook book)
    {
        if (uuid is not null && !UuidForm().IsMatch(uuid))
            book.Add(path, uuid, "must be a UUID: four hexadecimal digits such as fff1, or all 36 characters.");
    }

    private static void Bytes(string path, string? bytes, RuleBook book)
    {
        if (bytes is not null && !BytesForm().IsMatch(bytes))
            book.Add(path, bytes, "must be pairs of hexadecimal digits without blanks, at least one and at most 244 of them.");
    }

    [GeneratedRegex(@"\A[0-9A-Fa-f]{2}\z", RegexOptions.CultureInvariant)]
    private static partial Regex OneByte();

    [GeneratedRegex(@"\A[0-9A-Fa-f]{1,4}\z", RegexOptions.CultureInvariant)]
    private static partial Regex Word();

    [GeneratedRegex(@"\A([0-9A-Fa-f]{2}){1,244}\z", RegexOptions.CultureInvariant)]
    internal static partial Regex BytesForm();

    [GeneratedRegex(@"\A([0-9A-Fa-f]{4}|[0-9A-Fa-f]{8}(-[0-9A-Fa-f]{4}){3}-[0-9A-Fa-f]{12})\z", RegexOptions.CultureInvariant)]
    private static partial Regex UuidForm();
}
