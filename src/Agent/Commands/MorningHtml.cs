using System.Globalization;
using System.Net;
using System.Text;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Commands;

/// <summary>The morning summary as one page that needs nothing else: no script, no font, no picture.</summary>
internal static class MorningHtml
{
    private const string Style = """
        :root { color-scheme: light dark }
        body { font: 16px/1.4 system-ui, sans-serif; max-width: 60rem; margin: 1rem auto; padding: 0 1rem }
        h1 { font-size: 1.3rem } h2 { font-size: 1.1rem; margin-top: 1.5rem }
        li { margin: .4rem 0 } .red { border-left: .4rem solid; padding-left: .6rem; font-weight: 600 }
        table { border-collapse: collapse; width: 100% } th, td { text-align: left; padding: .2rem .5rem; border-bottom: 1px solid }
        td:first-child { white-space: nowrap }
        .n { text-align: right; font-variant-numeric: tabular-nums }
        """;

    public static string Of(MorningSummary summary)
    {
        var page = new StringBuilder();
        var title = FormattableString.Invariant($"Morning of {Shown.Day(summary.Day)}");
        page.Append(CultureInfo.InvariantCulture, $"""
            <!doctype html>
            <html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>{title}</title><style>
            {Style}
            </style></head><body>
            <h1>{title}: {summary.Chicks.Count} chicks, {summary.NotWeighed.Count} not weighed yet</h1>

            """);
        foreach (var section in MorningSection.Of(summary))
        {
            var mark = section.Severity is { } severity ? $" class=\"{severity}\"" : null;
            page.Append(CultureInfo.InvariantCulture, $"<h2>{section.Title}</h2>\n<ul>\n{string.Concat(section.Lines.Select(line => $"<li{mark}>{Text(line.Text)}</li>\n"))}</ul>\n");
        }

        page.Append("<h2>All</h2>\n<table><tr><th>chick<th class=n>age<th>stage<th class=n>grams<th class=n>gain<th class=n>expected<th>95 %<th>seen</tr>\n");
        foreach (var chick in summary.Chicks)
        {
            page.Append(CultureInfo.InvariantCulture, $"<tr><td>{Text(chick.Chick)}<td class=n>{chick.AgeDays}<td>{MorningText.Word(chick.Stage)}<td class=n>{MorningText.Grams(chick.Grams)}");
            page.Append(CultureInfo.InvariantCulture, $"<td class=n>{MorningText.Percent(chick.GainPercent)}<td class=n>{MorningText.Grams(chick.ExpectedGrams)}<td>{MorningText.Interval(chick)}<td>{Text(MorningSection.Seen(summary, chick.Chick))}</tr>\n");
        }

        page.Append(CultureInfo.InvariantCulture, $"</table>\n<p>{MorningSection.Caution}</p>\n</body></html>\n");
        return page.ToString();
    }

    private static string Text(string text) => WebUtility.HtmlEncode(text);
}
