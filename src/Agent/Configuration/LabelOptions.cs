namespace CaptureAgent.Agent.Configuration;

/// <summary>How labels are printed.</summary>
internal sealed class LabelOptions
{
    /// <summary>The square code: qr or data-matrix.</summary>
    public string Symbol { get; set; } = "qr";

    /// <summary>A usual sheet (2x5, 2x7, 3x7, 3x8, 1x1: columns by rows), or one of <see cref="Sheets"/>.</summary>
    public string Sheet { get; set; } = "2x5";

    public IList<SheetOptions> Sheets { get; set; } = [];
}

/// <summary>A sheet of labels of the station's own; all in millimetres, 0 to 1000.</summary>
internal sealed class SheetOptions
{
    public string Name { get; set; } = "";

    public double PageWidthMillimetres { get; set; } = 210;

    public double PageHeightMillimetres { get; set; } = 297;

    /// <summary>1 to 50.</summary>
    public int Columns { get; set; } = 1;

    /// <summary>1 to 50.</summary>
    public int Rows { get; set; } = 1;

    public double LeftMillimetres { get; set; }

    public double TopMillimetres { get; set; }

    /// <summary>At least 20.</summary>
    public double LabelWidthMillimetres { get; set; }

    /// <summary>At least 15.</summary>
    public double LabelHeightMillimetres { get; set; }

    public double GapAcrossMillimetres { get; set; }

    public double GapDownMillimetres { get; set; }
}
