using System.Diagnostics;
using CaptureAgent.Page.Tests.Support;
using Microsoft.Playwright;
using Xunit;

namespace CaptureAgent.Page.Tests.Browser;

/// <summary>The view "now" on a ten-inch tablet, seen from three metres.</summary>
/// <remarks>
/// The height of a letter of MA minutes of arc at the distance D is H = 6.283 D MA / 21600 (NUREG-0700, revision 2, from memory of the formula):
/// 17.45 mm for 20 minutes at 3 m. A screen of 10.1 inches and 16 : 10 is 217.5 mm wide, 1280 CSS pixels.
/// </remarks>
public sealed class ReadAcrossTheRoomTests
{
    private const double Distance = 3000, Minutes = 20, ScreenWidth = 217.5, ScreenPixels = 1280;

    private const double LetterHeight = 6.283 * Distance * Minutes / 21600;

    private const double OneMinute = 6.283 * Distance / 21600;

    [Fact(Timeout = 600_000)]
    public async Task Number_and_code_are_twenty_minutes_of_arc_tall()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        served.Tell("AM-0147", 186.4m);
        var page = await browser.OpenAsync(served.Here);
        foreach (var part in (string[])[".now .number", ".now .code"])
        {
            await page.WaitForSelectorAsync(part);
            // Of the glyphs themselves, not of their line: the ink of a 1 above the base line.
            var pixels = await page.EvaluateAsync<double>(
                "part => { const c = document.createElement('canvas').getContext('2d'); const s = getComputedStyle(document.querySelector(part)); c.font = `${s.fontWeight} ${s.fontSize} ${s.fontFamily}`; return c.measureText('1').actualBoundingBoxAscent; }", part);
            Assert.True(pixels * ScreenWidth / ScreenPixels >= LetterHeight, $"{part}: {pixels * ScreenWidth / ScreenPixels:0.0} mm, {LetterHeight:0.00} mm are wanted");
        }
    }

    [Theory(Timeout = 600_000)]
    [InlineData("light")]
    [InlineData("dark")]
    [InlineData("red")]
    public async Task They_are_read_right_from_a_picture_of_one_pixel_a_minute_of_arc(string light)
    {
        Assert.SkipWhen(!File.Exists("/usr/bin/tesseract"), "SKIPPED: no OCR. Install it: apt-get install -y --no-install-recommends tesseract-ocr");
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        served.Tell("AM-0147", 186.4m);
        var page = await browser.OpenAsync($"{served.Here}/?light={light}");
        await page.WaitForSelectorAsync(".now .number");
        var code = await ReadAsync(page, ".now .code", light, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-");
        var number = await ReadAsync(page, ".now .number", light, "0123456789.");

        Assert.Equal("AM-0147", code);
        Assert.StartsWith("186.4", number, StringComparison.Ordinal);
    }

    private static async Task<string> ReadAsync(IPage page, string part, string light, string letters)
    {
        var box = (await page.Locator(part).BoundingBoxAsync())!;
        var picture = await page.ScreenshotAsync(new() { Clip = new() { X = box.X, Y = box.Y, Width = Math.Min(box.Width, (float)ScreenPixels - box.X), Height = box.Height } });
        var seen = await ShrinkAsync(page, picture, ScreenWidth / ScreenPixels / OneMinute);
        var path = Path.Combine(Chromium.Pictures, $"arc-{light}-{part[5..].TrimStart('.')}.png");
        await File.WriteAllBytesAsync(path, seen, TestContext.Current.CancellationToken);
        using var ocr = Process.Start(new ProcessStartInfo("/usr/bin/tesseract", [path, "-", "--psm", "7", "-c", $"tessedit_char_whitelist={letters}"]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var text = await ocr.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await ocr.WaitForExitAsync(TestContext.Current.CancellationToken);
        return text.Trim().Replace(" ", "", StringComparison.Ordinal);
    }

    // Down to one pixel a minute of arc, which loses what an eye loses; then grey, dark on light and four times as large, which adds nothing, but is what the engine is made for.
    private static async Task<byte[]> ShrinkAsync(IPage page, byte[] picture, double factor)
    {
        var data = await page.EvaluateAsync<string>("""
            async ([png, factor]) => {
              const bytes = Uint8Array.from(atob(png), c => c.charCodeAt(0));
              const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
              const small = document.createElement('canvas');
              small.width = Math.round(image.width * factor); small.height = Math.round(image.height * factor);
              const s = small.getContext('2d'); s.imageSmoothingQuality = 'high'; s.drawImage(image, 0, 0, small.width, small.height);
              const pixels = s.getImageData(0, 0, small.width, small.height), d = pixels.data;
              const dark = Math.max(d[0], d[1], d[2]) < 128;
              for (let i = 0; i < d.length; i += 4) { const grey = Math.max(d[i], d[i + 1], d[i + 2]); d[i] = d[i + 1] = d[i + 2] = dark ? 255 - grey : grey; }
              s.putImageData(pixels, 0, 0);
              const large = document.createElement('canvas'); large.width = small.width * 4 + 80; large.height = small.height * 4 + 80;
              const l = large.getContext('2d'); l.fillStyle = '#fff'; l.fillRect(0, 0, large.width, large.height); l.imageSmoothingQuality = 'high';
              l.drawImage(small, 40, 40, small.width * 4, small.height * 4);
              return large.toDataURL('image/png').split(',')[1];
            }
            """, new object[] { Convert.ToBase64String(picture), factor });
        return Convert.FromBase64String(data);
    }
}
