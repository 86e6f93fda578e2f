using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Labels;
using CaptureAgent.Protocol.Codes;
using CaptureAgent.Store;
using UglyToad.PdfPig;
using Xunit;

namespace CaptureAgent.Agent.Tests.Labels;

public sealed class LabelPdfTests
{
    private static readonly DateTimeOffset Made = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);

    private static readonly Chick Macaw = new("AM-0147", "Ara macao", new DateOnly(2026, 2, 6), "C1", "E2", "900123000000147");

    private static readonly LabelTexts Texts = LabelTexts.In("en");

    public static TheoryData<string> Sheets() => [.. LabelSheet.Usual.Select(sheet => sheet.Name)];

    [Theory]
    [MemberData(nameof(Sheets))]
    public void Each_label_of_every_sheet_is_read_by_itself(string name)
    {
        var sheet = Sheet(name);
        List<Label> labels = [Texts.Of(Macaw), Texts.OfBrooder("E2"), .. Texts.Cards(new CardOptions())];
        using var printed = new PrintedSheet(sheet, new LabelPdf(sheet, Symbols.Qr).Draw(labels, 0, Made));

        // The corners of the page, and what comes after it.
        foreach (var place in new[] { 0, 1, Math.Min(sheet.LabelsAPage, labels.Count) - 1, labels.Count - 1 }.Distinct())
            Assert.Equal([$"CODE-128:{labels[place].Code}", $"QR-Code:{labels[place].Code}"], printed.Read(place));
    }

    [Fact]
    public void Data_matrix_is_read_too()
    {
        var sheet = Sheet("3x8");
        List<Label> labels = [Texts.Of(Macaw), .. Texts.Cards(new CardOptions()).Take(2)];
        using var printed = new PrintedSheet(sheet, new LabelPdf(sheet, Symbols.DataMatrix).Draw(labels, 0, Made));

        for (var place = 0; place < labels.Count; place++)
        {
            Assert.Equal([labels[place].Code], printed.ReadDataMatrix(place));
            Assert.Equal([$"CODE-128:{labels[place].Code}"], printed.Read(place));
        }
    }

    [Fact]
    public void A_code_with_its_check_character_is_read_with_it()
    {
        var code = "AM-0147" + Iso7064.Compute(CheckScheme.Mod37Comma2, "AM-0147");
        var sheet = Sheet("2x7");
        using var printed = new PrintedSheet(sheet, new LabelPdf(sheet, Symbols.Qr).Draw([Texts.Of(Macaw with { Code = code })], 3, Made));

        Assert.Equal([$"CODE-128:{code}", $"QR-Code:{code}"], printed.Read(3));
        Assert.Empty(printed.Read(0));
    }

    [Fact]
    public void The_text_stands_on_its_label_and_the_page_has_its_size()
    {
        var sheet = Sheet("2x5");
        using var pdf = PdfDocument.Open(new LabelPdf(sheet, Symbols.Qr).Draw([Texts.Of(Macaw), Texts.Of(Macaw with { Code = "AM-0148" })], 0, Made));
        var page = Assert.Single(pdf.GetPages());

        Assert.Equal((210, 297), (Math.Round(page.Width / 72 * 25.4), Math.Round(page.Height / 72 * 25.4)));
        var words = page.GetWords().ToList();
        Assert.Equal(2, words.Count(word => word.Text == "AM-0147"));
        Assert.Contains(words, word => word.Text == "2026-02-06");
        var (x, _) = sheet.Corner(1);
        Assert.All(words.Where(word => word.Text == "AM-0148"), word => Assert.InRange(word.BoundingBox.Left / 72 * 25.4, x, x + sheet.LabelWidth));
        Assert.All(words.Where(word => word.Text == "AM-0147"), word => Assert.InRange(word.BoundingBox.Left / 72 * 25.4, sheet.Left, sheet.Left + sheet.LabelWidth));
    }

    [Fact]
    public void A_code_too_long_for_bars_is_printed_without_and_said()
    {
        var code = new string('A', 12) + "-12345678901";
        var sheet = Sheet("3x7");
        var pdf = new LabelPdf(sheet, Symbols.Qr);
        using var printed = new PrintedSheet(sheet, pdf.Draw([Texts.Of(Macaw with { Code = code })], 0, Made));

        Assert.Equal([code], pdf.WithoutBars);
        Assert.Equal([$"QR-Code:{code}"], printed.Read(0));
    }

    [Fact]
    public void A_code_that_no_scanner_could_read_at_this_size_is_refused()
    {
        var tiny = new LabelSheet("tiny", 100, 100, 4, 5, 0, 0, 20, 15);
        Assert.Contains("Take larger labels", Assert.Throws<LabelException>(() => new LabelPdf(tiny, Symbols.Qr).Draw([Texts.Of(Macaw with { Code = "AM-0147-0148-0149-0150" })], 0, Made)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void The_usual_sheets_fit_on_their_pages(string name) => Assert.True(Sheet(name).Fits);

    [Fact]
    public void There_is_a_card_for_every_command()
    {
        var cards = Texts.Cards(new CardOptions()).Select(label => label.Code).ToList();
        var commands = typeof(CardOptions).GetProperties().Where(property => property.PropertyType == typeof(string)).Select(property => (string)property.GetValue(new CardOptions())!);

        Assert.Empty(commands.Concat(CardOptions.DefaultObservations().Select(card => card.Card)).Except(cards));
    }

    private static LabelSheet Sheet(string name) => LabelSheet.Usual.Single(sheet => sheet.Name == name);
}
