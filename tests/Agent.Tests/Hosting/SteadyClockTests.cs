using CaptureAgent.Agent.Hosting;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hosting;

public sealed class SteadyClockTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 5, 0, 0, TimeSpan.Zero);

    private readonly JumpingClock wall = new(Start);
    private readonly SteadyClock clock;

    public SteadyClockTests() => clock = new SteadyClock(wall);

    [Fact]
    public void Time_goes_on_with_the_monotonic_clock()
    {
        wall.Pass(TimeSpan.FromSeconds(90));

        Assert.Equal(Start.AddSeconds(90), clock.GetUtcNow());
        Assert.Null(clock.Check());
    }

    [Theory]
    [InlineData(0.4)]
    [InlineData(-0.4)]
    public void A_small_difference_is_left_alone(double seconds)
    {
        wall.Jump(TimeSpan.FromSeconds(seconds));

        Assert.Null(clock.Check());
        Assert.Equal(Start, clock.GetUtcNow());
    }

    [Fact]
    public void A_step_forward_is_taken_over_when_it_is_seen()
    {
        wall.Jump(TimeSpan.FromHours(3));
        Assert.Equal(Start, clock.GetUtcNow());

        Assert.Equal(TimeSpan.FromHours(3), clock.Check()!.Value.By);
        Assert.Equal(Start.AddHours(3), clock.GetUtcNow());
        Assert.Null(clock.Check());
    }

    [Fact]
    public void A_step_backward_never_makes_time_go_back_and_is_reported_once()
    {
        wall.Pass(TimeSpan.FromSeconds(10));
        wall.Jump(TimeSpan.FromHours(-1));

        Assert.Equal(TimeSpan.FromHours(-1), clock.Check()!.Value.By);
        Assert.Null(clock.Check());
        Assert.Equal(Start.AddSeconds(10), clock.GetUtcNow());

        wall.Pass(TimeSpan.FromSeconds(1));
        Assert.Equal(Start.AddSeconds(11), clock.GetUtcNow());
        Assert.Null(clock.Check());
    }

    [Fact]
    public void A_second_step_backward_is_reported_again_and_so_is_one_after_the_clock_was_right()
    {
        wall.Jump(TimeSpan.FromMinutes(-1));
        Assert.NotNull(clock.Check());
        wall.Jump(TimeSpan.FromMinutes(-1));
        Assert.Equal(TimeSpan.FromMinutes(-2), clock.Check()!.Value.By);

        wall.Jump(TimeSpan.FromMinutes(2));
        Assert.Null(clock.Check());
        wall.Jump(TimeSpan.FromMinutes(-2));
        Assert.NotNull(clock.Check());
    }
}
