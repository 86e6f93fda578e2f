using System.Globalization;
using CaptureAgent.Agent.Growth.Charts;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Reports;

/// <summary>The hand-over of one chick as a PDF, for the avian veterinarian or the new owner.</summary>
internal static class ChickReport
{
    private const int ChartWidth = 1000;
    private const int ChartHeight = 700;

    /// <summary>Dots a pixel of the chart: some 280 dots an inch on A4.</summary>
    private const float ChartScale = 2;

    public static byte[] Pdf(ChickDossier dossier, DateTimeOffset made)
    {
        using var sheet = new Sheet($"Record of chick {dossier.Code}", $"{dossier.Code}   {dossier.Station}   {Shown(made, dossier.Zone)}", made);
        sheet.Title($"Record of chick {dossier.Code}");
        sheet.Sentence("Weights and feeds as they were recorded, corrections included. It compares numbers and makes no diagnosis; judgement belongs to an avian veterinarian. The scale is not verified for trade.");
        Identity(sheet, dossier);
        Growth(sheet, dossier);
        Weights(sheet, dossier);
        Feeds(sheet, dossier);
        Observations(sheet, dossier);
        Corrections(sheet, dossier);
        return sheet.ToPdf();
    }

    private static void Identity(Sheet sheet, ChickDossier dossier)
    {
        sheet.Heading("Identity");
        var chick = dossier.Chick;
        List<string?[]> rows = [["code", dossier.Code], ["species", chick?.Species], ["hatched", Shown(chick?.Hatched)]];
        if (chick?.AgeOn(dossier.Today) is { } age)
            rows.Add(["day of age", age.ToString(CultureInfo.InvariantCulture) + (chick.Left <= dossier.Today ? ", when it left" : "")]);
        rows.Add(["stage", dossier.Growth.Course is { Points.Count: > 0 } course
            ? $"{course.Stage.Word()}, by its weights up to {Shown(dossier.Growth.Weights[^1].Day)}"
            : "not known: it has no weight"]);
        rows.AddRange([["band", chick?.Band], ["clutch", chick?.Clutch], ["brooder", chick?.Brooder], ["left", Shown(chick?.Left)], ["note", chick?.Note]]);
        if (chick is null)
            sheet.Sentence("The register does not have this code.");
        sheet.Table([("", 1), ("", 4)], [.. rows.Where(row => row[1] is not null)]);
    }

    private static void Growth(Sheet sheet, ChickDossier dossier)
    {
        var growth = dossier.Growth;
        sheet.Heading("Growth");
        if (growth.Weights.Count == 0)
        {
            sheet.Sentence("No accepted weight.");
            return;
        }

        sheet.Picture(ChickChart.Of(growth).Png(ChartWidth, ChartHeight, ChartScale));
        if (growth.BestFit is { } fit)
            sheet.Sentence(string.Create(CultureInfo.InvariantCulture,
                $"A {fit.Model.Name} curve was fitted to {fit.Weights} weights up to the peak: final weight {fit.Asymptote:0.0} g (standard error {fit.StandardError(0):0.0} g), K {fit.Parameters[1]:0.0000} a day (standard error {fit.StandardError(1):0.0000}). {fit.Model.Source}."));
        else
            sheet.Sentence("No growth curve is identifiable from these weights yet: " + (growth.Fits.Count > 0 ? growth.Fits[0].WhyNotTold : "they are too few") + ".");
        if (growth.Weights[^1] is { Centile: { } centile, Z: { } z } last)
            sheet.Sentence(string.Create(CultureInfo.InvariantCulture, $"Last weight {last.Grams:0.0} g on {Shown(last.Day)}: centile {centile:0} (z {z:+0.00;-0.00;0.00}) of the reference named below the chart."));
        sheet.Table([("found on", 1), ("severity", 0.8), ("what, and what to ask", 5)], [.. growth.Findings.Select(finding => (string?[])[Shown(finding.Day), finding.Severity, finding.Text])]);
    }

    private static void Weights(Sheet sheet, ChickDossier dossier)
    {
        sheet.Heading("Every weighing");
        sheet.Sentence("± is one standard uncertainty. A refused weighing is kept and stays out of the growth record.");
        sheet.Table(
            [("day", 1.3), ("time", 0.8), ("grams", 1), ("±", 0.8), ("verdict", 1), ("reasons", 2.4), ("origin", 1), ("now", 1)],
            [.. dossier.Weighings.Select(stored => (string?[])
            [
                Shown(stored.Row.Day), stored.Row.At is { } at ? Time(at, dossier.Zone) : null, Grams(stored.Row.Milligrams), Grams(stored.Row.UncertaintyMilligrams),
                stored.Row.Verdict == Verdict.Accepted ? "accepted" : "refused", string.Join(", ", stored.Row.Reasons), Word(stored.Row.Origin), Word(stored.State),
            ])]);
    }

    private static void Feeds(Sheet sheet, ChickDossier dossier)
    {
        sheet.Heading("Feeds");
        sheet.Sentence(dossier.Feeds.Count == 0 ? "None recorded." : $"{dossier.Feeds.Count} recorded.");
        sheet.Table(
            [("day", 1), ("time", 1), ("batch", 1), ("state of the batch", 2)],
            [.. dossier.Feeds.Select(feed => Fed(feed, dossier.Zone))]);
        sheet.Heading("Fed from batches out of range");
        var outOfRange = dossier.Feeds.Where(feed => feed.BatchState is not (null or "in-range")).ToList();
        sheet.Sentence(outOfRange.Count == 0 ? "None recorded. A batch that was not measured is not shown as in range." : "The state of the batch at the moment of the feed:");
        sheet.Table(
            [("day", 1), ("time", 1), ("batch", 1), ("state of the batch", 2)],
            [.. outOfRange.Select(feed => Fed(feed, dossier.Zone))]);
    }

    private static string?[] Fed(FeedRow feed, TimeZoneInfo zone) =>
        [Shown(feed.Day), Time(feed.At, zone), feed.Batch?.ToString(CultureInfo.InvariantCulture), feed.BatchState];

    private static void Observations(Sheet sheet, ChickDossier dossier)
    {
        sheet.Heading("Observations");
        var seen = dossier.Growth.Observations;
        if (seen.Count == 0)
            sheet.Sentence("None recorded.");
        else
            sheet.Table([("when", 1), ("what", 4)], [.. seen.Select(observation => (string?[])[Shown(observation.At, dossier.Zone), observation.Words])]);
    }

    private static void Corrections(Sheet sheet, ChickDossier dossier)
    {
        sheet.Heading("Corrections");
        var byId = dossier.Weighings.ToDictionary(stored => stored.Row.Id);
        List<string?[]> rows =
        [
            .. dossier.Weighings.Where(stored => stored.Row.Replaces is { } old && byId.ContainsKey(old)).Select(stored => (string?[])
                [Shown(stored.Row.Day), $"{Grams(byId[stored.Row.Replaces!.Value].Row.Milligrams) ?? "no weight"} g gave way to {Grams(stored.Row.Milligrams) ?? "no weight"} g ({Word(stored.Row.Origin)})"]),
            .. dossier.Weighings.Where(stored => stored.State == WeighingState.TakenBack).Select(stored => (string?[])
                [Shown(stored.Row.Day), $"{Grams(stored.Row.Milligrams) ?? "no weight"} g was taken back by the keeper"]),
            .. dossier.Versions.Skip(1).Select(version => (string?[])[Shown(version.RecordedAt, dossier.Zone), "the register was changed"]),
        ];
        if (rows.Count == 0)
            sheet.Sentence("None.");
        else
            sheet.Table([("day", 1), ("what", 4)], rows);
    }

    private static string? Grams(long? milligrams) => milligrams is { } value ? (value / 1000m).ToString("0.0##", CultureInfo.InvariantCulture) : null;

    private static string? Shown(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Shown(DateTimeOffset at, TimeZoneInfo zone) => TimeZoneInfo.ConvertTime(at, zone).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static string Time(DateTimeOffset at, TimeZoneInfo zone) => TimeZoneInfo.ConvertTime(at, zone).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    private static string Word(Origin origin) => origin switch
    {
        Origin.Captured => "captured",
        Origin.Imported => "imported",
        Origin.Adopted => "adopted",
        _ => "judged again",
    };

    private static string Word(WeighingState state) => state switch
    {
        WeighingState.Stands => "stands",
        WeighingState.Replaced => "replaced",
        _ => "taken back",
    };
}
