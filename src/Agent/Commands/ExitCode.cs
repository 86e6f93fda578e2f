namespace CaptureAgent.Agent.Commands;

/// <summary>The exit codes of every command.</summary>
internal static class ExitCode
{
    public const int Done = 0;

    /// <summary>A fault of the program.</summary>
    public const int OurFault = 1;

    /// <summary>The command line, the configuration or an input file is wrong.</summary>
    public const int WrongInput = 2;

    /// <summary>A device (<c>check</c>) or the store cannot be used.</summary>
    public const int Unusable = 3;
}

/// <summary>What the user gave cannot be used.</summary>
internal sealed class InputException(string message) : Exception(message);

/// <summary>A device cannot be used.</summary>
internal sealed class UnusableException(string message) : Exception(message);
