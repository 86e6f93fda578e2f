namespace CaptureAgent.Protocol.Encoding;

/// <summary>A whole number times a power of ten as a decimal that keeps the power as its digits: 368 and -1 make 36.8, 3680 and -2 make 36.80.</summary>
internal static class DecimalPower
{
    private const int MostDecimals = 28;

    /// <summary>False where a decimal cannot hold it exactly, which no instrument sends.</summary>
    /// <param name="step">One of the last digit.</param>
    public static bool TryMake(int mantissa, int exponent, out decimal value, out decimal step)
    {
        (value, step) = (0, 0);
        if (exponent is < -MostDecimals or > MostDecimals)
            return false;
        if (exponent <= 0)
        {
            var magnitude = unchecked((int)(uint)Math.Abs((long)mantissa));
            value = new decimal(magnitude, 0, 0, isNegative: mantissa < 0, scale: (byte)-exponent);
            step = new decimal(1, 0, 0, isNegative: false, scale: (byte)-exponent);
            return true;
        }

        step = 1;
        for (var i = 0; i < exponent; i++)
            step *= 10;
        if (mantissa != 0 && step > decimal.MaxValue / Math.Abs((decimal)mantissa))
            return false;
        value = mantissa * step;
        return true;
    }
}
