namespace CaptureAgent.Agent.Labels;

/// <summary>A page of labels, in millimetres.</summary>
/// <param name="Name">Columns x rows, or as station.json calls it.</param>
/// <param name="Left">From the page's edge to the first column; <paramref name="Top"/> likewise.</param>
/// <param name="GapAcross">Between two columns.</param>
/// <param name="GapDown">Between two rows.</param>
internal sealed record LabelSheet(
    string Name, double PageWidth, double PageHeight, int Columns, int Rows, double Left, double Top, double LabelWidth, double LabelHeight,
    double GapAcross = 0, double GapDown = 0)
{
    private const double A4Width = 210, A4Height = 297;

    /// <summary>Usual divisions of A4, a sheet of cards (ISO/IEC 7810 ID-1 is 85.6 mm by 54 mm), and a roll with one label a page.</summary>
    public static IReadOnlyList<LabelSheet> Usual { get; } =
    [
        new("2x5", A4Width, A4Height, 2, 5, 15, 13.5, 85, 54, 10),
        new("2x7", A4Width, A4Height, 2, 7, 4.7, 15.2, 99.1, 38.1, 2.4),
        new("3x7", A4Width, A4Height, 3, 7, 7.2, 15.2, 63.5, 38.1, 2.55),
        new("3x8", A4Width, A4Height, 3, 8, 0, 0.5, 70, 37),
        new("1x1", 62, 38, 1, 1, 0, 0, 62, 38),
    ];

    public int LabelsAPage => Columns * Rows;

    /// <summary>The upper left corner of a label, counted row by row.</summary>
    public (double X, double Y) Corner(int place) =>
        (Left + place % Columns * (LabelWidth + GapAcross), Top + place / Columns * (LabelHeight + GapDown));

    /// <summary>All labels lie on the page; half a millimetre over its edge is taken for rounding.</summary>
    public bool Fits => Left + Columns * LabelWidth + (Columns - 1) * GapAcross <= PageWidth + 0.5 && Top + Rows * LabelHeight + (Rows - 1) * GapDown <= PageHeight + 0.5;
}
