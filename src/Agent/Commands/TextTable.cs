using System.Text;

namespace CaptureAgent.Agent.Commands;

/// <summary>A plain table for a terminal: a header, columns two blanks apart.</summary>
/// <param name="columns">A title that starts with '&gt;' makes a column of numbers, set to the right.</param>
internal sealed class TextTable(params string[] columns)
{
    private readonly List<string[]> rows = [[.. columns.Select(column => column.TrimStart('>'))]];

    public void Add(params string?[] cells) => rows.Add([.. cells.Select(cell => cell ?? "")]);

    public override string ToString()
    {
        var widths = columns.Select((_, i) => rows.Max(row => row[i].Length)).ToArray();
        var text = new StringBuilder();
        foreach (var row in rows)
        {
            var line = string.Join("  ", row.Select((cell, i) => columns[i].StartsWith('>') ? cell.PadLeft(widths[i]) : cell.PadRight(widths[i])));
            text.Append(line.TrimEnd()).Append('\n');
        }

        return text.ToString();
    }
}
