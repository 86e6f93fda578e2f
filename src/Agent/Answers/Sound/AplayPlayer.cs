using System.ComponentModel;
using System.Diagnostics;

namespace CaptureAgent.Agent.Answers.Sound;

/// <summary>Plays through ALSA's <c>aplay</c>: one process a sound, started beforehand, that has opened the device and waits for its input.</summary>
/// <remarks>
/// One for all sounds would have to be fed with silence, or run dry between two; one that is started for each tone opens the device
/// while the keeper waits. One that hangs is ended, and costs its own sound only. For one thread at a time.
/// </remarks>
/// <param name="device">The PCM's name; <c>default</c> is the system's own.</param>
internal sealed class AplayPlayer(string device, TimeProvider time, string program = "aplay") : IPlayer
{
    /// <summary>How much longer than its sound a process may take.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private Process? ready;

    public void Prepare()
    {
        try
        {
            ready ??= Start();
        }
        catch (PlayerException)
        {
            // Said when a sound is to be played.
        }
    }

    public async Task PlayAsync(ReadOnlyMemory<byte> wave, TimeSpan length, CancellationToken cut)
    {
        using var process = Take();
        using var late = new CancellationTokenSource(length + Patience, time);
        await using var ending = cut.Register(() => End(process));
        await using var hanging = late.Token.Register(() => End(process));
        var refused = false;
        try
        {
            await process.StandardInput.BaseStream.WriteAsync(wave, CancellationToken.None);
            process.StandardInput.Close();
        }
        catch (IOException)
        {
            refused = true;
        }

        await process.WaitForExitAsync(CancellationToken.None);
        if (cut.IsCancellationRequested)
            return;
        if (late.IsCancellationRequested)
            throw new PlayerException($"{program} did not end; it was stopped. Is another program holding the loudspeaker? `{program} -D {device} FILE.wav` shows.");
        if (refused || process.ExitCode != 0)
            throw new PlayerException($"{program} cannot play on '{device}': {await Words(process)}. `{program} -L` lists the devices; write one as answers.device into station.json.");
    }

    public async ValueTask DisposeAsync()
    {
        if (ready is null)
            return;
        End(ready);
        await ready.WaitForExitAsync();
        ready.Dispose();
        ready = null;
    }

    private Process Take()
    {
        var taken = ready;
        ready = null;
        if (taken is { HasExited: false })
            return taken;
        // The device may have been gone while it waited.
        taken?.Dispose();
        return Start();
    }

    private Process Start()
    {
        try
        {
            var process = new Process { StartInfo = new ProcessStartInfo(program, ["-q", "-D", device, "-t", "wav", "-"]) { RedirectStandardInput = true, RedirectStandardError = true, RedirectStandardOutput = true } };
            process.Start();
            return process;
        }
        catch (Win32Exception missing)
        {
            throw new PlayerException($"{program} cannot be started ({missing.Message}). Install it: apt install alsa-utils.");
        }
    }

    private static void End(Process process)
    {
        try
        {
            process.Kill(entireProcessTree: true);
        }
        catch (Exception gone) when (gone is InvalidOperationException or Win32Exception or NotSupportedException)
        {
            // It has ended by itself.
        }
    }

    private static async Task<string> Words(Process process)
    {
        var words = (await process.StandardError.ReadToEndAsync()).Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return words.Length == 0 ? $"exit code {process.ExitCode}" : words[^1];
    }
}
