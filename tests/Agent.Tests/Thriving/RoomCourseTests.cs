using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>What all weights of a morning have in common: told, and gone or kept.</summary>
public sealed class RoomCourseTests
{
    private const int Days = 30, Shifted = 12;

    [Theory]
    [InlineData(1.03)]
    [InlineData(0.97)]
    public void A_shift_of_one_morning_has_no_echo(double factor) =>
        Assert.Equal([Shifted], Told(day => day == Shifted ? factor : 1).Shifts);

    [Theory]
    [InlineData(1.03)]
    [InlineData(0.97)]
    public void A_shift_that_stays_is_told_twice_at_most_and_blames_no_chick(double factor)
    {
        var (shifts, blamed) = Told(day => day >= Shifted ? factor : 1);
        Assert.Contains(Shifted, shifts);
        Assert.All(shifts, day => Assert.InRange(day, Shifted, Shifted + 1));
        Assert.Empty(blamed);
    }

    [Fact]
    public void What_is_common_to_all_mornings_is_no_shift()
    {
        var course = default(RoomCourse);
        for (var day = 0; day < 60; day++)
            course = course.After(course.Passing(new RoomEffect(0.008, 0.002, 100)));
        Assert.Equal(0.008, course.Usual, 0.001);
    }

    [Fact]
    public void A_shift_tells_nothing_of_what_is_usual()
    {
        var course = new RoomCourse(0.001, 0);
        var after = course.After(course.Passing(new RoomEffect(0.03, 0.002, 100)));
        Assert.Equal(0.001, after.Usual);
        Assert.True(after.Stays(after.Passing(new RoomEffect(0.03, 0.002, 100))));
        Assert.False(after.Stays(after.Passing(new RoomEffect(-0.03, 0.002, 100))));
    }

    private static (List<int> Shifts, List<string> Blamed) Told(Func<int, double> factor)
    {
        List<int> shifts = [];
        List<string> blamed = [];
        var room = Enumerable.Range(0, 12).Select(i => SimulatedCourse.Chick(SimulatedCourse.Code(i), 6 + i, Days, (day, grams) => factor(day) * grams)).ToList();
        RoomReview.Of(room, PublishedGrowth.Instance, SimulatedCourse.First.AddDays(Days - 1), Tuning.Usual, morning =>
        {
            foreach (var finding in Agent.Thriving.Findings.Of(morning).Where(finding => finding.Severity != Severities.Note))
            {
                if (finding.Chick is { } chick)
                    blamed.Add($"{chick} {finding.Kind} {finding.Day}");
                else
                    shifts.Add(finding.Day.DayNumber - SimulatedCourse.First.DayNumber);
            }
        });
        return (shifts, blamed);
    }
}
