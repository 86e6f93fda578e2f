using System.Text;

namespace CaptureAgent.Agent.Trace;

/// <summary>What a device asks of a person before it can be paired, as its record carries it: a word and a number in ASCII.</summary>
/// <param name="Number">Six digits, or a PIN.</param>
/// <param name="IsToBeConfirmed">The device shows the number, too, and a person says whether it is the same; else it is to be entered on the device.</param>
internal sealed record PairingQuestion(string Number, bool IsToBeConfirmed)
{
    /// <summary>The source of such a record; no UUID can be it.</summary>
    public const string Source = "pairing";

    private const string ConfirmWord = "confirm ", DisplayWord = "display ";

    public static PairingQuestion Confirm(string number) => new(number, true);

    public static PairingQuestion Display(string number) => new(number, false);

    /// <summary>Null if these bytes are none.</summary>
    public static PairingQuestion? Read(ReadOnlySpan<byte> bytes)
    {
        var text = Encoding.ASCII.GetString(bytes);
        return text.StartsWith(ConfirmWord, StringComparison.Ordinal) ? Confirm(text[ConfirmWord.Length..])
            : text.StartsWith(DisplayWord, StringComparison.Ordinal) ? Display(text[DisplayWord.Length..])
            : null;
    }

    public byte[] ToBytes() => Encoding.ASCII.GetBytes((IsToBeConfirmed ? ConfirmWord : DisplayWord) + Number);
}
