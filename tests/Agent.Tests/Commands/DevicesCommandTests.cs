using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Commands;
using CaptureAgent.Agent.Configuration;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Commands;

/// <summary>The list of instruments, and the search for a value in a recording of an invented device.</summary>
public sealed class DevicesCommandTests : IDisposable
{
    private const string Station = """{ "devices": [ { "id": "scale", "role": "scale", "dialect": "frame"FRAME }, { "id": "probe", "role": "probe", "dialect": "bthome" }, { "id": "scanner", "role": "scanner", "dialect": "line" } ] }""";

    private readonly string folder = Directory.CreateTempSubdirectory("devices-").FullName;

    public DevicesCommandTests() => Put("station.json", Station.Replace("FRAME", "", StringComparison.Ordinal));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task The_instruments_are_listed_with_what_is_still_missing()
    {
        var (code, output, _) = await Run("devices");
        Assert.Equal(0, code);
        Assert.Contains("not described yet: capture-agent devices --listen scale", output, StringComparison.Ordinal);
        Assert.Contains("bthome", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_description_that_is_found_in_a_recording_is_one_that_station_json_takes()
    {
        Put("masses.ndjson", Recording());
        var (code, output, error) = await Run("devices", "--listen", "scale", "--replay", "masses.ndjson", "--known", "0@4", "--known", "100@14", "--known", "500@24");
        Assert.True(code == 0, error);
        var from = output.IndexOf("\"frame\": {", StringComparison.Ordinal);
        var description = output[from..(output.IndexOf("\n}", from, StringComparison.Ordinal) + 2)];
        Put("station.json", Station.Replace("FRAME", ", " + description, StringComparison.Ordinal));
        var frame = StationFile.Load(Path.Combine(folder, "station.json"), devicesAreOpened: false).Devices[0].Frame!;
        Assert.Equal(("fff1", 2, 0.1m, 100m), (frame.Characteristic, frame.Value!.Offset, frame.Value.Factor, frame.Clock!.Milliseconds));
        Assert.Equal(0, (await Run("replay", "masses.ndjson")).Code);
    }

    [Fact]
    public async Task Without_anything_known_the_bytes_that_change_are_shown()
    {
        Put("masses.ndjson", Recording());
        var (code, output, _) = await Run("devices", "--listen", "scale", "--replay", "masses.ndjson");
        Assert.Equal(0, code);
        Assert.Contains("10.0 s  fff1  a5 [64] e8  03", output.Replace("[e8]", " e8 ", StringComparison.Ordinal).Replace("[03]", " 03 ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("devices --listen nobody --replay masses.ndjson", "it has scale, probe")]
    [InlineData("devices --replay masses.ndjson", "needs --listen")]
    [InlineData("devices --listen scale --known 0@4", "needs --replay")]
    [InlineData("devices --listen scale --replay masses.ndjson --known 100", "KNOWN@SECONDS")]
    [InlineData("devices --listen scale --replay masses.ndjson --known 0@4 --known 100@14", "two known masses")]
    [InlineData("devices --listen scale --replay none.ndjson", "no such file")]
    [InlineData("devices --listen scale", "connection")]
    public async Task What_is_wrong_is_said(string arguments, string problem)
    {
        Put("masses.ndjson", Recording());
        var (code, _, error) = await Run(arguments.Split(' '));
        Assert.Equal(2, code);
        Assert.Contains(problem, error, StringComparison.Ordinal);
    }

    /// <summary>A5, counter, tenths of a gram (low byte first), 00: an empty pan, 100 g and 500 g for ten seconds each.</summary>
    private static string Recording()
    {
        var text = new StringBuilder();
        var start = new DateTimeOffset(2026, 3, 2, 5, 40, 0, TimeSpan.Zero);
        for (var i = 0; i < 300; i++)
        {
            var tenths = (i / 100) switch { 0 => 0, 1 => 1000, _ => 5000 };
            text.Append(CultureInfo.InvariantCulture, $$"""{"at":"{{start.AddSeconds(i * 0.1):yyyy-MM-dd'T'HH:mm:ss.fff'Z'}}","device":"scale","source":"fff1","hex":"a5{{i & 0xFF:x2}}{{tenths & 0xFF:x2}}{{tenths >> 8:x2}}00"}""").Append('\n');
        }

        return text.ToString();
    }

    private void Put(string name, string text) => File.WriteAllText(Path.Combine(folder, name), text);

    private async Task<(int Code, string Output, string Error)> Run(params string[] arguments)
    {
        using var output = new MemoryStream();
        using var error = new StringWriter();
        var code = await CommandLine.RunAsync(arguments, new Surroundings(output, error, folder, new FakeTimeProvider()));
        return (code, Encoding.UTF8.GetString(output.ToArray()), error.ToString());
    }
}
