namespace CaptureAgent.Agent.Tests.Growth.Data;

/// <summary>A table of this folder; lines that start with '#' tell its source.</summary>
internal static class DataFile
{
    /// <returns>The cells of each row, by the names of the header.</returns>
    public static IEnumerable<Dictionary<string, string>> Rows(string name)
    {
        using var reader = new StreamReader(typeof(DataFile).Assembly.GetManifestResourceStream(name)!);
        string[]? header = null;
        while (reader.ReadLine() is { } line)
        {
            if (line.StartsWith('#'))
                continue;
            var cells = line.Split(',');
            if (header is null)
                header = cells;
            else
                yield return header.Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second);
        }
    }
}
