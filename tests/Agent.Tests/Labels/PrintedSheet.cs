using System.Diagnostics;
using System.Globalization;
using CaptureAgent.Agent.Labels;
using Xunit;

namespace CaptureAgent.Agent.Tests.Labels;

/// <summary>A sheet of labels as it comes from a printer of 300 dots an inch (poppler), read by decoders that had no part in making it (zbar, libdmtx).</summary>
internal sealed class PrintedSheet : IDisposable
{
    private const int DotsAnInch = 300;
    private const double MillimetresAnInch = 25.4;

    private readonly string folder = Directory.CreateTempSubdirectory("labels-").FullName;
    private readonly LabelSheet sheet;

    public PrintedSheet(LabelSheet sheet, byte[] pdf)
    {
        foreach (var (tool, package) in new[] { ("pdftoppm", "poppler-utils"), ("zbarimg", "zbar-tools"), ("dmtxread", "dmtx-utils") })
            Assert.SkipUnless(Environment.GetEnvironmentVariable("PATH")!.Split(':').Any(path => File.Exists(Path.Combine(path, tool))), $"{tool} is not installed: apt install {package}");
        this.sheet = sheet;
        File.WriteAllBytes(Path.Combine(folder, "labels.pdf"), pdf);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>What zbar reads on one label, as "QR-Code:AM-0147" and "CODE-128:AM-0147", sorted.</summary>
    /// <param name="place">Counted over all pages.</param>
    public IReadOnlyList<string> Read(int place) => Lines("zbarimg", "--nodbus", "--quiet", Cut(place));

    /// <summary>What libdmtx reads on one label.</summary>
    public IReadOnlyList<string> ReadDataMatrix(int place) => Lines("dmtxread", "--newline", "--milliseconds=20000", "--stop-after=1", Cut(place));

    // One label, to its very edges: nothing of its neighbours may be needed.
    private string Cut(int place)
    {
        var (x, y) = sheet.Corner(place % sheet.LabelsAPage);
        var page = (1 + place / sheet.LabelsAPage).ToString(CultureInfo.InvariantCulture);
        var picture = Path.Combine(folder, $"label-{place}");
        Lines("pdftoppm", "-png", "-singlefile", "-r", $"{DotsAnInch}", "-f", page, "-l", page,
            "-x", Dots(x), "-y", Dots(y), "-W", Dots(sheet.LabelWidth), "-H", Dots(sheet.LabelHeight), Path.Combine(folder, "labels.pdf"), picture);
        return picture + ".png";
    }

    private static string Dots(double millimetres) => Math.Round(millimetres * DotsAnInch / MillimetresAnInch).ToString(CultureInfo.InvariantCulture);

    private static List<string> Lines(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var errors = process.StandardError.ReadToEndAsync();
        var lines = process.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        process.WaitForExit();
        _ = errors.Result;
        return [.. lines.Order(StringComparer.Ordinal)];
    }
}
