using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

public sealed class CourseTests
{
    private const int FirstAge = 5, Days = 14;

    /// <summary>The probabilities of what is left add up to one, whatever its like said of what was given up: the level is a mean of them.</summary>
    [Fact]
    public void Courses_that_are_given_up_take_nothing_of_the_level_with_them()
    {
        var noise = new NoiseLevel(0.05, 0);
        var species = new GrowthPriors(PublishedGrowth.Instance, Tuning.Usual).Of(SimulatedCourse.Species);
        var starts = species.Starts(FirstAge, SimulatedCourse.Curve(FirstAge));
        var course = new Course(species, starts, Math.Log(SimulatedCourse.Curve(FirstAge)), 1e-6, noise, Tuning.Usual);
        // All others took the course that seemed least likely beforehand.
        var rarest = starts.MinBy(start => start.LogPrior);
        var kin = new Kin(species.Prior);
        for (var i = 0; i < 200; i++)
            kin.Add([(rarest.Row, 1.0)]);

        for (var age = FirstAge + 1; age <= FirstAge + Days; age++)
        {
            var grams = Math.Log(SimulatedCourse.Curve(age));
            course.Pass(kin, Tuning.Usual, noise);
            course.Take(grams, 1e-6);
            Assert.InRange(course.Level, grams - 0.1, grams + 0.1);
        }
    }
}
