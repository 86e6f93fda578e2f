using System.Text;

namespace CaptureAgent.Agent.Commands;

/// <summary>What a command has around it; a test gives its own.</summary>
/// <param name="Output">Standard output: events, tables, exports.</param>
/// <param name="Error">Standard error: everything that is said to a person about the run.</param>
internal sealed record Surroundings(Stream Output, TextWriter Error, string WorkingDirectory, TimeProvider Time)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>What a person types; nothing, unless it is the process's own.</summary>
    public TextReader Input { get; init; } = TextReader.Null;

    public static Surroundings OfProcess() =>
        new(Console.OpenStandardOutput(), Console.Error, Directory.GetCurrentDirectory(), TimeProvider.System) { Input = Console.In };

    /// <summary>A writer for text on standard output; dispose it to have all of it written.</summary>
    public StreamWriter TextOutput() => new(Output, Utf8, bufferSize: -1, leaveOpen: true);

    public string FullPath(string path) => Path.GetFullPath(path, WorkingDirectory);
}
