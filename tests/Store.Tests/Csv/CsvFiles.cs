using CaptureAgent.Store.Csv;

namespace CaptureAgent.Store.Tests.Csv;

/// <summary>Imports and exports of texts.</summary>
internal static class CsvFiles
{
    public static readonly ImportOptions Options = new("east-room", "Etc/UTC");

    public static ImportResult Register(CaptureStore store, string text, bool skipBad = false) =>
        CsvImport.Register(store, new StringReader(text), Options with { SkipBad = skipBad });

    public static ImportResult Weights(CaptureStore store, string text, bool skipBad = false) =>
        CsvImport.Weights(store, new StringReader(text), Options with { SkipBad = skipBad });

    public static string Weights(CaptureStore store, bool all = false)
    {
        var text = new StringWriter();
        CsvExport.Weights(store, text, all: all);
        return text.ToString();
    }

    public static string Register(CaptureStore store)
    {
        var text = new StringWriter();
        CsvExport.Register(store, text);
        return text.ToString();
    }
}
