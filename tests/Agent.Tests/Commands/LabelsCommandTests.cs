using System.Text;
using CaptureAgent.Agent.Commands;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Commands;

public sealed class LabelsCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("labels-").FullName;

    public LabelsCommandTests() => Station("""{ "pattern": "[A-Z]{2}-[0-9]{4}[0-9A-Z*]", "check": "mod37-2" }""");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Cards_need_no_store()
    {
        var (code, output, _) = await Run("labels --cards --output cards.pdf");

        Assert.Equal(0, code);
        Assert.Contains("labels, sheet 2x5", output, StringComparison.Ordinal);
        Assert.Equal("%PDF"u8.ToArray(), File.ReadAllBytes(Path.Combine(folder, "cards.pdf"))[..4]);
    }

    [Fact]
    public async Task Chicks_that_have_left_get_no_card_unless_named()
    {
        await Register("AM-0147" + Check("AM-0147") + ",,2026-02-06,,E2,\n" + "AM-0148" + Check("AM-0148") + ",,2026-02-06,,E3,2026-02-20\n");

        Assert.Contains(": 2 labels", (await Run("labels --all --brooders --output a.pdf")).Output, StringComparison.Ordinal);
        Assert.Contains(": 1 labels", (await Run($"labels --chicks AM-0148{Check("AM-0148")} --output a.pdf")).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_card_that_this_station_would_not_read_is_not_printed()
    {
        var wrong = "AM-0147" + (Check("AM-0147") == "0" ? "1" : "0");
        Station("{}");
        await Register($"{wrong},,2026-02-06,,,\n12,,2026-02-06,,,\n");
        Station("""{ "pattern": "[A-Z]{2}-[0-9]{4}[0-9A-Z*]", "check": "mod37-2" }""");

        var (code, _, error) = await Run("labels --all --output a.pdf");

        Assert.Equal(2, code);
        Assert.Contains($"{wrong}: its check character is wrong", error, StringComparison.Ordinal);
        Assert.Contains("12: does not match codes.pattern", error, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(folder, "a.pdf")));
    }

    [Theory]
    [InlineData("labels --output a.pdf", "nothing to print")]
    [InlineData("labels --cards --sheet 9x9 --output a.pdf", "Allowed: 2x5")]
    [InlineData("labels --cards --skip 10 --output a.pdf", "0 to 9")]
    [InlineData("labels --cards --output none/a.pdf", "cannot be written")]
    public async Task What_is_wrong_is_named(string arguments, string problem)
    {
        var (code, _, error) = await Run(arguments);

        Assert.Equal(2, code);
        Assert.Contains(problem, error, StringComparison.Ordinal);
    }

    private static string Check(string body) => Protocol.Codes.Iso7064.Compute(Protocol.Codes.CheckScheme.Mod37Comma2, body)!;

    private async Task Register(string rows)
    {
        Put("chicks.csv", "code,species,hatched,clutch,brooder,left\n" + rows);
        Assert.Equal(0, (await Run("import register chicks.csv")).Code);
    }

    private void Station(string codes) => Put("station.json", $$"""
        { "codes": {{codes}}, "devices": [ { "id": "scale", "role": "scale", "dialect": "header-comma" } ] }
        """);

    private void Put(string name, string text) => File.WriteAllText(Path.Combine(folder, name), text);

    private async Task<(int Code, string Output, string Error)> Run(string arguments)
    {
        using var output = new MemoryStream();
        using var error = new StringWriter();
        var time = new FakeTimeProvider(new DateTimeOffset(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
        var code = await CommandLine.RunAsync(arguments.Split(' '), new Surroundings(output, error, folder, time));
        return (code, Encoding.UTF8.GetString(output.ToArray()), error.ToString());
    }
}
