using System.Runtime.CompilerServices;

namespace CaptureAgent.Benchmarks.Reporting;

/// <summary>The results of one subject, beside the source, so that they are committed with what they measured.</summary>
internal static class ResultFile
{
    /// <summary>The repository.</summary>
    public static string Root { get; } = Path.GetFullPath(Path.Combine(Here(), "..", "..", ".."));

    /// <param name="name">The subject.</param>
    /// <param name="machine">See <see cref="Machine.Describe"/>.</param>
    /// <param name="body">Markdown.</param>
    public static void Write(string name, string machine, string body)
    {
        var text = $"""
            # {name}

            Written by `dotnet run -c Release --project tests/Benchmarks -- {name}`.

            {machine}

            {body}

            """;
        var path = Path.Combine(Root, "tests", "Benchmarks", "Results", $"{name}.md");
        File.WriteAllText(path, text);
        Console.WriteLine(text);
    }

    private static string Here([CallerFilePath] string source = "") => Path.GetDirectoryName(source)!;
}
