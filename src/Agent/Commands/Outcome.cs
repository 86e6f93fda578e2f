using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Labels;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using CaptureAgent.Store.Csv;

namespace CaptureAgent.Agent.Commands;

/// <summary>Turns whatever ended a command into an exit code and words for a person: what, where, what to do; never a stack trace unless asked for.</summary>
internal static class Outcome
{
    public static async Task<int> OfAsync(Func<Task<int>> command, TextWriter error, bool verbose)
    {
        try
        {
            return await command();
        }
#pragma warning disable CA1031 // The outermost place: what is not caught here is a stack trace to a keeper.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            var (code, text) = Judge(failure);
            await error.WriteLineAsync($"capture-agent: {text}");
            if (verbose)
                await error.WriteLineAsync(failure.ToString());
            return code;
        }
    }

    private static (int Code, string Text) Judge(Exception failure) => failure switch
    {
        ConfigurationException or TraceException or InputException or LabelException => (ExitCode.WrongInput, failure.Message),
        UnusableException => (ExitCode.Unusable, failure.Message),
        ImportException import => (ExitCode.WrongInput, $"{import.Message} {import.Remedy}"),
        StoreException store => (ExitCode.Unusable, $"{store.Message} {store.Remedy}"),
        _ => (ExitCode.OurFault, $"a fault of the program: {failure.Message} Run it again with --verbose for the details, and report them."),
    };
}
