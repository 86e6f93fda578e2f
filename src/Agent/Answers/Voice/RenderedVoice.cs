using System.Buffers.Binary;
using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using CaptureAgent.Agent.Answers.Sound;

namespace CaptureAgent.Agent.Answers.Voice;

/// <summary>Speaks through <c>espeak-ng</c>, which only makes the sound: it is played where the tones are, so that the two never quarrel over the loudspeaker.</summary>
internal sealed class RenderedVoice(string language, IPlayer player, TimeProvider time, string program = "espeak-ng") : IVoice
{
    /// <summary>Making a sentence takes a fraction of a second.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    private const int HeaderBytes = 44, RateAt = 24, DataSizeAt = 40;

    public async Task SayAsync(string text, int loudness, CancellationToken cut)
    {
        var wave = await RenderAsync(text, loudness, cut);
        if (cut.IsCancellationRequested)
            return;
        player.Prepare();
        await player.PlayAsync(wave, TimeSpan.FromSeconds((wave.Length - HeaderBytes) / 2.0 / BinaryPrimitives.ReadInt32LittleEndian(wave.AsSpan(RateAt))), cut);
    }

    /// <summary>The sentence as a RIFF file.</summary>
    /// <exception cref="PlayerException">The engine gave none.</exception>
    public async Task<byte[]> RenderAsync(string text, int loudness, CancellationToken cut)
    {
        using var process = Start(loudness);
        using var late = new CancellationTokenSource(Patience, time);
        await using var ending = cut.Register(() => Kill(process));
        await using var hanging = late.Token.Register(() => Kill(process));
        using var sound = new MemoryStream();
        try
        {
            await process.StandardInput.WriteAsync(text);
            process.StandardInput.Close();
            await process.StandardOutput.BaseStream.CopyToAsync(sound, CancellationToken.None);
        }
        catch (IOException)
        {
            // It has ended; its exit code says the rest.
        }

        await process.WaitForExitAsync(CancellationToken.None);
        var wave = sound.ToArray();
        if (!cut.IsCancellationRequested && (process.ExitCode != 0 || wave.Length <= HeaderBytes))
            throw new PlayerException($"{program} does not speak (exit code {process.ExitCode}). `{program} -v {language} test` shows why; \"voice\": \"none\" in answers of station.json turns it off.");
        // It writes while it speaks, and does not know beforehand how long it will be.
        if (wave.Length > HeaderBytes)
        {
            BinaryPrimitives.WriteInt32LittleEndian(wave.AsSpan(4), wave.Length - 8);
            BinaryPrimitives.WriteInt32LittleEndian(wave.AsSpan(DataSizeAt), wave.Length - HeaderBytes);
        }

        return wave;
    }

    private Process Start(int loudness)
    {
        try
        {
            var process = new Process
            {
                StartInfo = new ProcessStartInfo(program, ["-v", language, "-a", loudness.ToString(CultureInfo.InvariantCulture), "--stdin", "--stdout"])
                {
                    RedirectStandardInput = true,
                    RedirectStandardOutput = true,
                    StandardInputEncoding = new System.Text.UTF8Encoding(encoderShouldEmitUTF8Identifier: false),
                },
            };
            process.Start();
            return process;
        }
        catch (Win32Exception missing)
        {
            throw new PlayerException($"{program} cannot be started ({missing.Message}). Install it: apt install espeak-ng.");
        }
    }

    private static void Kill(Process process)
    {
        try
        {
            process.Kill();
        }
        catch (Exception gone) when (gone is InvalidOperationException or Win32Exception)
        {
            // It has ended by itself.
        }
    }
}
