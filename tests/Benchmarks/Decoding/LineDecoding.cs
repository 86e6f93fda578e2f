using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using BenchmarkDotNet.Attributes;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Codes;
using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Benchmarks.Decoding;

/// <summary>From bytes to grams, degrees or a code, one dialect a method.</summary>
/// <remarks>BenchmarkDotNet derives from it, so it is neither internal nor sealed.</remarks>
public partial class LineDecoding
{
    /// <summary>Lines of one turn; every figure is per line.</summary>
    public const int Lines = 10_000;

    private const int Piece = 4096;

    private readonly LineFramer framer = new();
    private readonly LineFramer scannerFramer = new(tabEnds: true);
    private readonly HeaderComma headerComma = new();
    private readonly SignValue signValue = new();
    private readonly RequestReply requestReply = new();
    private readonly IScaleDecoder custom = ScaleDialects.Create(
        ScaleDialects.Custom, @"(?<sign>[+-]) *(?<value>\d+\.\d+) *(?<unit>g|kg)", "+    28.40 g").Decoder!;
    private readonly TextProbe textProbe = new();
    private readonly CodeRules codes = CodeRules.TryCompile("[A-Z]{2}-[0-9]{4}", CheckScheme.None, out var rules, out var fault)
        ? rules
        : throw new InvalidOperationException(fault);

    private readonly byte[] headerCommaLines = Text(i => i % 2 == 0 ? $"ST,GS,+{Grams(i),8}  g\r\n" : $"US,NT,-{Grams(i),8}  g\r\n");
    private readonly byte[] signValueLines = Text(i => i % 2 == 0 ? $"+ {Grams(i),8} g  \r\n" : $"- {Grams(i),8}    \r\n");
    private readonly byte[] requestReplyLines = Text(i => $"S {(i % 2 == 0 ? 'S' : 'D')} {Grams(i),10} g\r\n");
    private readonly byte[] customLines = Text(i => $"+ {Grams(i),8} g\r\n");
    private readonly byte[] probeLines = Text(i => i % 2 == 0 ? $"{Celsius(i)} \u00B0C\r\n" : $"{Celsius(i)} C\r\n");
    private readonly byte[] scannerLines = Text(i => string.Create(CultureInfo.InvariantCulture, $"AM-{i % 10_000:0000}\r"));
    private readonly byte[][] single = [.. Enumerable.Range(0, Lines).Select(i => Encoding.Latin1.GetBytes(i % 2 == 0 ? $"ST,GS,+{Grams(i),8}  g" : $"US,NT,-{Grams(i),8}  g"))];

    [Benchmark(Description = "baseline: GetString, Regex, decimal.Parse", Baseline = true, OperationsPerInvoke = Lines)]
    public decimal Plain()
    {
        var sum = 0m;
        foreach (var line in single)
        {
            var match = HeaderCommaLine().Match(Encoding.Latin1.GetString(line));
            if (match.Success)
                sum += decimal.Parse(match.Groups["sign"].Value + match.Groups["value"].Value, NumberStyles.Number, CultureInfo.InvariantCulture);
        }

        return sum;
    }

    [Benchmark(Description = "`header-comma`", OperationsPerInvoke = Lines)]
    public decimal HeaderCommaDialect() => Sum(headerComma, headerCommaLines);

    [Benchmark(Description = "`sign-value`", OperationsPerInvoke = Lines)]
    public decimal SignValueDialect() => Sum(signValue, signValueLines);

    [Benchmark(Description = "`request-reply`", OperationsPerInvoke = Lines)]
    public decimal RequestReplyDialect() => Sum(requestReply, requestReplyLines);

    [Benchmark(Description = "`text` (probe)", OperationsPerInvoke = Lines)]
    public decimal TextDialect()
    {
        var sum = 0m;
        for (var from = 0; from < probeLines.Length; from += Piece)
        {
            ReadOnlySpan<byte> piece = probeLines.AsSpan(from, Math.Min(Piece, probeLines.Length - from));
            while (framer.TryTakeLine(ref piece, out var line))
            {
                if (textProbe.Decode(line, out var reading) == LineFault.None)
                    sum += reading.Celsius;
            }
        }

        return sum;
    }

    [Benchmark(Description = "`custom` (a user's pattern; no target)", OperationsPerInvoke = Lines)]
    public decimal CustomDialect() => Sum(custom, customLines);

    [Benchmark(Description = "`line` (scanner: gives a string; no target)", OperationsPerInvoke = Lines)]
    public int ScannerDialect()
    {
        var chicks = 0;
        for (var from = 0; from < scannerLines.Length; from += Piece)
        {
            ReadOnlySpan<byte> piece = scannerLines.AsSpan(from, Math.Min(Piece, scannerLines.Length - from));
            while (scannerFramer.TryTakeLine(ref piece, out var line))
                chicks += codes.Classify(CodeRules.Text(line)) == CodeKind.Chick ? 1 : 0;
        }

        return chicks;
    }

    /// <summary>Every line must count, or the figure would be one of refusals.</summary>
    [GlobalSetup]
    public void Check()
    {
        foreach (var (decoder, lines) in new (IScaleDecoder, byte[])[] { (headerComma, headerCommaLines), (signValue, signValueLines), (requestReply, requestReplyLines), (custom, customLines) })
        {
            var taken = 0;
            ReadOnlySpan<byte> rest = lines;
            while (framer.TryTakeLine(ref rest, out var line))
                taken += decoder.Decode(line, out _) == LineFault.None ? 1 : 0;
            if (taken != Lines)
                throw new InvalidOperationException($"{decoder.GetType().Name} took {taken} of {Lines} lines.");
        }

        if (ScannerDialect() != Lines || TextDialect() < Lines * 38m)
            throw new InvalidOperationException("Not every line of the probe or the scanner was taken.");
    }

    private decimal Sum(IScaleDecoder decoder, byte[] lines)
    {
        var sum = 0m;
        for (var from = 0; from < lines.Length; from += Piece)
        {
            ReadOnlySpan<byte> piece = lines.AsSpan(from, Math.Min(Piece, lines.Length - from));
            while (framer.TryTakeLine(ref piece, out var line))
            {
                // A line without a unit is in the unit last shown: gram.
                if (decoder.Decode(line, out var reading) == LineFault.None)
                    sum += MassUnits.ToGrams(reading.Value, reading.Unit == MassUnit.None ? MassUnit.Gram : reading.Unit);
            }
        }

        return sum;
    }

    private static string Grams(int i) => (20 + (i % 9000 / 10m)).ToString("0.0", CultureInfo.InvariantCulture);

    private static string Celsius(int i) => (38 + (i % 40 / 10m)).ToString("0.0", CultureInfo.InvariantCulture);

    private static byte[] Text(Func<int, string> line) => Encoding.Latin1.GetBytes(string.Concat(Enumerable.Range(0, Lines).Select(line)));

    [GeneratedRegex(@"^(ST|US),(GS|NT),(?<sign>[+-]) *(?<value>\d+\.\d+) *(?<unit>g|kg)$", RegexOptions.CultureInvariant)]
    private static partial Regex HeaderCommaLine();
}
