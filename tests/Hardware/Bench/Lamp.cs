using System.Globalization;

namespace CaptureAgent.Hardware.Bench;

/// <summary>The lamp on the board's lines: what a keeper would have seen.</summary>
internal sealed class Lamp(GpioBoard board)
{
    public const int Green = 0, Yellow = 1, Red = 2;

    /// <summary>An accepted weight: the code was heard (yellow, once), then green alone for about two seconds, and then dark.</summary>
    public async Task CheckAcceptedAsync(DateTime from)
    {
        for (var turn = 0; turn < 60 && Lit(from, Green) is not { Off: not null }; turn++)
            await Task.Delay(100);
        var told = string.Join(", ", board.Changes.Where(change => change.At >= from).Select(change =>
            string.Create(CultureInfo.InvariantCulture, $"{(change.At - from).TotalSeconds:0.00} s line {change.Line} {(change.IsHigh ? "on" : "off")}")));
        if (Lit(from, Yellow) is not { Off: not null } heard || Lit(from, Green) is not { Off: { } dark } green || Lit(from, Red) is not null)
            throw new InvalidOperationException($"not heard and accepted: {told}");
        var seconds = (dark - green.On).TotalSeconds;
        if (heard.On > green.On || seconds is < 1.5 or > 4)
            throw new InvalidOperationException($"green for {seconds} s: {told}");
    }

    private (DateTime On, DateTime? Off)? Lit(DateTime from, int line)
    {
        var of = board.Changes.Where(change => change.At >= from && change.Line == line).ToList();
        var on = of.FindIndex(change => change.IsHigh);
        return on < 0 ? null : (of[on].At, of.Skip(on).FirstOrDefault(change => !change.IsHigh) is { Line: var found, At: var at } && at != default && found == line ? at : null);
    }
}
