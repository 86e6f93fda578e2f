using System.Globalization;
using System.Text;
using System.Xml.Linq;
using CaptureAgent.Agent.Commands;
using CaptureAgent.Store;
using Microsoft.Extensions.Time.Testing;
using UglyToad.PdfPig;
using Xunit;

namespace CaptureAgent.Agent.Tests.Commands;

public sealed class GrowthCommandTests : IDisposable
{
    private static readonly DateOnly Hatched = new(2026, 1, 10);

    private readonly string folder = Directory.CreateTempSubdirectory("growth-").FullName;
    private readonly FakeTimeProvider time = new(new DateTimeOffset(2026, 3, 20, 7, 0, 0, TimeSpan.Zero));

    public GrowthCommandTests()
    {
        Put("station.json", """{ "codes": { "pattern": "[A-Z]{2}-[0-9]{4}" }, "devices": [ { "id": "scale", "role": "scale", "dialect": "header-comma" } ] }""");
        var register = new StringBuilder("code,species,hatched,clutch,band\n");
        var weights = new StringBuilder("chick,date,grams\n");
        foreach (var (code, factor) in new[] { ("AM-0147", 1.0), ("AM-0148", 1.08), ("AM-0149", 0.94), ("AM-0150", 1.02) })
        {
            register.Append(CultureInfo.InvariantCulture, $"{code},Scarlet macaw,2026-01-10,C7,XX 26 {code[3..]}\n");
            for (var age = 2; age <= 68; age++)
            {
                var grams = factor * 1000 / (1 + Math.Exp(-0.11 * (age - 30))) * (1 + 0.01 * Math.Sin(7 * age * factor));
                weights.Append(CultureInfo.InvariantCulture, $"{code},{Hatched.AddDays(age):yyyy-MM-dd},{(code == "AM-0147" && age == 40 ? grams / 2 : grams):0.0}\n");
            }
        }

        Put("chicks.csv", register.Append("AM-0001,Scarlet macaw,2026-03-18,,\n").ToString());
        Put("weights.csv", weights.ToString());
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_chick_s_growth_is_told_with_gain_centile_curves_and_the_source_of_the_reference()
    {
        await Import();

        var (code, output, _) = await Run("growth", "AM-0147");

        Assert.Equal(0, code);
        Assert.Matches(@"2026-03-18\s+67\s+9\d\d\.\d\s+[+-]\d\.\d %\s+[+-]\d\.\d %\s+\d+", output);
        Assert.Matches(@"logistic\s+10\d\d\.\d|logistic\s+9\d\d\.\d", output);
        Assert.Contains("2026-02-19, 373.7 g", output, StringComparison.Ordinal);
        Assert.Contains("cannot belong to the curve", output, StringComparison.Ordinal);
        Assert.Contains("Centiles: this nursery's own records, 3 chicks; 14 % borrowed from the published curve (R. R. Figueras", output, StringComparison.Ordinal);
        Assert.Matches(@"Expected on 2026-03-20: \d+\.\d g, 95 % within \d+\.\d-\d+\.\d g", output);
        Assert.Contains("2026-02-19 ", output[output.IndexOf("Stage:", StringComparison.Ordinal)..], StringComparison.Ordinal);
        Assert.Contains("avian veterinarian", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_chick_too_young_for_a_curve_is_told_so()
    {
        await Import();

        Assert.Contains("not yet identifiable, 0 weights are too few", (await Run("growth", "AM-0001")).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_curve_of_a_species_says_where_it_comes_from()
    {
        await Import();

        var own = await Run("growth", "--species", "ara MACAO");
        var published = await Run("growth", "--species", "Spix's macaw");

        Assert.Contains("this nursery's own records, 4 chicks", own.Output, StringComparison.Ordinal);
        Assert.Contains("borrowed from the published curve (R. R. Figueras", own.Output, StringComparison.Ordinal);
        Assert.Contains("days 2 to 68 only", own.Output, StringComparison.Ordinal);
        Assert.Contains("Of other days: published, not this nursery's: R. R. Figueras", own.Output, StringComparison.Ordinal);
        Assert.Contains("published, not this nursery's: A. Tschudin", published.Output, StringComparison.Ordinal);
        // Each day of the first two weeks, then each week up to day 147, and the last.
        Assert.Equal(15 + 19 + 1, published.Output.Split('\n').Count(line => line.TrimStart().Length > 0 && char.IsDigit(line.TrimStart()[0])));
    }

    [Fact]
    public async Task A_species_that_nothing_is_known_of_is_refused_with_the_nearest_name()
    {
        await Import();

        var (code, _, error) = await Run("growth", "--species", "Ara macoa");

        Assert.Equal(2, code);
        Assert.Contains("Did you mean Ara macao", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_chart_is_drawn_as_SVG_and_as_PNG()
    {
        await Import();

        Assert.Equal(0, (await Run("growth", "AM-0147", "--svg", "a.svg", "--png", "a.png")).Code);

        var svg = XDocument.Load(Path.Combine(folder, "a.svg"));
        var texts = string.Join('\n', svg.Descendants().Where(element => element.Name.LocalName == "text").Select(element => element.Value));
        Assert.Contains("AM-0147", texts, StringComparison.Ordinal);
        Assert.Contains("this nursery's own records, 3 chicks", texts, StringComparison.Ordinal);
        Assert.Contains("cannot belong to the curve", texts, StringComparison.Ordinal);
        Assert.Contains("avian veterinarian", texts, StringComparison.Ordinal);
        Assert.All(svg.Descendants().Where(element => element.Name.LocalName == "text"), text => Assert.Contains("DejaVu Sans", text.Attribute("font-family")?.Value, StringComparison.Ordinal));
        var png = File.ReadAllBytes(Path.Combine(folder, "a.png"));
        // PNG specification (W3C), 5.2 and 11.2.2: the signature, then width and height of IHDR.
        Assert.Equal([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], png[..8]);
        Assert.Equal([0, 0, 0x03, 0xE8, 0, 0, 0x02, 0xF8], png[16..24]);
    }

    [Fact]
    public async Task What_a_keeper_noted_stands_on_the_chart_of_that_chick_only()
    {
        await Import();
        Observe("AM-0147", "eats-alone");
        Observe("AM-0148", "crop-smooth");

        Assert.Equal(0, (await Run("growth", "AM-0147", "--svg", "a.svg")).Code);

        var texts = XDocument.Load(Path.Combine(folder, "a.svg")).Descendants().Where(element => element.Name.LocalName == "text").Select(element => element.Value.Trim()).ToList();
        Assert.Contains("eats alone", texts);
        Assert.DoesNotContain("crop smooth", texts);
    }

    [Fact]
    public async Task What_a_keeper_saw_is_in_text_chart_and_report_a_crop_seen_full_with_it()
    {
        await Import();
        Observe("AM-0147", "eats-alone", new DateOnly(2026, 3, 10));
        SeeFull("AM-0147", new DateOnly(2026, 3, 12));
        SeeFull("AM-0148", new DateOnly(2026, 3, 11));

        var (code, output, _) = await Run("growth", "AM-0147", "--svg", "a.svg");
        await Run("report", "AM-0147");

        Assert.Equal(0, code);
        Assert.Contains("\n2026-03-10 seen: eats alone\n2026-03-12 seen: crop seen full\n", output, StringComparison.Ordinal);
        Assert.Matches(@"\n2026-03-12 red: AM-0147: crop seen full when it should be empty. Today's weight of \d+\.\d g may be food", output);
        Assert.DoesNotContain("2026-03-11 seen", output, StringComparison.Ordinal);
        var texts = XDocument.Load(Path.Combine(folder, "a.svg")).Descendants().Where(element => element.Name.LocalName == "text").Select(element => element.Value.Trim()).ToList();
        Assert.Contains("eats alone", texts);
        Assert.Contains("crop seen full", texts);
        Assert.Contains("red", texts);
        var report = Text("AM-0147.pdf");
        Assert.Contains("2026-03-12 07:00 crop seen full", report, StringComparison.Ordinal);
        Assert.Contains("2026-03-12 red AM-0147: crop seen full when it should be empty.", report, StringComparison.Ordinal);
        Assert.DoesNotContain("2026-03-11 07:00", report, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_seen_of_a_chick_without_weights_is_in_its_text_and_on_its_chart()
    {
        await Import();
        Observe("AM-0001", "listless");

        var (_, output, _) = await Run("growth", "AM-0001", "--svg", "a.svg");

        Assert.Contains("2026-03-20 red: AM-0001: a listless chick", output, StringComparison.Ordinal);
        Assert.Contains("2026-03-20 seen: listless", output, StringComparison.Ordinal);
        Assert.Contains(XDocument.Load(Path.Combine(folder, "a.svg")).Descendants().Where(element => element.Name.LocalName == "text"), text => text.Value.Trim() == "listless");
    }

    [Fact]
    public async Task The_morning_of_a_day_has_what_was_seen_that_day_and_was_not_taken_back()
    {
        await Import();
        SeeFull("AM-0147", new DateOnly(2026, 3, 18));
        Observe("AM-0148", "listless", new DateOnly(2026, 3, 17));
        Undo(Observe("AM-0149", "listless", new DateOnly(2026, 3, 18)));

        var (_, output, _) = await Run("morning", "--date", "2026-03-18");

        Assert.Contains("[too-good] AM-0147: crop seen full", output, StringComparison.Ordinal);
        Assert.Contains("[observation] AM-0148: listless, seen yesterday", output, StringComparison.Ordinal);
        Assert.DoesNotContain("AM-0149: ", output, StringComparison.Ordinal);
        var before = (await Run("morning", "--date", "2026-03-17")).Output;
        Assert.Contains("[observation] AM-0148: a listless chick", before, StringComparison.Ordinal);
        Assert.DoesNotContain("crop seen full", before, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_chick_whose_hatch_year_is_mistyped_stays_in_the_morning_and_is_asked_about()
    {
        await Import();
        Put("correction.csv", "code,species,hatched\nAM-0148,amazon,2027-02-06\n");
        await Run("import", "register", "correction.csv");

        var (_, output, _) = await Run("morning", "--date", "2026-03-18");

        Assert.Contains("AM-0148 has hatched on 2027-02-06 by the register, after its first weight", output, StringComparison.Ordinal);
        Assert.Contains(output[output.IndexOf("\nAll\n", StringComparison.Ordinal)..].Split('\n'), line => line.StartsWith("AM-0148", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Every_chick_s_curve_is_a_row_of_CSV()
    {
        await Import();

        var (code, output, _) = await Run("growth", "--all");

        var lines = output.Split("\r\n");
        Assert.Equal(0, code);
        Assert.StartsWith("chick,species,weights,model,finalGrams,", lines[0], StringComparison.Ordinal);
        Assert.Equal(["AM-0147", "AM-0148", "AM-0149", "AM-0150", ""], lines[1..].Select(line => line.Split(',')[0]));
        Assert.Matches(@"^AM-0148,Scarlet macaw,67,\w+,10[678]\d\.\d+,", lines[2]);
        Assert.EndsWith(",1,", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_chart_that_cannot_be_written_is_exit_2()
    {
        await Import();

        Assert.Equal(2, (await Run("growth", "AM-0147", "--png", "no/such/folder.png")).Code);
    }

    [Fact]
    public async Task A_report_holds_all_that_is_recorded_of_the_chick()
    {
        await Import();
        Put("correction.csv", $"chick,date,grams\nAM-0147,{Hatched.AddDays(40):yyyy-MM-dd},573.0\n");
        await Run("import", "weights", "correction.csv");
        Observe("AM-0147", "eats-alone");
        Observe("AM-0148", "crop-smooth");
        Feed("AM-0147", 3, "in-range");
        Feed("AM-0147", 4, "too-cold");
        Feed("AM-0148", 4, "too-hot");

        var (code, output, _) = await Run("report", "AM-0147", "--output", "hand-over.pdf");

        Assert.Equal((0, Path.Combine(folder, "hand-over.pdf") + "\n"), (code, output));
        var text = Text("hand-over.pdf");
        Assert.Contains("XX 26 0147", text, StringComparison.Ordinal);
        Assert.Contains("2026-03-18", text, StringComparison.Ordinal);
        Assert.Contains("373.7 g gave way to 573.0 g (imported)", text, StringComparison.Ordinal);
        Assert.Contains("replaced", text, StringComparison.Ordinal);
        Assert.Contains("2 recorded", text, StringComparison.Ordinal);
        Assert.Contains("too-cold", text, StringComparison.Ordinal);
        Assert.DoesNotContain("too-hot", text, StringComparison.Ordinal);
        Assert.Contains("eats alone", text, StringComparison.Ordinal);
        Assert.DoesNotContain("crop smooth", text, StringComparison.Ordinal);
        Assert.Contains("avian veterinarian", text, StringComparison.Ordinal);
        Assert.Contains("page 1 of ", text, StringComparison.Ordinal);
        using var pdf = PdfDocument.Open(Path.Combine(folder, "hand-over.pdf"));
        Assert.Single(pdf.GetPages().SelectMany(page => page.GetImages()));
    }

    [Fact]
    public async Task A_report_of_a_chick_without_weights_says_so()
    {
        await Import();

        Assert.Equal(0, (await Run("report", "AM-0001")).Code);
        Assert.Contains("No accepted weight.", Text("AM-0001.pdf"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_report_of_a_chick_that_left_has_its_age_then_and_its_stage_by_its_last_weights()
    {
        Put("chicks.csv", $"code,species,hatched,left\nAM-0147,Scarlet macaw,2026-01-10,{Hatched.AddDays(69):yyyy-MM-dd}\nAM-0148,Scarlet macaw,2026-01-10,{Hatched.AddDays(13):yyyy-MM-dd}\nAM-0149,,,\nAM-0150,Scarlet macaw,2026-01-10,2026-03-21\n");
        Put("weights.csv", $"chick,date,grams\nAM-0148,{Hatched.AddDays(11):yyyy-MM-dd},110.0\nAM-0148,{Hatched.AddDays(12):yyyy-MM-dd},118.0\nAM-0150,{Hatched.AddDays(1):yyyy-MM-dd},25.0\n");
        await Import();
        foreach (var chick in new[] { "AM-0148", "AM-0149", "AM-0150" })
            await Run("report", chick);

        var left = Text("AM-0148.pdf");
        Assert.Contains("day of age 13, when it left", left, StringComparison.Ordinal);
        Assert.Contains("stage growing, by its weights up to 2026-01-22", left, StringComparison.Ordinal);
        Assert.Contains("stage not known: it has no weight", Text("AM-0149.pdf"), StringComparison.Ordinal);
        var here = Text("AM-0150.pdf");
        Assert.Contains("day of age 69 ", here.Replace('\n', ' '), StringComparison.Ordinal);
        Assert.Contains("stage hatchling, by its weights up to 2026-01-11", here, StringComparison.Ordinal);
        Assert.Contains("not yet identifiable, 1 weight is too few", (await Run("growth", "AM-0150")).Output, StringComparison.Ordinal);
        Assert.Matches(@"AM-0148\s+Scarlet macaw\s+13\s", (await Run("chicks", "--all")).Output);
    }

    [Fact]
    public async Task A_report_of_an_unknown_chick_is_refused()
    {
        await Import();

        Assert.Equal(2, (await Run("report", "AM-9999")).Code);
        Assert.False(File.Exists(Path.Combine(folder, "AM-9999.pdf")));
    }

    private string Text(string name)
    {
        using var pdf = PdfDocument.Open(Path.Combine(folder, name));
        return string.Join('\n', pdf.GetPages().Select(page => string.Join(' ', page.GetWords().Select(word => word.Text))));
    }

    private void Feed(string chick, int batch, string state)
    {
        using var store = CaptureStore.Open(Path.Combine(folder, "capture.db"), time);
        store.Add(new FeedRow(Guid.NewGuid(), chick, time.GetUtcNow(), "Etc/UTC", new DateOnly(2026, 3, 20), batch, state, "station"));
    }

    private Guid Observe(string chick, string kind, DateOnly? day = null)
    {
        using var store = CaptureStore.Open(Path.Combine(folder, "capture.db"), time);
        var seen = new ObservationRow(Guid.NewGuid(), chick, At(day), "Etc/UTC", day ?? new DateOnly(2026, 3, 20), kind, "station");
        store.Add(seen);
        return seen.Id;
    }

    private void SeeFull(string chick, DateOnly day)
    {
        using var store = CaptureStore.Open(Path.Combine(folder, "capture.db"), time);
        store.Add(new CropMarkRow(Guid.NewGuid(), chick, At(day), "Etc/UTC", day, "station"));
    }

    private void Undo(Guid row)
    {
        using var store = CaptureStore.Open(Path.Combine(folder, "capture.db"), time);
        store.Add(new UndoRow(Guid.NewGuid(), time.GetUtcNow(), "Etc/UTC", row, "station"));
    }

    private DateTimeOffset At(DateOnly? day) => day is { } given ? new DateTimeOffset(given, new TimeOnly(7, 0), TimeSpan.Zero) : time.GetUtcNow();

    private async Task Import()
    {
        Assert.Equal(0, (await Run("import", "register", "chicks.csv")).Code);
        Assert.Equal(0, (await Run("import", "weights", "weights.csv")).Code);
    }

    private async Task<(int Code, string Output, string Error)> Run(params string[] arguments)
    {
        using var output = new MemoryStream();
        await using var error = new StringWriter();
        var code = await CommandLine.RunAsync(arguments, new Surroundings(output, error, folder, time));
        return (code, Encoding.UTF8.GetString(output.ToArray()), error.ToString());
    }

    private void Put(string name, string text) => File.WriteAllText(Path.Combine(folder, name), text);
}
