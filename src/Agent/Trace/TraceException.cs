namespace CaptureAgent.Agent.Trace;

/// <summary>A trace file cannot be read or written.</summary>
/// <param name="line">Counted from 1; 0: the file as a whole.</param>
internal sealed class TraceException(string file, long line, string problem)
    : Exception(line == 0 ? $"{file}: {problem}" : $"{file}, line {line}: {problem}")
{
    public long Line { get; } = line;
}
