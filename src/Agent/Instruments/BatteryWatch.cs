using CaptureAgent.Agent.Events;

namespace CaptureAgent.Agent.Instruments;

/// <summary>Says once that a battery is low, and again only after it has been changed or charged.</summary>
/// <param name="warnPercent">0: never.</param>
internal sealed class BatteryWatch(string device, int warnPercent)
{
    /// <summary>A level wavers by a few per cent with the load and the cold.</summary>
    private const int Recovered = 5;

    private bool warned;

    public void Take(DateTimeOffset at, int percent, List<StationEvent> events)
    {
        if (percent > warnPercent + Recovered)
            warned = false;
        if (warned || warnPercent == 0 || percent > warnPercent)
            return;
        warned = true;
        events.Add(new AlertEvent(at, "battery-low", null, device, FormattableString.Invariant(
            $"The battery of '{device}' is at {percent} %: change or charge it after this round, and have a spare at hand.")));
    }
}
