namespace CaptureAgent.Agent.Typefaces;

/// <summary>The typeface of everything that is drawn: it lies in the program, for a headless machine may have none.</summary>
/// <remarks>DejaVu Sans: Latin, Greek, Cyrillic and more; LICENSE-DejaVu.txt beside it.</remarks>
internal static class Typeface
{
    public const string Family = "DejaVu Sans";

    public static byte[] Regular() => Read("DejaVuSans.ttf");

    public static byte[] Bold() => Read("DejaVuSans-Bold.ttf");

    private static byte[] Read(string name)
    {
        using var stream = typeof(Typeface).Assembly.GetManifestResourceStream(name)!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
