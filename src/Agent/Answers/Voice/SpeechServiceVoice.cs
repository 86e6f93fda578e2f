using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using CaptureAgent.Agent.Answers.Sound;

namespace CaptureAgent.Agent.Answers.Voice;

/// <summary>Speaks through speech-dispatcher's <c>spd-say</c>, with the engine and the voice that the system was set to.</summary>
internal sealed class SpeechServiceVoice(string language, TimeProvider time, string program = "spd-say") : IVoice
{
    /// <summary>No sentence of ours takes longer.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    public async Task SayAsync(string text, int loudness, CancellationToken cut)
    {
        // Its volume goes from -100 to 100; 0 is the usual one.
        var volume = (2 * loudness - 100).ToString(CultureInfo.InvariantCulture);
        using var process = Start("--wait", "--application-name", "capture-agent", "--language", language, "--volume", volume, "--", text);
        using var late = new CancellationTokenSource(Patience, time);
        using var ends = CancellationTokenSource.CreateLinkedTokenSource(cut, late.Token);
        try
        {
            await process.WaitForExitAsync(ends.Token);
        }
        catch (OperationCanceledException)
        {
            process.Kill();
            using var stopping = Start("--stop");
            if (!cut.IsCancellationRequested)
                throw new PlayerException($"{program} did not end; it was stopped. `{program} test` shows whether the speech service runs.");
            return;
        }

        if (process.ExitCode != 0)
            throw new PlayerException($"{program} does not speak (exit code {process.ExitCode}). `{program} test` shows why; \"voice\": \"none\" in answers of station.json turns it off.");
    }

    private Process Start(params string[] arguments)
    {
        try
        {
            return Process.Start(program, arguments);
        }
        catch (Win32Exception missing)
        {
            throw new PlayerException($"{program} cannot be started ({missing.Message}). Install it: apt install speech-dispatcher.");
        }
    }
}
