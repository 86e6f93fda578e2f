namespace CaptureAgent.Agent.Growth.Fitting;

/// <summary>A function of one variable with parameters that <see cref="LeastSquares"/> can fit.</summary>
internal interface ICurve
{
    /// <summary>How many parameters; at most <see cref="LeastSquares.MostParameters"/>.</summary>
    int Parameters { get; }

    /// <summary>The value at x, and its derivative by each parameter.</summary>
    /// <returns>Not a number where the curve is not defined: a step that leads there is not taken.</returns>
    double Value(double x, ReadOnlySpan<double> parameters, Span<double> gradient);
}
