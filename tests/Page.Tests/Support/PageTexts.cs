using System.Text.Json;
using CaptureAgent.Agent.Page.Live;

namespace CaptureAgent.Page.Tests.Support;

/// <summary>The words of the page, by key.</summary>
internal static class PageTexts
{
    // A module whose object is JSON.
    public static Dictionary<string, string> In(string language)
    {
        using var stream = typeof(Board).Assembly.GetManifestResourceStream($"page/texts-{language}.js")!;
        using var reader = new StreamReader(stream);
        var text = reader.ReadToEnd();
        var json = text[(text.IndexOf("export default ", StringComparison.Ordinal) + "export default ".Length)..text.LastIndexOf(';')];
        return JsonSerializer.Deserialize<Dictionary<string, string>>(json)!;
    }
}
