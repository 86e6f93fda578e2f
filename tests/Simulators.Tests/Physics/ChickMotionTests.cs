using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Chicks;
using Xunit;

namespace CaptureAgent.Simulators.Tests.Physics;

public sealed class ChickMotionTests
{
    private static readonly Func<SeededRandom, Temperament>[] Temperaments =
        [Temperament.Sleeper, Temperament.Calm, Temperament.Restless, Temperament.Flapper, random => Temperament.Restless(random) with { AmbleSeconds = 0.1 }];

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Mean_force_over_time_goes_to_zero_as_one_over_time(int kind)
    {
        for (ulong seed = 1; seed <= 5; seed++)
        {
            var random = new SeededRandom(seed);
            var motion = new ChickMotion(Temperaments[kind](random), random);
            var (brief, lasting) = (Mean(motion, 10), Mean(motion, 1000));

            // The error of a mean is the change of momentum over the length: a speed of 0.3 m/s in 1000 s is 3e-5 of gravity.
            Assert.InRange(Math.Abs(lasting), 0, 5e-5);
            Assert.InRange(Math.Abs(brief), 0, 0.03);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.06)]
    [InlineData(0.2)]
    public void Shuffling_has_the_force_that_its_temperament_says(double ambleSeconds)
    {
        var temperament = new Temperament("test") { BreathForce = 0, AmbleSeconds = ambleSeconds, ShuffleForce = 0.02, ShuffleHertz = 1.2, ActiveSeconds = 1e9, RestLevel = 1 };
        var motion = new ChickMotion(temperament, new(7));
        var sum = 0.0;
        const int Steps = 400_000;
        for (var i = 0; i < Steps; i++)
        {
            var force = motion.Advance();
            sum += force * force;
        }

        Assert.InRange(Math.Sqrt(sum / Steps), 0.018, 0.022);
    }

    [Fact]
    public void Neighbouring_forces_are_alike_and_distant_ones_are_not()
    {
        var motion = new ChickMotion(new("test") { ShuffleForce = 0.02, ActiveSeconds = 1e9, RestLevel = 1 }, new(3));
        var force = Enumerable.Range(0, 200_000).Select(_ => motion.Advance()).ToArray();

        Assert.InRange(Correlation(force, 4), 0.6, 1);
        Assert.InRange(Math.Abs(Correlation(force, 2000)), 0, 0.1);
    }

    [Fact]
    public void Burst_of_wing_beats_has_no_net_impulse_and_ends_where_it_began()
    {
        for (ulong seed = 1; seed <= 50; seed++)
        {
            var random = new SeededRandom(seed);
            var burst = new FlapBurst(2, random.Between(0.4, 1.8), random.Between(4, 9), 0.4);
            double impulse = 0, height = 0, strongest = 0;
            for (var t = 1.9; t < burst.End + 0.1; t += SimulatedTime.StepSeconds)
            {
                var force = (burst.VelocityAt(t + SimulatedTime.StepSeconds) - burst.VelocityAt(t)) / SimulatedTime.StepSeconds;
                impulse += force * SimulatedTime.StepSeconds;
                height += burst.VelocityAt(t) * SimulatedTime.StepSeconds;
                strongest = Math.Max(strongest, Math.Abs(force) / SimulatedTime.Gravity);
            }

            Assert.InRange(Math.Abs(impulse), 0, 1e-12);
            Assert.InRange(Math.Abs(height), 0, 2e-4);
            Assert.InRange(strongest, 0.15, 0.9);
        }
    }

    [Fact]
    public void Flapper_flaps_and_a_sleeper_does_not()
    {
        Assert.True(Flaps(Temperament.Flapper(new(5))) > 0);
        Assert.Equal(0, Flaps(Temperament.Sleeper(new(5))));
    }

    private static int Flaps(Temperament temperament)
    {
        var motion = new ChickMotion(temperament, new(1));
        var flaps = 0;
        for (var i = 0; i < 60 * 200; i++)
        {
            motion.Advance();
            flaps += motion.IsFlapping ? 1 : 0;
        }

        return flaps;
    }

    private static double Mean(ChickMotion motion, int seconds)
    {
        var sum = 0.0;
        var steps = (int)(seconds / SimulatedTime.StepSeconds);
        for (var i = 0; i < steps; i++)
            sum += motion.Advance();
        return sum / steps;
    }

    private static double Correlation(double[] values, int lag)
    {
        double product = 0, square = 0;
        for (var i = lag; i < values.Length; i++)
        {
            product += values[i] * values[i - lag];
            square += values[i] * values[i];
        }

        return product / square;
    }
}
