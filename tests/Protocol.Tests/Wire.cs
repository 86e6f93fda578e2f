using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Protocol.Tests;

/// <summary>Bytes for tests, written as Latin-1 text.</summary>
internal static class Wire
{
    public static byte[] Bytes(string text) => System.Text.Encoding.Latin1.GetBytes(text);

    public static string Text(ReadOnlySpan<byte> bytes) => System.Text.Encoding.Latin1.GetString(bytes);

    public static (LineFault Fault, ScaleReading Reading) Read(this IScaleDecoder decoder, string line)
    {
        var fault = decoder.Decode(Bytes(line), out var reading);
        return (fault, reading);
    }

    public static (LineFault Fault, ProbeReading Reading) Read(this IProbeDecoder decoder, string line)
    {
        var fault = decoder.Decode(Bytes(line), out var reading);
        return (fault, reading);
    }

    /// <summary>Pushes each piece in turn and takes all lines.</summary>
    public static List<string> Lines(LineFramer framer, params IEnumerable<byte[]> pieces)
    {
        List<string> lines = [];
        foreach (var piece in pieces)
        {
            ReadOnlySpan<byte> rest = piece;
            while (framer.TryTakeLine(ref rest, out var line))
                lines.Add(Text(line));
        }

        return lines;
    }

    /// <summary>Cuts a stream into pieces of the lengths given, over and over; 0 gives an empty piece.</summary>
    public static List<byte[]> Cut(byte[] stream, int[] lengths)
    {
        List<byte[]> pieces = [];
        for (int at = 0, turn = 0; at < stream.Length; turn++)
        {
            // An empty piece in every round would never end.
            var length = turn < lengths.Length ? lengths[turn] : Math.Max(1, lengths[turn % lengths.Length]);
            length = Math.Min(length, stream.Length - at);
            pieces.Add(stream[at..(at + length)]);
            at += length;
        }

        return pieces;
    }
}
