using System.Globalization;
using System.Text;
using System.Text.Json;

namespace CaptureAgent.Agent.Trace;

/// <summary>Reads one line of a trace. Unknown keys are passed over, so that a later version may add some.</summary>
internal sealed class TraceLine(IReadOnlyList<string> devices)
{
    private readonly byte[][] names = [.. devices.Select(Encoding.UTF8.GetBytes)];

    private DateTimeOffset? at;
    private string? device;
    private byte[]? text;
    private byte[]? hex;
    private string? source;
    private LinkChange? link;
    private string? detail;
    private string? cause;

    /// <summary>What a line turned out to be.</summary>
    internal enum Outcome
    {
        Record,

        /// <summary>Right as far as it goes, but it ends too early.</summary>
        Cut,
        Broken,
    }

    /// <param name="line">Without its ending.</param>
    /// <param name="record">Set where the outcome is a record.</param>
    /// <param name="problem">Set where the line is broken.</param>
    public Outcome Read(ReadOnlySpan<byte> line, out TraceRecord? record, out string problem)
    {
        (at, device, text, hex, source, link, detail, cause) = (null, null, null, null, null, null, null, null);
        (record, problem) = (null, "");
        try
        {
            var reader = new Utf8JsonReader(line, isFinalBlock: false, state: default);
            if (!ReadObject(ref reader))
                return Outcome.Cut;
            if (!IsBlank(line[(int)reader.BytesConsumed..]))
                throw new FormatException("more than one JSON object on the line.");
            record = Build();
            return Outcome.Record;
        }
        catch (Exception failure) when (failure is JsonException or InvalidOperationException)
        {
            problem = "not a JSON object as a trace has it.";
        }
        catch (FormatException failure)
        {
            problem = failure.Message;
        }

        return Outcome.Broken;
    }

    private bool ReadObject(ref Utf8JsonReader reader)
    {
        if (!reader.Read())
            return false;
        if (reader.TokenType is not JsonTokenType.StartObject)
            throw new FormatException("not a JSON object as a trace has it.");

        while (reader.Read())
        {
            if (reader.TokenType is JsonTokenType.EndObject)
                return true;
            if (!ReadKey(ref reader))
                return false;
        }

        return false;
    }

    private bool ReadKey(ref Utf8JsonReader reader)
    {
        var key = reader.ValueTextEquals("at"u8) ? 'a'
            : reader.ValueTextEquals("device"u8) ? 'd'
            : reader.ValueTextEquals("text"u8) ? 't'
            : reader.ValueTextEquals("hex"u8) ? 'h'
            : reader.ValueTextEquals("source"u8) ? 's'
            : reader.ValueTextEquals("link"u8) ? 'l'
            : reader.ValueTextEquals("detail"u8) ? 'e'
            : reader.ValueTextEquals("cause"u8) ? 'c' : ' ';
        if (key == ' ')
            return reader.Read() && reader.TrySkip();
        if (!reader.Read())
            return false;
        if (reader.TokenType is JsonTokenType.Null)
            return true;

        switch (key)
        {
            case 'a': at = Moment(ref reader); break;
            case 'd': device = Known(ref reader); break;
            case 't': text = Latin1(ref reader); break;
            case 'h': hex = Hex(ref reader); break;
            case 's': source = reader.GetString(); break;
            case 'l': link = Change(ref reader); break;
            case 'c': cause = reader.GetString(); break;
            default: detail = reader.GetString(); break;
        }

        return true;
    }

    private TraceRecord Build()
    {
        if (at is not { } moment)
            throw new FormatException("'at' is missing.");
        if (device is null)
            throw new FormatException("'device' is missing.");
        if ((text is null ? 0 : 1) + (hex is null ? 0 : 1) + (link is null ? 0 : 1) != 1)
            throw new FormatException("a record has exactly one of 'text', 'hex' and 'link'.");
        if (source is not null && hex is null)
            throw new FormatException("'source' belongs to 'hex'.");

        return new TraceRecord(moment, device, text ?? hex ?? [], source, link, detail, cause);
    }

    // A moment without a zone would be taken for local time; only UTC is allowed.
    private static DateTimeOffset Moment(ref Utf8JsonReader reader) =>
        reader.TokenType is JsonTokenType.String && reader.ValueSpan is [.., (byte)'Z'] && reader.TryGetDateTimeOffset(out var moment)
            ? moment
            : throw new FormatException("'at' must be a moment in UTC, such as 2026-03-02T05:41:10.125Z.");

    private string Known(ref Utf8JsonReader reader)
    {
        for (var i = 0; i < names.Length; i++)
        {
            if (reader.ValueTextEquals(names[i]))
                return devices[i];
        }

        var known = devices.Count == 0 ? "it has none" : $"it has {string.Join(", ", devices)}";
        throw new FormatException($"station.json has no device '{reader.GetString()}'; {known}.");
    }

    private static byte[] Latin1(ref Utf8JsonReader reader)
    {
        if (reader.TokenType is JsonTokenType.String && !reader.ValueIsEscaped && System.Text.Ascii.IsValid(reader.ValueSpan))
            return reader.ValueSpan.ToArray();

        var characters = reader.GetString()!;
        var bytes = new byte[characters.Length];
        for (var i = 0; i < bytes.Length; i++)
        {
            bytes[i] = characters[i] <= 0xFF
                ? (byte)characters[i]
                : throw new FormatException($"'text' has a character above U+00FF ('{characters[i]}'), which is no byte; bytes stand as Latin-1.");
        }

        return bytes;
    }

    private static byte[] Hex(ref Utf8JsonReader reader)
    {
        try
        {
            return Convert.FromHexString(reader.GetString()!);
        }
        catch (FormatException)
        {
            throw new FormatException("'hex' must be pairs of hexadecimal digits without blanks.");
        }
    }

    private static LinkChange Change(ref Utf8JsonReader reader) =>
        reader.ValueTextEquals("up"u8) ? LinkChange.Up
        : reader.ValueTextEquals("down"u8) ? LinkChange.Down
        : throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"'link' must be \"up\" or \"down\", not \"{reader.GetString()}\"."));

    private static bool IsBlank(ReadOnlySpan<byte> rest) => rest.Trim(" \t\r\n"u8).IsEmpty;
}
