using System.Diagnostics;
using System.Globalization;

namespace CaptureAgent.Benchmarks.GrowthFits;

/// <summary>The same fits by R's <c>nls</c> with its self-starting logistic model: a general statistics program, one process, one thread.</summary>
/// <param name="Version">As R names itself.</param>
/// <param name="Seconds">For the fits alone: reading the file and starting R do not count; likewise the next.</param>
/// <param name="ProcessorSeconds">What a busy machine does not lengthen.</param>
/// <param name="Asymptotes">Not a number where nls ended with an error.</param>
internal sealed record RBaseline(string Version, double Seconds, double ProcessorSeconds, double[] Asymptotes)
{
    private const string Script = """
        d <- read.csv(commandArgs(TRUE)[1])
        s <- split(d[c("t", "w")], d$chick)
        for (one in s[1:20]) try(nls(w ~ SSlogis(t, A, m, k), one), silent = TRUE)
        a <- rep(NaN, length(s))
        used <- system.time(for (i in seq_along(s)) {
          f <- try(nls(w ~ SSlogis(t, A, m, k), s[[i]]), silent = TRUE)
          if (!inherits(f, "try-error")) a[i] <- coef(f)[["A"]]
        })
        cat(R.version.string, "\n", used[["elapsed"]], "\n", used[["user.self"]] + used[["sys.self"]], "\n", sep = "")
        cat(sprintf("%.12g", a), sep = "\n")
        """;

    /// <returns>Null where R is not installed.</returns>
    public static RBaseline? Run((double[] Ages, double[] Grams)[] chicks)
    {
        var folder = Directory.CreateTempSubdirectory("growth-").FullName;
        try
        {
            var (data, script) = (Path.Combine(folder, "d.csv"), Path.Combine(folder, "fit.R"));
            File.WriteAllText(script, Script);
            using (var text = new StreamWriter(data))
            {
                text.WriteLine("chick,t,w");
                for (var i = 0; i < chicks.Length; i++)
                {
                    for (var j = 0; j < chicks[i].Ages.Length; j++)
                        text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{i},{chicks[i].Ages[j]},{chicks[i].Grams[j]}"));
                }
            }

            return Parsed(Output("Rscript", "--vanilla", script, data));
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static RBaseline Parsed(string[] lines) =>
        new(lines[0], Number(lines[1]), Number(lines[2]), [.. lines[3..].Select(Number)]);

    private static double Number(string text) => text == "NaN" ? double.NaN : double.Parse(text, CultureInfo.InvariantCulture);

    private static string[] Output(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })!;
        var text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0 ? text.Split('\n', StringSplitOptions.RemoveEmptyEntries) : throw new InvalidOperationException($"{program} ended with {process.ExitCode}.");
    }
}
