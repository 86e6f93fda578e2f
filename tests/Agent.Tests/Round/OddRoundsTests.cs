using System.Globalization;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>No coded load comes and goes without a word, whatever it was taken for meanwhile.</summary>
public sealed class OddRoundsTests
{
    private const int ChicksARound = 5;

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.5)]
    [InlineData(1)]
    [InlineData(2)]
    public void Every_coded_load_that_lay_for_four_seconds_has_exactly_one_answer(double division)
    {
        List<string> faults = [];
        for (var seed = 0; seed < 60; seed++)
            faults.AddRange(Play(seed, division));
        Assert.True(faults.Count == 0, string.Join('\n', faults));
    }

    [Fact]
    public void A_still_chick_taken_for_the_liner_and_lifted_is_refused_by_name()
    {
        var scene = Coarse(2, ("CH-0001", 150)).Hold(7, 0).Scan("CH-0001").Hold(1, 0).Ramp(0.4, 0, 150).Hold(5.5, 150).Ramp(0.3, 150, 0).Hold(3, 0);
        Assert.Equal(("CH-0001", "rejected"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.Equal(["no-tare"], scene.TheWeighing.Reasons);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 146, 154);
        Assert.DoesNotContain(scene.Wait(70).Events, told => told is AlertEvent { Alert: "code-expired" });
    }

    [Fact]
    public void A_chick_taken_for_the_liner_is_weighed_as_soon_as_it_stirs()
    {
        var scene = Coarse(2, ("CH-0001", 150)).Hold(2, 0).Ramp(0.3, 0, 3).Hold(4, 3).Scan("CH-0001").Hold(1, 3).Ramp(0.4, 3, 153).Hold(2, 153).Hold(25, 153, 3);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 148, 152);
    }

    [Fact]
    public void A_liner_that_is_laid_and_taken_away_while_a_code_waits_is_no_chick()
    {
        var scene = new Scene().Hold(2, 0).Scan("AM-0147").Ramp(0.4, 0, 12).Hold(5, 12).Ramp(0.4, 12, 0).Hold(2, 0).Ramp(0.4, 0, 8.2).Hold(4, 8.2).Chick(186.4);
        Assert.Equal(("AM-0147", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void Of_a_chick_without_weights_it_is_said_when_the_next_code_comes()
    {
        var scene = new Scene().Hold(2, 0).Scan("LB-0008").Ramp(0.4, 0, 9).Hold(5, 9).Ramp(0.4, 9, 0).Hold(2, 0);
        Assert.Empty(scene.Weighings);
        scene.Scan("AM-0147").Hold(1, 0);
        Assert.Equal("LB-0008", scene.TheWeighing.Chick);
        Assert.Equal(["no-tare"], scene.TheWeighing.Reasons);
        Assert.NotEmpty(scene.TheWeighing.Remedy!);
    }

    [Fact]
    public void A_restless_chick_on_a_bare_pan_that_is_lifted_before_it_is_believed_is_said()
    {
        var scene = new Scene().Hold(3, 0).Scan("AM-0147").Ramp(0.4, 0, 186).Hold(4, 186, 4).Ramp(0.3, 186, 0).Hold(3, 0);
        Assert.Equal("AM-0147", scene.TheWeighing.Chick);
        Assert.Equal("rejected", scene.TheWeighing.Verdict);
    }

    [Fact]
    public void A_sleeper_laid_down_before_the_pan_had_come_to_rest_is_no_tare()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4);
        scene.Ramp(0.3, 194.6, 8.2).Hold(0.7, 8.2, 3).Scan("CN-0321").Ramp(0.3, 8.2, 66.9).Hold(6, 66.9).Ramp(0.3, 66.9, 8.2).Hold(4, 8.2).Wait(70);
        var told = Assert.Single(scene.Weighings, weighing => weighing.Chick == "CN-0321");
        Assert.True(told.Verdict == "rejected" || Math.Abs(told.Grams!.Value - 58.7m) < 0.5m);
    }

    // Chicks of any weight and temper, on any liner or none, in any haste; the code before the load or while it lies there.
    private static IEnumerable<string> Play(int seed, double division)
    {
        var random = new Random(seed);
        List<(string Code, double Grams)> chicks = [];
        for (var i = 0; i < ChicksARound; i++)
            chicks.Add(($"CH-{seed:00}{i:00}", Math.Exp(random.NextDouble() * Math.Log(900 / Least(division))) * Least(division)));
        var scene = Coarse(division, [.. chicks.Where(_ => random.NextDouble() < 0.8)]);
        var tare = (new[] { 0.0, 3, 8.2, 140 })[random.Next(4)];
        scene.Hold(2, 0);
        if (tare > 0)
            scene.Ramp(0.4, 0, tare).Hold(3 + 6 * random.NextDouble(), tare);
        List<(string Code, double Grams, string How)> laid = [];
        foreach (var (code, grams) in chicks)
        {
            var noise = grams * (new[] { 0, 0.001, 0.005, 0.02, 0.06 })[random.Next(5)];
            var stay = 4.5 + 16 * random.NextDouble();
            var late = random.NextDouble() < 0.3;
            var stirs = random.NextDouble() < 0.3;
            if (!late)
                scene.Scan(code).Hold(0.7 + 2 * random.NextDouble(), tare);
            scene.Ramp(0.4, tare, tare + grams);
            if (late)
                scene.Hold(1.5, tare + grams, noise).Scan(code);
            scene.Hold(stay / 2, tare + grams, noise);
            if (stirs)
                scene.Hold(0.8, tare + grams * (1 + 0.15 * (random.NextDouble() - 0.5)), noise);
            scene.Hold(stay / 2, tare + grams, noise).Ramp(0.3, tare + grams, tare).Hold(0.8 + 3 * random.NextDouble(), tare, 0.2 * division);
            laid.Add((code, grams, FormattableString.Invariant($"d {division}, seed {seed}, {code} of {grams:0.0} g on {tare} g, noise {noise:0.00}, {stay:0.0} s{(late ? ", scanned late" : "")}{(stirs ? ", stirs" : "")}")));
        }

        scene.Wait(70);
        foreach (var (code, grams, how) in laid)
        {
            var weighings = scene.Weighings.Where(told => told.Chick == code || told.Remedy?.Contains(code, StringComparison.Ordinal) == true).ToList();
            var expired = scene.Events.OfType<AlertEvent>().Count(alert => alert.Alert == "code-expired" && alert.Chick == code);
            if (weighings.Count + expired != 1)
                yield return $"{how}: {weighings.Count} weighings ({string.Join("; ", weighings.Select(told => string.Join(',', told.Reasons)))}) and {expired} expired codes";
            foreach (var wrong in weighings.Where(told => told.Verdict == "accepted" && Math.Abs((double)told.Grams!.Value - grams) > Math.Max(1.5 * division, 0.01 * grams)))
                yield return $"{how}: {wrong.Grams} g";
        }
    }

    // What a scale of this division sees at all.
    private static double Least(double division) => Math.Max(6, 5 * division);

    private static Scene Coarse(double division, params (string Code, double Grams)[] known)
    {
        var chicks = known.Select(chick => new Chick(chick.Code, null, new DateOnly(2026, 2, 10)));
        var rows = known.SelectMany(chick => Enumerable.Range(1, 3).Reverse().Select(days => new WeighingRow(
            Guid.NewGuid(), chick.Code, null, "Etc/UTC", new DateOnly(2026, 3, 2).AddDays(-days), (long)(1000 * chick.Grams / Math.Pow(1.05, days)), null, null,
            Verdict.Accepted, [], null, null, Origin.Imported, "test", null)));
        return new Scene(options => options.Devices[0].DivisionGrams = (decimal)division, new Ledger(chicks, [.. rows.OrderBy(row => row.Day)], []))
        {
            Line = (grams, moving) => string.Create(
                CultureInfo.InvariantCulture, $"{(moving ? "US" : "ST")},GS,{(grams < -division / 2 ? '-' : '+')}{Math.Abs(Math.Round(grams / division) * division),8:F1}  g\r\n"),
        };
    }
}
