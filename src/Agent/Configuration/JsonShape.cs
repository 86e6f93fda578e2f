using System.Text;
using System.Text.Json;

namespace CaptureAgent.Agent.Configuration;

/// <summary>Reads station.json as JSON alone: where it is broken, and which keys stand twice. The configuration provider says neither well.</summary>
internal static class JsonShape
{
    private static readonly JsonReaderOptions Options = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    public static IReadOnlyList<ConfigurationFault> Check(ReadOnlySpan<byte> json)
    {
        var faults = new List<ConfigurationFault>();
        var open = new Stack<Level>();
        var reader = new Utf8JsonReader(json, Options);
        try
        {
            if (reader.Read() && reader.TokenType is not JsonTokenType.StartObject)
                return [new ConfigurationFault("", null, "must be one JSON object, in { }.")];
            do
                Step(ref reader, open, faults, json);
            while (reader.Read());
        }
        catch (JsonException broken)
        {
            return [new ConfigurationFault("", null, $"not JSON at line {broken.LineNumber + 1}, column {broken.BytePositionInLine + 1}: {FirstSentence(broken)}")];
        }

        return faults;
    }

    private static void Step(ref Utf8JsonReader reader, Stack<Level> open, List<ConfigurationFault> faults, ReadOnlySpan<byte> json)
    {
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject or JsonTokenType.StartArray:
                open.Push(new Level(open.TryPeek(out var parent) ? parent.NextPath() : "", reader.TokenType is JsonTokenType.StartArray));
                break;
            case JsonTokenType.EndObject or JsonTokenType.EndArray:
                open.Pop();
                break;
            case JsonTokenType.PropertyName:
                Name(reader.GetString()!, (int)reader.TokenStartIndex, open.Peek(), faults, json);
                break;
            default:
                open.Peek().NextPath();
                break;
        }
    }

    private static void Name(string key, int index, Level level, List<ConfigurationFault> faults, ReadOnlySpan<byte> json)
    {
        level.Key = key;
        if (key.Contains(':', StringComparison.Ordinal))
            faults.Add(new ConfigurationFault(level.PathOf(key), null, $"unknown key, on line {LineOf(json, index)}: no key has a colon in its name."));
        else if (!level.Seen.Add(key))
            faults.Add(new ConfigurationFault(level.PathOf(key), null, $"stands twice, the second time on line {LineOf(json, index)}; leave one out. Capital letters make no difference."));
    }

    private static int LineOf(ReadOnlySpan<byte> json, int index) => json[..index].Count((byte)'\n') + 1;

    // The reader's messages end with its own account of the position, counted from 0.
    private static string FirstSentence(JsonException broken)
    {
        var end = broken.Message.IndexOf(" LineNumber:", StringComparison.Ordinal);
        return end < 0 ? broken.Message : broken.Message[..end];
    }

    private sealed class Level(string path, bool isList)
    {
        private int index;

        public string Key { get; set; } = "";

        public HashSet<string> Seen { get; } = new(StringComparer.OrdinalIgnoreCase);

        public string PathOf(string key) => path.Length == 0 ? key : new StringBuilder(path).Append('.').Append(key).ToString();

        /// <summary>The path of the value that begins now.</summary>
        public string NextPath() => isList ? $"{path}[{index++}]" : PathOf(Key);
    }
}
