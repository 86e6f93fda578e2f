namespace CaptureAgent.Agent.Growth.Fitting;

/// <summary>QR factors of a small matrix, in place, by Householder's reflections.</summary>
/// <remarks>Golub and Van Loan, Matrix Computations, 5.2. Of our own because a fit takes some thirty of them on at most four columns, and must not allocate.</remarks>
internal static class Householder
{
    /// <summary>Leaves R in the upper triangle of <paramref name="a"/> and Q'b in <paramref name="b"/>.</summary>
    /// <param name="a">By columns, <paramref name="rows"/> each.</param>
    public static void Factor(Span<double> a, Span<double> b, int rows, int columns)
    {
        for (var k = 0; k < columns; k++)
        {
            var column = a.Slice(k * rows + k, rows - k);
            var norm = Norm(column);
            if (norm == 0)
                continue;
            var head = column[0] > 0 ? -norm : norm;
            column[0] -= head;
            var scale = Dot(column, column) / 2;
            for (var j = k + 1; j < columns; j++)
                Reflect(column, scale, a.Slice(j * rows + k, rows - k));
            Reflect(column, scale, b.Slice(k, rows - k));
            column[0] = head;
        }
    }

    /// <summary>Solves R x = c; false where R is singular.</summary>
    public static bool Solve(ReadOnlySpan<double> a, int rows, ReadOnlySpan<double> c, Span<double> x, int columns)
    {
        for (var i = columns - 1; i >= 0; i--)
        {
            var pivot = a[i * rows + i];
            if (pivot == 0 || !double.IsFinite(pivot))
                return false;
            var sum = c[i];
            for (var j = i + 1; j < columns; j++)
                sum -= a[j * rows + i] * x[j];
            x[i] = sum / pivot;
        }

        return true;
    }

    public static double Norm(ReadOnlySpan<double> v) => Math.Sqrt(Dot(v, v));

    private static void Reflect(ReadOnlySpan<double> v, double scale, Span<double> target)
    {
        var factor = Dot(v, target) / scale;
        for (var i = 0; i < target.Length; i++)
            target[i] -= factor * v[i];
    }

    private static double Dot(ReadOnlySpan<double> v, ReadOnlySpan<double> w)
    {
        var sum = 0.0;
        for (var i = 0; i < v.Length; i++)
            sum += v[i] * w[i];
        return sum;
    }
}
