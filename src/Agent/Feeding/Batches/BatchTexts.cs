using System.Globalization;

namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>What is said of a batch, in the unit that the keeper reads.</summary>
/// <param name="fahrenheit">Texts in °F; °C otherwise.</param>
internal sealed class BatchTexts(bool fahrenheit)
{
    private const string Veterinarian = "Swallowed too hot, formula burns the crop, and the burn may not show for days: a chick that has had it goes to an avian veterinarian today.";

    public string Shown(double celsius) => fahrenheit
        ? string.Create(CultureInfo.InvariantCulture, $"{ToFahrenheit(celsius):0.0} °F")
        : string.Create(CultureInfo.InvariantCulture, $"{celsius:0.0} °C");

    /// <summary>F = 9/5 C + 32, exactly (NIST SP 811, B.8).</summary>
    public static double ToFahrenheit(double celsius) => (celsius * 9 / 5) + 32;

    public string Hot(int batch, double? celsius) =>
        $"Stop: batch {batch} {(celsius is { } known ? $"has or will show {Shown(known)}" : "is too hot")} and may burn a crop. Do not feed. Let it cool, stir, and measure again in two places. {Veterinarian}";

    public static string SoonDiscard(int batch, TimeSpan left) =>
        string.Create(CultureInfo.InvariantCulture, $"Batch {batch} must be thrown away in {left.TotalMinutes:0.#} minutes: begin the next one if chicks still wait.");

    public static string NoFormula(string device, double celsius)
    {
        var asFahrenheit = (celsius - 32) * 5 / 9;
        return string.Create(CultureInfo.InvariantCulture, $"{device} shows {celsius:0.0} °C, which no formula can have. If it is set to °F, that is {asFahrenheit:0.0} °C: set it to send °C, or its unit with each value. If it really is in something so hot, take it out. Nothing is converted, and the batch counts as unmeasured: do not feed from it.");
    }

    /// <summary>What is said of a feed from a batch that is not in range.</summary>
    public string Fed(string chick, int batch, string state, double? celsius)
    {
        var from = $"{chick} was fed from batch {batch}, ";
        return state switch
        {
            BatchStates.Unmeasured => $"{from}whose temperature nobody has measured. Measure it before the next chick.",
            BatchStates.Warming => $"{from}while the probe still rose: its temperature is not known. Wait for the answer before the next chick.",
            BatchStates.TooCold => $"{from}which is too cold{At(celsius)}: cold food slows the crop and chills a small chick. Warm it before the next chick.",
            BatchStates.OneReading => $"{from}which has been measured once only. Lift the probe, stir, and put it back before the next chick.",
            BatchStates.TooHot => $"{from}which is too hot{At(celsius)}. Let it cool before the next chick, and watch this one's crop.",
            BatchStates.Stop => $"{from}which may burn{At(celsius)}. Stop feeding. {Veterinarian}",
            BatchStates.Stir => $"{from}which is unevenly warm: hot spots burn. Stir well and measure in two places. {Veterinarian}",
            _ => $"{from}which is too old. Throw it away, mix a new one, and watch this chick's crop.",
        };
    }

    private string At(double? celsius) => celsius is { } known ? $" ({Shown(known)})" : "";
}
