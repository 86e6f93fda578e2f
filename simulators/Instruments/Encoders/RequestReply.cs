using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Instruments.Encoders;

/// <summary>A scale that answers: <c>SI</c> at once, <c>S</c> when stable, <c>Z</c> zero, <c>T</c> tare, each with CR LF.</summary>
/// <remarks>Answers: <c>S S</c> stable, <c>S D</c> moving, <c>S +</c> over, <c>S -</c> under, <c>S I</c> not now, <c>ES</c> not understood. From memory of the public shape.</remarks>
public sealed class RequestReply : IScaleEncoder
{
    private readonly LineAssembler commands = new();

    public bool TalksUnasked => false;

    public string Encode(ScaleSample sample) => sample.Range switch
    {
        ShownRange.Over => "S +\r\n",
        ShownRange.Under => "S -\r\n",
        _ => $"S {(sample.Stable is false ? 'D' : 'S')} {Digits.Signed(sample.Value, 10)} {Digits.UnitOf(sample.Unit)}\r\n",
    };

    /// <summary>Answers every whole command in the bytes; half a command is kept.</summary>
    /// <param name="bytes">As they came.</param>
    /// <param name="latest">The newest reading; null while there is none.</param>
    /// <param name="scale">Whose keys the commands press.</param>
    public string Answer(ReadOnlySpan<byte> bytes, ScaleSample? latest, GramScale scale)
    {
        var answer = "";
        foreach (var command in commands.Take(bytes))
            answer += Answer(command.Trim(), latest, scale);
        return answer;
    }

    private string Answer(string command, ScaleSample? latest, GramScale scale)
    {
        switch (command)
        {
            case "":
                return "";
            case "SI":
                return latest is { } now ? Encode(now) : "S I\r\n";
            case "S":
                return latest is { Stable: not false } stable ? Encode(stable) : "S I\r\n";
            case "Z":
                scale.PressZero();
                return "Z A\r\n";
            case "T":
                scale.PressTare();
                return latest is { Stable: not false } tared ? $"T S {Digits.Signed(tared.Value, 10)} {Digits.UnitOf(tared.Unit)}\r\n" : "T I\r\n";
            default:
                return "ES\r\n";
        }
    }
}
