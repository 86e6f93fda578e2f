using System.Globalization;
using CaptureAgent.Agent.Tests.Round;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Rejudging;

/// <summary>What a keeper said of a crop is known when a weighing is judged again.</summary>
public sealed class CropRejudgeTests
{
    [Fact]
    public async Task A_weight_at_the_keeper_s_word_and_one_refused_for_a_crop_seen_full_stay_as_they_were()
    {
        var expected = Grams(24);
        var scene = new Scene().Towel()
            .Scan("AM-0147").Chick(1.1 * expected, 14).Lift(8.2 + 1.1 * expected)
            .Scan("!REWEIGH").Hold(1, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(1.1 * expected, 14).Lift(8.2 + 1.1 * expected)
            .Scan("CN-0321").Hold(6, 8.2).Scan("!CROP").Hold(6, 8.2).Scan("CN-0321").Hold(1, 8.2).Chick(58.9, 9, noise: 0.15).Lift(67.1);
        using var morning = new Morning();
        await morning.PlayAsync(scene, "chick,date,grams\n" + string.Concat(Enumerable.Range(1, 23).Select(Row)) + "CN-0321,2026-02-28,52.1\nCN-0321,2026-03-01,55.4\n");
        using (var store = morning.Open())
        {
            var verdicts = store.AllWeighings().Where(stored => stored.Row.Origin == Origin.Captured).Select(stored => (stored.Row.Chick, stored.Row.Verdict));
            Assert.Equal([("AM-0147", Verdict.Rejected), ("AM-0147", Verdict.Accepted), ("CN-0321", Verdict.Rejected)], verdicts);
        }

        Assert.Equal((0, "3 weighings judged again: nothing changes.\n", ""), await morning.RunAsync("rejudge --apply"));
    }

    // Logistic of Ara glaucogularis (fit to Switzer 2008): 845 g, 0.1276 a day, inflection at day 27.27.
    private static double Grams(int day) => 845 / (1 + Math.Exp(-0.1276 * (day - 27.27)));

    private static string Row(int age) =>
        string.Create(CultureInfo.InvariantCulture, $"AM-0147,{new DateOnly(2026, 2, 6).AddDays(age):yyyy-MM-dd},{Grams(age):0.0}\n");
}
