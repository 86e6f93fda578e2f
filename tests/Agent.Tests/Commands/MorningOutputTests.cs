using System.Text.Json;
using System.Xml.Linq;
using CaptureAgent.Agent.Commands;
using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Tests.Thriving;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Commands;

/// <summary>The morning summary as text and as a page: reds first, then those not weighed, then all.</summary>
public sealed class MorningOutputTests
{
    private const int Days = 12;

    private static readonly MorningSummary Summary = SimulatedCourse.Judge(
        [
            .. SimulatedCourse.Room(Days).Skip(2),
            SimulatedCourse.Chick("LB-0001", 6, Days - 1),
            WeighedByAScale(SimulatedCourse.Chick("LB-<2>", 7, Days, (day, grams) => day < Days - 2 ? grams : Math.Pow(0.96, day - (Days - 3)) * SimulatedCourse.Curve(7 + Days - 3))),
        ], Days);

    private static readonly MorningSummary WithSeen = MorningSummary.Of(
        SimulatedCourse.Room(Days), PublishedGrowth.Instance, Summary.Day, [Seen("LB-0003", "crop-smooth"), Seen("LB-0003", ObservationKinds.RingOnToe), Seen("ZZ-<9>", ObservationKinds.CropFull)]);

    [Fact]
    public void The_text_has_reds_first_then_the_missing_then_all_and_diagnoses_nothing()
    {
        var text = MorningText.Of(Summary);
        Assert.StartsWith("Morning of 2026-02-12: 12 chicks, 1 not weighed yet\n", text, StringComparison.Ordinal);
        InOrder(text, "RED: today, before the next feed", "[loss] LB-<2>", "Not weighed yet\n  LB-0001", "\nAll\n", "nothing is diagnosed");
        Assert.DoesNotContain("[not-weighed]", text, StringComparison.Ordinal);
        Assert.Equal(12, text[text.IndexOf("\nAll\n", StringComparison.Ordinal)..].Split('\n').Count(line => line.TrimStart().StartsWith("LB-", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_page_says_the_same_and_what_a_register_wrote_stays_text()
    {
        var page = MorningHtml.Of(Summary);
        Assert.StartsWith("<!doctype html>", page, StringComparison.Ordinal);
        InOrder(page, "12 chicks, 1 not weighed yet</h1>", "<h2>RED: today, before the next feed</h2>", "<li class=\"red\">LB-&lt;2&gt;", "<h2>Not weighed yet</h2>\n<ul>\n<li>LB-0001</li>", "<h2>All</h2>", "nothing is diagnosed");
        Assert.DoesNotContain("LB-<2>", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain("http", page, StringComparison.Ordinal);
    }

    /// <summary>Eight chicks of some 45 to 52 days, three of which are being weaned and lose as is usual.</summary>
    [Fact]
    public void What_is_usual_of_many_chicks_is_one_note_behind_the_others()
    {
        const int Peak = 48;
        const int Long = 24;
        List<WatchedChick> room =
        [
            .. Enumerable.Range(0, 5).Select(i => SimulatedCourse.Chick(SimulatedCourse.Code(i), Peak - Long + i, Long)),
            .. Enumerable.Range(5, 3).Select(i => SimulatedCourse.Chick(
                SimulatedCourse.Code(i), Peak - 5, Long, (day, grams) => grams * Math.Exp(-0.006 * Math.Max(0, day - 8)), weaning: SimulatedCourse.First.AddDays(8))),
        ];
        var summary = SimulatedCourse.Judge(room, Long);
        foreach (var kind in new[] { FindingKinds.WeaningDue, FindingKinds.WeaningLoss })
        {
            var told = summary.Findings.Where(finding => finding.Kind == kind && finding.IsUsual).Select(finding => finding.Chick!).ToList();
            Assert.True(told.Count > 1);
            var line = Assert.Single(MorningText.Of(summary).Split('\n'), line => line.Contains($"[{kind}]", StringComparison.Ordinal));
            Assert.Contains($"{told.Count} chicks ", line, StringComparison.Ordinal);
            Assert.Contains(string.Join(", ", told), line, StringComparison.Ordinal);
            Assert.Contains(string.Join(", ", told), MorningHtml.Of(summary), StringComparison.Ordinal);
        }

        using var output = new MemoryStream();
        MorningJson.Write(summary, output);
        using var json = JsonDocument.Parse(output.ToArray());
        Assert.Equal(summary.Findings.Count, json.RootElement.GetProperty("findings").GetArrayLength());
    }

    [Fact]
    public void A_row_of_the_table_has_every_number_of_the_chick()
    {
        var chick = Summary.Chicks.First(each => each.Grams is not null);
        var row = MorningText.Of(Summary).Split('\n').Last(line => line.TrimStart().StartsWith(chick.Chick, StringComparison.Ordinal));
        foreach (var part in new[] { MorningText.Grams(chick.Grams), MorningText.Percent(chick.GainPercent), MorningText.Grams(chick.ExpectedGrams), MorningText.Interval(chick) })
            Assert.Contains(part!, row, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_seen_stands_with_its_chick_in_the_text_and_on_the_page()
    {
        Assert.EndsWith(" crop smooth, ring on toe", RowOf(MorningText.Of(WithSeen), "LB-0003"), StringComparison.Ordinal);
        Assert.EndsWith(" to " + MorningText.Grams(WithSeen.Chicks.Single(chick => chick.Chick == "LB-0004").HighGrams), RowOf(MorningText.Of(WithSeen), "LB-0004"), StringComparison.Ordinal);
        InOrder(MorningText.Of(WithSeen), "RED: ", "[observation] LB-0003: a ring on a toe", "[too-good] ZZ-<9>: crop seen full", "Seen of chicks that are not in the room", "  ZZ-<9>: crop seen full", "\nAll\n");
        InOrder(MorningHtml.Of(WithSeen), "<h2>RED: ", "LB-0003: a ring on a toe", "ZZ-&lt;9&gt;: crop seen full", "<h2>Seen of chicks that are not in the room", "<li>ZZ-&lt;9&gt;: crop seen full</li>", "<h2>All</h2>", "<tr><td>LB-0003", "<td>crop smooth, ring on toe</tr>");
        Assert.DoesNotContain("Seen of", MorningText.Of(Summary) + MorningHtml.Of(Summary), StringComparison.Ordinal);
    }

    [Fact]
    public void The_JSON_has_what_was_seen_beside_every_key_it_had()
    {
        using var output = new MemoryStream();
        MorningJson.Write(WithSeen, output);
        using var json = JsonDocument.Parse(output.ToArray());
        Assert.Equal(["date", "findings", "notWeighed", "chicks", "observations", "register"], json.RootElement.EnumerateObject().Select(member => member.Name));
        Assert.Equal("""{"chick":"LB-0003","at":"2026-02-12T06:00:00.000Z","observation":"crop-smooth"}""", json.RootElement.GetProperty("observations")[0].GetRawText());
        var chick = json.RootElement.GetProperty("chicks").EnumerateArray().Single(each => each.GetProperty("chick").GetString() == "LB-0003");
        Assert.Equal("""["crop-smooth","ring-on-toe"]""", chick.GetProperty("seen").GetRawText());
        foreach (var key in new[] { "ageDays", "grams", "gainPercent", "expectedGrams", "lowGrams", "highGrams" })
            Assert.Equal(JsonValueKind.Number, chick.GetProperty(key).ValueKind);
        var red = json.RootElement.GetProperty("findings").EnumerateArray().First(each => each.GetProperty("chick").GetString() == "LB-0003");
        Assert.Equal(("observation", "red"), (red.GetProperty("finding").GetString(), red.GetProperty("severity").GetString()));
        Assert.Equal(chick.GetProperty("grams").GetDouble(), red.GetProperty("grams").GetDouble());
    }

    [Fact]
    public void What_is_doubtful_in_the_register_stands_before_the_table()
    {
        var summary = Summary with { Doubts = [new RegisterDoubt("ZZ-<9>", "ZZ-<9> was last weighed 40 days ago")] };
        InOrder(MorningText.Of(summary), "In the register, to be set right", "  ZZ-<9> was last weighed 40 days ago", "\nAll\n");
        InOrder(MorningHtml.Of(summary), "<h2>In the register, to be set right</h2>", "<li>ZZ-&lt;9&gt; was last weighed 40 days ago</li>", "<h2>All</h2>");
        Assert.DoesNotContain("In the register", MorningText.Of(Summary) + MorningHtml.Of(Summary), StringComparison.Ordinal);
        using var output = new MemoryStream();
        MorningJson.Write(summary, output);
        using var json = JsonDocument.Parse(output.ToArray());
        var doubt = json.RootElement.GetProperty("register")[0];
        Assert.Equal(("ZZ-<9>", "ZZ-<9> was last weighed 40 days ago"), (doubt.GetProperty("chick").GetString(), doubt.GetProperty("text").GetString()));
    }

    [Fact]
    public void A_stage_that_is_not_known_is_said_to_be_and_null_in_JSON()
    {
        var summary = MorningSummary.Of([new WatchedChick("AM-0147", null, null, null, null, [])], PublishedGrowth.Instance, Summary.Day);
        Assert.Matches(@"AM-0147\s+not known", RowOf(MorningText.Of(summary), "AM-0147"));
        Assert.Contains("<td>not known<td", MorningHtml.Of(summary), StringComparison.Ordinal);
        using var output = new MemoryStream();
        MorningJson.Write(summary, output);
        using var json = JsonDocument.Parse(output.ToArray());
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("chicks")[0].GetProperty("stage").ValueKind);
    }

    [Fact]
    public void Every_list_of_the_page_is_closed()
    {
        var page = MorningHtml.Of(WithSeen);
        var lists = page[page.IndexOf("<ul>", StringComparison.Ordinal)..(page.LastIndexOf("</ul>", StringComparison.Ordinal) + 5)];
        Assert.All(
            lists.Split("</ul>", StringSplitOptions.RemoveEmptyEntries).Select(part => part[part.IndexOf("<ul>", StringComparison.Ordinal)..] + "</ul>"),
            list => Assert.NotEmpty(XElement.Parse(list).Elements("li")));
    }

    private static Sighting Seen(string chick, string kind) => new(chick, new DateTimeOffset(Summary.Day, new TimeOnly(6, 0), TimeSpan.Zero), Summary.Day, kind);

    private static string RowOf(string text, string chick) => text.Split('\n').Last(line => line.StartsWith(chick, StringComparison.Ordinal));

    // In such weights no digits can be exchanged.
    private static WatchedChick WeighedByAScale(WatchedChick chick) => chick with { Weights = [.. chick.Weights.Select(weight => weight with { Decimals = null })] };

    private static void InOrder(string text, params string[] parts)
    {
        var at = 0;
        foreach (var part in parts)
        {
            var found = text.IndexOf(part, at, StringComparison.Ordinal);
            Assert.True(found >= 0, $"'{part}' is missing after {at} in:\n{text}");
            at = found + part.Length;
        }
    }
}
