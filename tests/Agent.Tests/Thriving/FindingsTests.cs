using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

public sealed class FindingsTests
{
    private const int Days = 12;

    [Fact]
    public void A_thriving_room_gives_neither_red_nor_look() =>
        Assert.DoesNotContain(SimulatedCourse.Judge(SimulatedCourse.Room(Days), Days).Findings, finding => finding.Severity != Severities.Note);

    [Fact]
    public void A_loss_before_the_peak_is_red_by_the_second_morning()
    {
        var findings = With("LB-0003", day => day >= Days - 2 ? Math.Pow(0.97, day - (Days - 3)) * SimulatedCourse.Curve(8 + Days - 3) : null);
        var loss = Assert.Single(findings, finding => finding.Chick == "LB-0003" && finding.Kind == FindingKinds.Loss);
        Assert.Equal(Severities.Red, loss.Severity);
        Assert.True(loss.Grams < loss.LowGrams);
        Assert.Contains("avian veterinarian", loss.Text, StringComparison.Ordinal);
        Assert.Contains("?", loss.Text, StringComparison.Ordinal);
    }

    /// <summary>A room with a shift, a loss, digits exchanged, a pair exchanged and one that nobody weighed.</summary>
    [Fact]
    public void What_is_found_of_one_chick_alone_is_what_is_found_of_it_among_all()
    {
        List<WatchedChick> room = [.. Enumerable.Range(0, 12).Select(i => SimulatedCourse.Chick(SimulatedCourse.Code(i), 6 + i, Days, (day, grams) => day < Days - 1 ? grams : i switch
        {
            0 => Exchanged(SimulatedCourse.Curve(6 + day)),
            2 => 0.9 * SimulatedCourse.Curve(8 + day - 1),
            4 => 1.02 * SimulatedCourse.Curve(6 + 6 + day),
            6 => 1.02 * SimulatedCourse.Curve(6 + 4 + day),
            10 => 0,
            _ => 1.02 * grams,
        }))];
        HashSet<string> kinds = [];
        RoomReview.Of(room, PublishedGrowth.Instance, SimulatedCourse.First.AddDays(Days - 1), Tuning.Usual, morning =>
        {
            var all = Agent.Thriving.Findings.Of(morning);
            kinds.UnionWith(all.Where(finding => finding.Chick is not null).Select(finding => finding.Kind));
            foreach (var chick in room)
                Assert.Equal(all.Where(finding => finding.Chick == chick.Code), Agent.Thriving.Findings.Of(morning, chick.Code));
        });
        Assert.Superset(new HashSet<string> { FindingKinds.Implausible, FindingKinds.Loss, FindingKinds.Swapped, FindingKinds.NotWeighed }, kinds);
    }

    [Fact]
    public void A_weight_above_what_growth_explains_asks_for_the_crop()
    {
        var findings = With("LB-0004", day => day == Days - 1 ? 1.09 * SimulatedCourse.Curve(9 + day) : null);
        Assert.Contains("crop", Assert.Single(findings, finding => finding.Chick == "LB-0004" && finding.Kind == FindingKinds.TooGood).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Exchanged_digits_are_named_and_the_chick_is_not_blamed()
    {
        // 27.9 g on the curve, written as 72.9.
        var findings = With("LB-0001", day => day == Days - 1 ? Exchanged(SimulatedCourse.Curve(6 + day)) : null);
        var odd = Assert.Single(findings, finding => finding.Chick == "LB-0001");
        Assert.Equal(FindingKinds.Implausible, odd.Kind);
        Assert.Contains("exchanged", odd.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_weight_that_a_loss_explains_as_well_as_exchanged_digits_is_asked_both_ways()
    {
        // About 46 g on the curve: 41.6 g is 46.1 g with digits exchanged, and what a day without food may leave.
        var findings = With("LB-0006", day => day == Days - 1 ? 41.6 : null).Where(finding => finding.Chick == "LB-0006").ToList();
        Assert.Contains("exchanged", Assert.Single(findings, finding => finding.Kind == FindingKinds.Implausible).Text, StringComparison.Ordinal);
        var loss = Assert.Single(findings, finding => finding.Kind == FindingKinds.Loss);
        Assert.Equal(Severities.Red, loss.Severity);
        Assert.Contains("last feed", loss.Text, StringComparison.Ordinal);
    }

    /// <summary>Where growth ends, one doubtful weight shows of no recession that it is none.</summary>
    [Fact]
    public void Near_the_peak_exchanged_digits_that_look_like_a_loss_are_asked_both_ways_and_can_wait()
    {
        const int Age = 36;
        var curve = SimulatedCourse.Curve(Age + Days - 1);
        var asked = 0;
        for (var grams = Math.Round(0.91 * curve, 1); grams < 0.97 * curve; grams += 0.1)
        {
            var room = SimulatedCourse.Room(Days);
            room.Add(SimulatedCourse.Chick("LB-0099", Age, Days, (day, usual) => day == Days - 1 ? grams : usual));
            var findings = SimulatedCourse.Judge(room, Days).Findings.Where(finding => finding.Chick == "LB-0099").ToList();
            if (findings.Exists(finding => finding.Kind == FindingKinds.Implausible))
                asked++;
            Assert.DoesNotContain(findings, finding => finding.Severity == Severities.Red);
        }

        Assert.NotEqual(0, asked);
    }

    [Fact]
    public void A_weight_that_no_day_without_food_explains_is_asked_for_its_digits_alone()
    {
        var findings = With("LB-0004", day => day == Days - 1 ? 3.4 : null);
        Assert.Equal(FindingKinds.Implausible, Assert.Single(findings, finding => finding.Chick == "LB-0004").Kind);
    }

    [Fact]
    public void Two_mates_with_each_other_s_weight_are_both_named()
    {
        var (a, b) = (SimulatedCourse.Curve(6 + Days - 1), SimulatedCourse.Curve(9 + Days - 1));
        List<WatchedChick> room =
        [
            .. SimulatedCourse.Room(Days).Skip(2),
            SimulatedCourse.Chick("MT-0001", 6, Days, (day, grams) => day == Days - 1 ? b : grams, "nest 1"),
            SimulatedCourse.Chick("MT-0002", 9, Days, (day, grams) => day == Days - 1 ? a : grams, "nest 1"),
        ];
        var swapped = SimulatedCourse.Judge(room, Days).Findings.Where(finding => finding.Kind == FindingKinds.Swapped).ToList();
        Assert.Equal(["MT-0001", "MT-0002"], swapped.Select(finding => finding.Chick).Order());
        Assert.DoesNotContain(SimulatedCourse.Judge(room, Days).Findings, finding => finding.Kind == FindingKinds.Loss);
    }

    [Theory]
    [InlineData(0.04, 1.04)]
    [InlineData(0.04, 1.05)]
    [InlineData(0.045, 1.04)]
    public void A_chick_that_fails_and_a_mate_that_is_a_little_heavy_are_no_exchange(double lost, double heavy)
    {
        // One gains too little for three mornings; it weighs by now what the other should, and the other nearly what it should.
        List<WatchedChick> room =
        [
            .. SimulatedCourse.Room(Days).Skip(2),
            SimulatedCourse.Chick("MT-0001", 5, Days, (day, grams) => day == Days - 1 ? heavy * SimulatedCourse.Curve(5 + day) : grams, "nest 1"),
            SimulatedCourse.Chick("MT-0002", 7, Days, (day, _) => SimulatedCourse.Curve(7 + day) * (1 - lost * Math.Max(0, day - (Days - 4))), "nest 1"),
        ];
        var findings = SimulatedCourse.Judge(room, Days).Findings;
        Assert.DoesNotContain(findings, finding => finding.Kind == FindingKinds.Swapped);
        Assert.Contains(findings, finding => finding.Chick == "MT-0002" && finding.Severity != Severities.Note);
    }

    [Theory]
    [InlineData(1.03)]
    [InlineData(0.97)]
    public void A_shift_of_the_whole_room_is_said_once_and_blames_no_chick(double factor)
    {
        var room = Enumerable.Range(0, 12).Select(i => SimulatedCourse.Chick(SimulatedCourse.Code(i), 6 + i, Days, (day, grams) => day == Days - 1 ? factor * grams : grams)).ToList();
        var findings = SimulatedCourse.Judge(room, Days).Findings.Where(finding => finding.Severity != Severities.Note).ToList();
        var shift = Assert.Single(findings);
        Assert.Null(shift.Chick);
        Assert.Equal(FindingKinds.RoomShift, shift.Kind);
    }

    [Fact]
    public void A_chick_without_a_weight_of_the_day_is_missed()
    {
        var summary = SimulatedCourse.Judge([.. SimulatedCourse.Room(Days).Skip(1), SimulatedCourse.Chick("LB-0001", 6, Days - 1)], Days);
        Assert.Equal(["LB-0001"], summary.NotWeighed);
        var missed = Assert.Single(summary.Findings, finding => finding.Kind == FindingKinds.NotWeighed);
        Assert.Equal("LB-0001", missed.Chick);
        Assert.NotNull(missed.ExpectedGrams);
    }

    [Fact]
    public void A_slow_recession_after_the_peak_is_no_more_than_a_note()
    {
        // From day 40 of age on 0.8 % less a day, down to 15 % below the peak.
        var chick = SimulatedCourse.Chick("LB-0099", 8, 52, (day, grams) => grams * Math.Exp(-0.008 * Math.Clamp(8 + day - 40, 0, 20)));
        for (var days = 20; days <= 52; days++)
        {
            var findings = SimulatedCourse.Judge([chick], days).Findings.Where(finding => finding.Severity != Severities.Note).ToList();
            Assert.Empty(findings);
        }
    }

    [Fact]
    public void The_card_moves_a_chick_to_weaning()
    {
        var chick = SimulatedCourse.Chick("LB-0099", 20, 12, weaning: SimulatedCourse.First.AddDays(9));
        Assert.Equal(Stage.Weaning, Assert.Single(SimulatedCourse.Judge([chick], 12).Chicks).Stage);
        Assert.NotEqual(Stage.Weaning, Assert.Single(SimulatedCourse.Judge([chick], 8).Chicks).Stage);
    }

    private static IReadOnlyList<GrowthFinding> With(string code, Func<int, double?> change)
    {
        var room = SimulatedCourse.Room(Days);
        var i = room.FindIndex(chick => chick.Code == code);
        room[i] = SimulatedCourse.Chick(code, 6 + i, Days, (day, grams) => change(day) ?? grams);
        return SimulatedCourse.Judge(room, Days).Findings;
    }

    private static double Exchanged(double grams)
    {
        var written = Math.Round(grams, 1).ToString("0.0", System.Globalization.CultureInfo.InvariantCulture);
        return double.Parse($"{written[1]}{written[0]}{written[2..]}", System.Globalization.CultureInfo.InvariantCulture);
    }
}
