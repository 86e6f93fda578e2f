using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Configuration;

/// <summary>Whether a frame description may be used: it must read frames right that were seen with an empty pan and two known masses, or, for a probe, at two known temperatures.</summary>
internal static class FrameProof
{
    private const decimal LeastBetweenCelsius = 10;

    /// <summary>How well a keeper knows a temperature (common practice, no source).</summary>
    private const decimal KnownCelsius = 0.5m;

    /// <summary>Two masses that are this many divisions apart show the factor.</summary>
    private const int LeastDivisions = 20;

    public static void Check(DeviceOptions device, FrameOptions frame, string path, RuleBook book)
    {
        for (var i = 0; i < frame.Proof.Count; i++)
        {
            if (!FrameRules.BytesForm().IsMatch(frame.Proof[i].Frame))
            {
                book.Add($"{path}[{i}].frame", frame.Proof[i].Frame, "must be the bytes of one frame: pairs of hexadecimal digits without blanks.");
                return;
            }
        }

        if (device.Role == "probe")
            CheckProbe(device, frame, path, book);
        else
            CheckScale(device, frame, path, book);
    }

    private static void CheckScale(DeviceOptions device, FrameOptions frame, string path, RuleBook book)
    {
        var known = frame.Proof.Select(one => one.Known).Distinct().Order().ToList();
        var decoder = FrameDescriptions.Scale(frame);
        var division = 0m;
        for (var i = 0; i < frame.Proof.Count; i++)
        {
            var proof = frame.Proof[i];
            if (!TryRead(decoder, proof.Frame, $"{path}[{i}].frame", book, out var reading))
                return;
            division = Math.Max(device.DivisionGrams ?? 0, reading.StepGrams(reading.Unit));
            var grams = MassUnits.ToGrams(reading.Value, reading.Unit);
            if (Math.Abs(grams - proof.Known) > division)
                book.Add($"{path}[{i}].frame", proof.Frame, $"the description makes {RuleBook.Text(grams)} g of it, and {RuleBook.Text(proof.Known)} g lay on the pan: allowed is one division, {RuleBook.Text(division)} g.");
        }

        if (!known.Contains(0) || known.Count(mass => mass != 0) < 2 || known[^1] - known.Where(mass => mass != 0).Min() < LeastDivisions * division)
        {
            book.Add(path, null, $"not proven: it needs a frame with the pan empty (\"known\": 0) and one each with two known masses that are far apart. `capture-agent devices --listen {device.Id}` takes them.");
        }
    }

    private static void CheckProbe(DeviceOptions device, FrameOptions frame, string path, RuleBook book)
    {
        var decoder = FrameDescriptions.Probe(frame);
        for (var i = 0; i < frame.Proof.Count; i++)
        {
            var proof = frame.Proof[i];
            if (!TryRead(decoder, proof.Frame, $"{path}[{i}].frame", book, out var reading))
                return;
            var allowed = Math.Max(KnownCelsius, reading.ResolutionCelsius);
            if (Math.Abs(reading.Celsius - proof.Known) > allowed)
                book.Add($"{path}[{i}].frame", proof.Frame, $"the description makes {RuleBook.Text(Math.Round(reading.Celsius, 3))} °C of it, and it was {RuleBook.Text(proof.Known)} °C: allowed is {RuleBook.Text(allowed)} °C.");
        }

        if (frame.Proof.Count < 2 || frame.Proof.Max(one => one.Known) - frame.Proof.Min(one => one.Known) < LeastBetweenCelsius)
        {
            book.Add(path, null, $"not proven: it needs a frame each at two known temperatures, {LeastBetweenCelsius} °C apart or more (melting ice and warm water beside a thermometer that you trust). `capture-agent devices --listen {device.Id}` takes them.");
        }
    }

    private static bool TryRead<TReading>(IDecoder<TReading> decoder, string frame, string path, RuleBook book, out TReading reading)
        where TReading : struct
    {
        var fault = decoder.Decode(Convert.FromHexString(frame), out reading);
        if (fault == LineFault.None)
            return true;
        book.Add(path, frame, $"the description does not read it: {Why(fault)}.");
        return false;
    }

    private static string Why(LineFault fault) => fault switch
    {
        LineFault.BadShape => "it is too short",
        LineFault.BadCheck => "the check sum does not fit",
        LineFault.NoValue => "it begins with other bytes",
        LineFault.UnknownUnit => "its unit byte is not in the table",
        _ => "its value is no weight and no temperature",
    };
}
