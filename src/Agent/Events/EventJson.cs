using System.Buffers;
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace CaptureAgent.Agent.Events;

/// <summary>Writes an event as one line of NDJSON: <c>at</c> first, <c>event</c> second, what is not known as null.</summary>
internal static class EventJson
{
    /// <summary>The first line of <c>run</c>: everything is listening.</summary>
    public static ReadOnlySpan<byte> Ready => "{\"event\":\"ready\"}\n"u8;

    private static readonly JsonSerializerOptions Options = new(EventJsonContext.Default.Options)
    {
        // Plus signs and quotes in texts stay as people write them; the lines are never put into HTML.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new MomentConverter() },
        TypeInfoResolver = EventJsonContext.Default.WithAddedModifier(LeaveOutName),
    };

    private static readonly JsonWriterOptions WriterOptions = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Adds the line, with its ending.</summary>
    public static void Write(IBufferWriter<byte> output, StationEvent station)
    {
        using (var json = new Utf8JsonWriter(output, WriterOptions))
        {
            JsonSerializer.Serialize(json, station, Options.GetTypeInfo(station.GetType()));
        }

        output.Write("\n"u8);
    }

    // The name is written by the base type as "event"; the serialiser takes each type's override for a property of its own.
    private static void LeaveOutName(JsonTypeInfo type)
    {
        for (var i = type.Properties.Count - 1; i >= 0; i--)
        {
            if (type.Properties[i].Name == "name")
                type.Properties.RemoveAt(i);
        }
    }

    /// <summary>UTC with milliseconds, and as many digits more as there are.</summary>
    public static string Moment(DateTimeOffset at) =>
        at.ToUniversalTime().ToString(at.Ticks % TimeSpan.TicksPerMillisecond == 0 ? "yyyy-MM-dd'T'HH:mm:ss.fff'Z'" : "yyyy-MM-dd'T'HH:mm:ss.FFFFFFF'Z'", CultureInfo.InvariantCulture);

    private sealed class MomentConverter : JsonConverter<DateTimeOffset>
    {
        public override DateTimeOffset Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.GetDateTimeOffset();

        public override void Write(Utf8JsonWriter writer, DateTimeOffset value, JsonSerializerOptions options) =>
            writer.WriteStringValue(Moment(value));
    }
}
