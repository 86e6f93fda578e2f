namespace CaptureAgent.Agent.Answers.Sound;

internal static class Programs
{
    /// <summary>A program of that name lies in one of PATH's folders.</summary>
    public static bool IsInstalled(string program) => (Environment.GetEnvironmentVariable("PATH") ?? "")
        .Split(':', StringSplitOptions.RemoveEmptyEntries)
        .Any(folder => File.Exists(Path.Combine(folder, program)));
}
