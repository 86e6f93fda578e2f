using System.Globalization;
using System.Text;

namespace CaptureAgent.Agent.Feeding.Probes;

/// <summary>What a dip has shown of a probe's lag, as the store keeps it: <c>ratio:share:mean:deviation</c> for each ratio of the second constant to the first, apart by blanks.</summary>
/// <remarks>Mean and deviation are of the natural logarithm of the first constant in seconds. The grid of hypotheses may change with a version; this does not.</remarks>
internal static class LagText
{
    /// <summary>What is less likely is left out.</summary>
    private const double Least = 1e-4;

    private const double NarrowestDeviation = 0.01;

    /// <param name="chances">By <see cref="LagMemory.Constants"/> and <see cref="LagMemory.Ratios"/>; they sum to one.</param>
    public static string Of(double[,] chances)
    {
        var text = new StringBuilder();
        for (var j = 0; j < LagMemory.Ratios.Count; j++)
        {
            double share = 0, mean = 0, square = 0;
            for (var i = 0; i < LagMemory.Constants.Count; i++)
            {
                var (chance, log) = (chances[i, j], LagMemory.LogConstants[i]);
                share += chance;
                mean += chance * log;
                square += chance * log * log;
            }

            if (share < Least)
                continue;
            mean /= share;
            var deviation = Math.Sqrt(Math.Max(0, (square / share) - (mean * mean)));
            text.Append(text.Length > 0 ? " " : "").Append(CultureInfo.InvariantCulture, $"{LagMemory.Ratios[j]}:{share:0.####}:{mean:0.####}:{deviation:0.####}");
        }

        return text.ToString();
    }

    /// <summary>Null: it cannot be read.</summary>
    public static (double LogMean, double[,] Chances)? Read(string text)
    {
        var chances = new double[LagMemory.Constants.Count, LagMemory.Ratios.Count];
        double total = 0, logMean = 0;
        foreach (var part in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var fields = part.Split(':');
            var numbers = new double[4];
            if (fields.Length != numbers.Length)
                return null;
            for (var i = 0; i < numbers.Length; i++)
            {
                if (!double.TryParse(fields[i], NumberStyles.Float, CultureInfo.InvariantCulture, out numbers[i]) || !double.IsFinite(numbers[i]))
                    return null;
            }

            if (numbers[1] <= 0 || numbers[3] < 0)
                return null;
            Spread(chances, numbers[0], numbers[1], numbers[2], Math.Max(numbers[3], NarrowestDeviation));
            total += numbers[1];
            logMean += numbers[1] * numbers[2];
        }

        if (total <= 0)
            return null;
        for (var i = 0; i < chances.GetLength(0); i++)
        {
            for (var j = 0; j < chances.GetLength(1); j++)
                chances[i, j] /= total;
        }

        return (logMean / total, chances);
    }

    private static void Spread(double[,] chances, double ratio, double share, double mean, double deviation)
    {
        var nearest = Enumerable.Range(0, LagMemory.Ratios.Count).MinBy(j => Math.Abs(LagMemory.Ratios[j] - ratio));
        double[] density = [.. LagMemory.LogConstants.Select(log => Math.Exp(-0.5 * Math.Pow((log - mean) / deviation, 2)))];
        var sum = density.Sum();
        var closest = Enumerable.Range(0, density.Length).MinBy(i => Math.Abs(LagMemory.LogConstants[i] - mean));
        for (var i = 0; i < density.Length; i++)
            chances[i, nearest] += share * (sum > 1e-12 ? density[i] / sum : i == closest ? 1 : 0);
    }
}
