using System.Threading.Channels;
using CaptureAgent.Agent.Links.Devices;
using CaptureAgent.Agent.Links.Serial;

namespace CaptureAgent.Agent.Tests.Links;

/// <summary>Notes the settings that a port was opened with, and passes them on to the real port.</summary>
internal sealed class RecordingPortControl : ISerialPortControl
{
    private readonly SerialPortControl real = new();

    private readonly Channel<SerialSettings> applied = Channel.CreateUnbounded<SerialSettings>();

    public IReadOnlyList<string> SetUp(CharacterDevice port, SerialSettings settings)
    {
        var ignored = real.SetUp(port, settings);
        applied.Writer.TryWrite(settings);
        return ignored;
    }

    public void Discard(CharacterDevice port) => real.Discard(port);

    /// <summary>The settings of the next port that is set up.</summary>
    public ValueTask<SerialSettings> NextAsync(CancellationToken cancellationToken) => applied.Reader.ReadAsync(cancellationToken);
}
