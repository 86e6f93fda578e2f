using System.Globalization;
using System.Text;
using System.Text.Json;
using CaptureAgent.Agent.Commands;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Protocol.FrameFinding;
using CaptureAgent.Protocol.Frames;

namespace CaptureAgent.Agent.FrameFinding;

/// <summary>What the finder found: the candidates, and the description of the best one as it goes into station.json.</summary>
internal static class FrameReport
{
    private const int MostShown = 5;

    private static readonly JsonWriterOptions Indented = new() { Indented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Text(DeviceOptions device, IReadOnlyList<FrameCandidate> candidates)
    {
        if (candidates.Count == 0)
        {
            return $"""
                Nothing in the frames follows what is known. Did every load lie still while it was told, and were the masses far enough apart? Is the scale set to grams?
                A device that sends its value encrypted, or only to its own program, cannot be described.

                """;
        }

        var isProbe = device.Role == "probe";
        var table = new TextTable("", "source", ">length", ">offset", ">width", "endianness", "sign", ">factor", "unit", isProbe ? ">worst error °C" : ">worst error g");
        for (var i = 0; i < Math.Min(candidates.Count, MostShown); i++)
        {
            var one = candidates[i];
            table.Add(
                string.Create(CultureInfo.InvariantCulture, $"{i + 1}"), one.Source, Number(one.Length), Number(one.Field.Offset), Number(one.Field.Width),
                one.Field.Width == 1 ? "-" : Ends(one.Field.IsBigEndian), Sign(one.Field), Number(one.Factor), one.Unit, Number(Math.Round(one.WorstError, 4)));
        }

        return $"""
            {table}
            The first of them as a description, for '{device.Id}' in station.json, with the frames that prove it:

            "frame": {Json(device, candidates[0])}

            {(isProbe ? "It is used" : "It is used for a scale")} only while it reads these frames right. Look at the other candidates if a value is wrong later; then run this again with other {(isProbe ? "temperatures" : "masses")}.

            """;
    }

    public static string Json(DeviceOptions device, FrameCandidate best)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Indented))
        {
            json.WriteStartObject();
            if (device.Frame?.Service is { } service)
                json.WriteString("service", service);
            if (best.Source is { } source and not "hid")
                json.WriteString("characteristic", source);
            if (device.Frame?.Start is { } start)
                json.WriteString("start", start);
            if (device.Frame?.StartCharacteristic is { } where)
                json.WriteString("startCharacteristic", where);
            json.WriteNumber("minLength", best.Length);
            if (best.Begins is { } begins)
                json.WriteString("begins", Hex(begins));
            Value(json, best);
            if (best.Stable is { } stable)
                Stable(json, stable);
            if (best.Checksum is { } checksum)
                Checksum(json, checksum);
            if (best.Clock is { } clock)
                Clock(json, clock);
            Proof(json, best);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static void Value(Utf8JsonWriter json, FrameCandidate best)
    {
        json.WriteStartObject("value");
        json.WriteNumber("offset", best.Field.Offset);
        json.WriteNumber("width", best.Field.Width);
        json.WriteString("endianness", Ends(best.Field.IsBigEndian));
        json.WriteString("sign", Sign(best.Field));
        json.WriteNumber("factor", best.Factor);
        json.WriteString("unit", best.Unit);
        json.WriteEndObject();
    }

    private static void Stable(Utf8JsonWriter json, FrameBit stable)
    {
        json.WriteStartObject("stable");
        json.WriteNumber("offset", stable.Offset);
        json.WriteString("mask", Hex(stable.Mask));
        json.WriteString("set", stable.SetMeansStable ? "stable" : "moving");
        json.WriteEndObject();
    }

    private static void Checksum(Utf8JsonWriter json, FrameChecksum checksum)
    {
        json.WriteStartObject("checksum");
        json.WriteString("kind", checksum.Kind switch { ChecksumKind.Xor => "xor", ChecksumKind.Crc8 => "crc8", ChecksumKind.Crc16 => "crc16", _ => "sum" });
        json.WriteNumber("from", checksum.From);
        if (checksum.Kind is ChecksumKind.Crc8 or ChecksumKind.Crc16)
        {
            json.WriteString("polynomial", checksum.Polynomial.ToString("x", CultureInfo.InvariantCulture));
            json.WriteString("bits", checksum.IsReflected ? "reflected" : "normal");
        }

        json.WriteString("initial", checksum.Initial.ToString("x", CultureInfo.InvariantCulture));
        json.WriteString("xorOut", checksum.XorOut.ToString("x", CultureInfo.InvariantCulture));
        if (checksum.Width == 2)
            json.WriteString("endianness", Ends(checksum.IsBigEndian));
        json.WriteEndObject();
    }

    private static void Clock(Utf8JsonWriter json, FrameClock clock)
    {
        json.WriteStartObject("clock");
        json.WriteNumber("offset", clock.Field.Offset);
        json.WriteNumber("width", clock.Field.Width);
        json.WriteNumber("milliseconds", clock.Milliseconds);
        json.WriteEndObject();
    }

    private static void Proof(Utf8JsonWriter json, FrameCandidate best)
    {
        json.WriteStartArray("proof");
        foreach (var (known, frame) in best.Proof)
        {
            json.WriteStartObject();
            json.WriteNumber("known", known);
            json.WriteString("frame", Convert.ToHexStringLower(frame.Span));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static string Ends(bool isBigEndian) => isBigEndian ? "big" : "little";

    private static string Sign(FrameField field) => field.Sign == FrameSign.TwosComplement ? "twos-complement" : "none";

    private static string Hex(byte one) => one.ToString("x2", CultureInfo.InvariantCulture);

    private static string Number(decimal number) => number.ToString(CultureInfo.InvariantCulture);
}
