using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Weighing;

/// <summary>One reading as the weighing sees it.</summary>
/// <param name="Seconds">On the station's time axis, rising.</param>
/// <param name="IsLate">It came long after it was sent, in a lump with others: what lies between its neighbours is no stillness.</param>
/// <param name="Grams">Exactly what was shown, converted; means nothing unless <paramref name="Range"/> is within.</param>
internal readonly record struct PanSample(double Seconds, decimal Grams, LoadRange Range, Stability Stability, WeightMark Mark, bool IsLate = false);
