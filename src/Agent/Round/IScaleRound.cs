using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

/// <summary>One pass over the chicks at one scale, as the scale's instrument, the scanner and the core's clock see it.</summary>
internal interface IScaleRound
{
    /// <summary>The next moment at which something happens by itself; null if nothing is due.</summary>
    DateTimeOffset? Due { get; }

    /// <summary>This scale has a mass to be checked with.</summary>
    bool CanCheck { get; }

    void OnSample(DateTimeOffset at, in PanSample sample, List<StationEvent> events);

    void OnLinkDown(DateTimeOffset at);

    /// <param name="grams">Scale interval d.</param>
    void SetDivision(double grams);

    /// <summary>The scale shows another unit from now on.</summary>
    void OnUnitChanged(DateTimeOffset at, List<StationEvent> events);

    /// <summary>Fires what is due at exactly this moment.</summary>
    void Fire(DateTimeOffset at, List<StationEvent> events);

    /// <summary>Gives a code to what lies here, or was just lifted from here; says what it did, or null if nothing here wants it.</summary>
    string? TryName(string code, DateTimeOffset at, List<StationEvent> events);

    /// <summary>A code that waited gets no load. True where that was said with a refusal, for what came and went meanwhile may have been its chick.</summary>
    bool Forsake((string Code, DateTimeOffset At) waited, DateTimeOffset at, List<StationEvent> events);

    /// <summary>The card says that what lies on the pan is the tare; a code that had been given to it waits again. False while nothing can be read.</summary>
    bool TareNow(DateTimeOffset at, List<StationEvent> events);
}
