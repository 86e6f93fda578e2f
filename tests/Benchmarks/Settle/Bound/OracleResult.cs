namespace CaptureAgent.Benchmarks.Settle.Bound;

/// <summary>What the oracle knew.</summary>
/// <param name="Stop">Its own decision; null where the hands came back before it was sure.</param>
/// <param name="Cautious">The same with <see cref="Oracle.CautiousMargin"/>.</param>
/// <param name="Whole">Its value from all of the time the hands were off.</param>
/// <param name="Grams">Its value at each method's moment of decision, in the order of <see cref="Methods"/>; not a number where the method decided nothing or the oracle had nothing.</param>
/// <param name="Course">Its value at each of <see cref="Oracle.CourseSeconds"/> after the release; not a number once the hands were back.</param>
internal sealed record OracleResult(Answer? Stop, Answer? Cautious, double Whole, IReadOnlyList<double> Grams, IReadOnlyList<double> Course);
