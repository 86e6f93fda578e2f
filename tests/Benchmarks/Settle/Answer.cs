namespace CaptureAgent.Benchmarks.Settle;

/// <summary>An accepted weight.</summary>
/// <param name="At">Seconds of the placing's script; when it was said, not when the reading was taken.</param>
/// <param name="Grams">Net.</param>
/// <param name="Uncertainty">Standard uncertainty in grams; not a number where none was given.</param>
internal readonly record struct Answer(double At, double Grams, double Uncertainty);
