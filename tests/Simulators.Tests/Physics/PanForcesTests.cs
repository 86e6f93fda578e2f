using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Chicks;
using CaptureAgent.Simulators.Physics.Pan;
using Xunit;

namespace CaptureAgent.Simulators.Tests.Physics;

public sealed class PanForcesTests
{
    [Fact]
    public void Hand_carries_its_share_until_it_lets_go()
    {
        var pan = new PanForces(1);
        pan.Add(new("chick", 200));
        pan.Schedule(new Grip(1, "chick", 0.5, 0.4));
        pan.Schedule(new Grip(4, "chick", 0.2, 0));
        pan.Schedule(new Grip(8, "chick", 0.4, -0.1));
        pan.Schedule(new Grip(10, "chick", 0.4, 1));

        Assert.Equal(0, MeanUntil(pan, 1), 9);
        MeanUntil(pan, 1.6);
        Assert.Equal(120, MeanUntil(pan, 4), 6);
        Assert.False(pan.IsFree("chick"));
        MeanUntil(pan, 4.3);
        Assert.True(pan.IsFree("chick"));
        Assert.Equal(200, MeanUntil(pan, 8), 6);
        MeanUntil(pan, 8.5);
        Assert.Equal(220, MeanUntil(pan, 10), 6);
        MeanUntil(pan, 10.5);
        Assert.Equal(0, MeanUntil(pan, 12), 9);
    }

    [Fact]
    public void Steady_hand_makes_a_restless_chick_look_stiller_than_it_is()
    {
        var pan = new PanForces(2);
        pan.Add(new("chick", 200, Temperament.Restless(new(4))));
        pan.Schedule(new Grip(0, "chick", 0.5, 0.4) { Unsteadiness = 0.0003 });
        pan.Schedule(new Grip(10, "chick", 0.2, 0));
        MeanUntil(pan, 1);
        var held = SpreadUntil(pan, 10);
        MeanUntil(pan, 10.5);
        var free = SpreadUntil(pan, 30);

        Assert.True(free > 3 * held, $"free {free}, held {held}");
    }

    [Fact]
    public void Landing_swings_beyond_the_weight_first()
    {
        var pan = new PanForces(3);
        pan.Add(new("tub", 100));
        pan.Schedule(new Grip(0, "tub", 0.4, 0) { Overshoot = 0.3 });
        var highest = 0.0;
        while (pan.Seconds < 2)
            highest = Math.Max(highest, pan.Step());

        Assert.InRange(highest, 105, 130);
        Assert.Equal(100, MeanUntil(pan, 3), 3);
    }

    [Fact]
    public void Dropping_stays_on_the_pan_when_the_chick_goes()
    {
        var pan = new PanForces(4);
        pan.Add(new("chick", 200));
        pan.Schedule(new Grip(0, "chick", 0.1, 0));
        pan.Schedule(new Dropping(2, "chick", 1.5));
        pan.Schedule(new Grip(4, "chick", 0.1, 1));
        MeanUntil(pan, 3);
        Assert.Equal(200, MeanUntil(pan, 4), 9);
        MeanUntil(pan, 5);

        Assert.Equal(1.5, MeanUntil(pan, 6), 9);
        Assert.Equal(198.5, pan.GramsOf("chick"), 9);
    }

    [Fact]
    public void Bump_adds_no_impulse()
    {
        var pan = new PanForces(5);
        pan.Schedule(new Bump(1, 50));
        double impulse = 0, highest = 0;
        while (pan.Seconds < 5)
        {
            var force = pan.Step();
            impulse += force * SimulatedTime.StepSeconds;
            highest = Math.Max(highest, force);
        }

        Assert.InRange(highest, 30, 55);
        Assert.InRange(Math.Abs(impulse), 0, 1e-9);
    }

    [Fact]
    public void Lean_is_a_bias_and_hum_and_draught_are_none()
    {
        Assert.InRange(MeanOf(new Lean(0, 1000, -20, 5)), -21.5, -18.5);
        Assert.InRange(MeanOf(new Draught(0, 1000, 5)), -1, 1);
        Assert.InRange(MeanOf(new Hum(0, 1000, 5, 23.7)), -0.01, 0.01);
    }

    [Fact]
    public void Same_seed_same_forces()
    {
        static double[] Run(ulong seed)
        {
            var pan = new PanForces(seed);
            pan.Add(new("chick", 200, Temperament.Flapper(new(1))));
            pan.Schedule(new Grip(0.5, "chick", 0.4, 0.3) { Unsteadiness = 0.05 });
            pan.Schedule(new Grip(2, "chick", 0.4, 0));
            pan.Schedule(new Draught(3, 5, 2));
            return [.. Enumerable.Range(0, 4000).Select(_ => pan.Step())];
        }

        Assert.Equal(Run(9), Run(9));
        Assert.NotEqual(Run(9), Run(10));
    }

    private static double MeanOf(PanAction action)
    {
        var pan = new PanForces(6);
        pan.Schedule(action);
        return MeanUntil(pan, 1000);
    }

    private static double MeanUntil(PanForces pan, double seconds)
    {
        var (sum, count) = (0.0, 0);
        for (; pan.Seconds < seconds - 1e-9; count++)
            sum += pan.Step();
        return sum / count;
    }

    private static double SpreadUntil(PanForces pan, double seconds)
    {
        List<double> forces = [];
        while (pan.Seconds < seconds - 1e-9)
            forces.Add(pan.Step());
        var mean = forces.Average();
        return Math.Sqrt(forces.Average(force => (force - mean) * (force - mean)));
    }
}
