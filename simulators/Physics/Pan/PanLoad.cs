using CaptureAgent.Simulators.Physics.Chicks;

namespace CaptureAgent.Simulators.Physics.Pan;

/// <summary>Something that can lie on the pan: a towel, a tub, a chick. It starts in the hand.</summary>
/// <param name="Id">Named by the actions.</param>
/// <param name="Grams">Its mass.</param>
/// <param name="Temperament">Null for what does not live.</param>
public sealed record PanLoad(string Id, double Grams, Temperament? Temperament = null);
