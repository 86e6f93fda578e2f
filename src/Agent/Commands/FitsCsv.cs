using System.Globalization;
using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Commands;

/// <summary>The fitted curves of many chicks as CSV (RFC 4180): one row a chick, the curve that fits best.</summary>
internal static class FitsCsv
{
    public const string Header = "chick,species,weights,model,finalGrams,finalGramsError,rate,rateError,inflectionDays,inflectionDaysError,shape,scatterGrams,leftOut,notIdentifiable";

    public static string Row(ChickFit found)
    {
        var identity = string.Create(CultureInfo.InvariantCulture, $"{Quoted(found.Chick.Code)},{Quoted(found.Chick.Species ?? "")},{found.Weights}");
        return found.Fit switch
        {
            null => $"{identity},,,,,,,,,,,too few weights",
            { IsTold: false } fit => $"{identity},{fit.Model.Name},,,,,,,,,{fit.LeftOut.Count},{Quoted(fit.WhyNotTold!)}",
            var fit => string.Create(CultureInfo.InvariantCulture,
                $"{identity},{fit.Model.Name},{fit.Asymptote:0.###},{fit.StandardError(0):0.###},{fit.Parameters[1]:0.######},{fit.StandardError(1):0.######},{fit.Parameters[2]:0.###},{fit.StandardError(2):0.###},{(fit.Parameters.Length > 3 ? fit.Parameters[3].ToString("0.####", CultureInfo.InvariantCulture) : "")},{fit.ResidualSd:0.####},{fit.LeftOut.Count},"),
        };
    }

    private static string Quoted(string text) => text.AsSpan().IndexOfAny(",\"\r\n") < 0 ? text : $"\"{text.Replace("\"", "\"\"")}\"";
}
