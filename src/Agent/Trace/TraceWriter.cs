using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace CaptureAgent.Agent.Trace;

/// <summary>Writes what the devices did as a trace, so that <see cref="TraceReader"/> gives the same records again.</summary>
/// <remarks>Records are collected until <see cref="Flush"/>, which the owner calls when it has no more at hand. Owns the stream.</remarks>
internal sealed class TraceWriter(Stream stream) : IDisposable
{
    /// <summary>As fine as a trace keeps time; the core is given no finer one, so that a replay decides the same.</summary>
    public const long TicksPerStep = TimeSpan.TicksPerMicrosecond;

    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, SkipValidation = true };

    private readonly ArrayBufferWriter<byte> lines = new(4096);

    /// <summary>Creates the file. A trace is one run of the agent: what is in a file already is never overwritten or added to.</summary>
    /// <exception cref="TraceException">The file holds something, or cannot be written.</exception>
    public static TraceWriter Create(string path)
    {
        try
        {
            var stream = new FileStream(path, FileMode.OpenOrCreate, FileAccess.Write, FileShare.Read, bufferSize: 0);
            if (stream.CanSeek && stream.Length > 0)
            {
                stream.Dispose();
                throw new TraceException(path, 0, "the file is there and not empty; a recording is never overwritten. Give --record another name.");
            }

            return new TraceWriter(stream);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new TraceException(path, 0, $"the recording cannot be written: {failure.Message}");
        }
    }

    public void Write(TraceRecord record)
    {
        using (var json = new Utf8JsonWriter(lines, Options))
        {
            json.WriteStartObject();
            json.WriteString("at"u8, record.At.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture));
            json.WriteString("device"u8, record.Device);
            if (record.Link is { } link)
            {
                json.WriteString("link"u8, link is LinkChange.Up ? "up"u8 : "down"u8);
                if (record.Detail is not null)
                    json.WriteString("detail"u8, record.Detail);
                if (record.Cause is not null)
                    json.WriteString("cause"u8, record.Cause);
            }
            else if (record.Source is null)
            {
                json.WriteString("text"u8, Encoding.Latin1.GetString(record.Bytes.Span));
            }
            else
            {
                json.WriteString("source"u8, record.Source);
                json.WriteString("hex"u8, Convert.ToHexStringLower(record.Bytes.Span));
            }

            json.WriteEndObject();
        }

        lines.Write("\n"u8);
    }

    /// <summary>Hands everything to the operating system, whole lines in one piece.</summary>
    /// <exception cref="IOException">The disk is full or gone.</exception>
    public void Flush()
    {
        if (lines.WrittenCount == 0)
            return;

        stream.Write(lines.WrittenSpan);
        stream.Flush();
        lines.ResetWrittenCount();
    }

    /// <summary>Closes the file without writing what is not flushed.</summary>
    public void Dispose() => stream.Dispose();
}
