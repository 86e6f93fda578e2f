using System.Xml.Linq;
using CaptureAgent.Agent.Commands;
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
        InOrder(page, "12 chicks, 1 not weighed yet</h1>", "<h2>Red: today, before the next feed</h2>", "<li class=\"red\">LB-&lt;2&gt;", "<h2>Not weighed yet</h2>\n<p>LB-0001</p>", "<h2>All</h2>", "nothing is diagnosed");
        Assert.DoesNotContain("LB-<2>", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain("http", page, StringComparison.Ordinal);
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
    public void Every_list_of_the_page_is_closed()
    {
        var page = MorningHtml.Of(Summary);
        var lists = page[page.IndexOf("<ul>", StringComparison.Ordinal)..(page.LastIndexOf("</ul>", StringComparison.Ordinal) + 5)];
        Assert.All(
            lists.Split("</ul>", StringSplitOptions.RemoveEmptyEntries).Select(part => part[part.IndexOf("<ul>", StringComparison.Ordinal)..] + "</ul>"),
            list => Assert.NotEmpty(XElement.Parse(list).Elements("li")));
    }

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
