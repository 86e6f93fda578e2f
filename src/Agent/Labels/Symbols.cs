using QRCoder;
using ZXing;
using ZXing.Common;
using ZXing.Datamatrix;
using ZXing.Datamatrix.Encoder;
using ZXing.OneD;

namespace CaptureAgent.Agent.Labels;

/// <summary>Codes as patterns of dark modules, without quiet zones.</summary>
internal static class Symbols
{
    public const string Qr = "qr", DataMatrix = "data-matrix";

    /// <summary>Quiet zones in modules: QR 4 (ISO/IEC 18004), Data Matrix 1 (ISO/IEC 16022), Code 128 10 on each side (ISO/IEC 15417).</summary>
    public const int QrQuiet = 4, DataMatrixQuiet = 1, BarsQuiet = 10;

    public static IReadOnlyList<string> Names { get; } = [Qr, DataMatrix];

    /// <summary>Square: rows, then columns.</summary>
    /// <param name="symbol">One of <see cref="Names"/>.</param>
    /// <param name="code">ASCII.</param>
    public static bool[,] Square(string symbol, string code) => symbol == Qr ? QrModules(code) : DataMatrixModules(code);

    public static int QuietOf(string symbol) => symbol == Qr ? QrQuiet : DataMatrixQuiet;

    /// <summary>Code 128, its check character included.</summary>
    public static bool[] Bars(string code) => new Code128Writer().encode(code);

    // Level M: 15 % of a wet or scratched label may be lost.
    private static bool[,] QrModules(string code)
    {
        using var made = QRCodeGenerator.GenerateQrCode(code, QRCodeGenerator.ECCLevel.M);
        // The library puts the quiet zone into its pattern.
        var size = made.ModuleMatrix.Count - 2 * QrQuiet;
        var modules = new bool[size, size];
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < size; column++)
                modules[row, column] = made.ModuleMatrix[row + QrQuiet][column + QrQuiet];
        }

        return modules;
    }

    private static bool[,] DataMatrixModules(string code)
    {
        var hints = new Dictionary<EncodeHintType, object> { [EncodeHintType.DATA_MATRIX_SHAPE] = SymbolShapeHint.FORCE_SQUARE, [EncodeHintType.MARGIN] = 0 };
        BitMatrix made = new DataMatrixWriter().encode(code, BarcodeFormat.DATA_MATRIX, 0, 0, hints);
        var modules = new bool[made.Height, made.Width];
        for (var row = 0; row < made.Height; row++)
        {
            for (var column = 0; column < made.Width; column++)
                modules[row, column] = made[column, row];
        }

        return modules;
    }
}
