using CaptureAgent.Agent.Hosting;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hosting;

public sealed class RehearsalTests
{
    [Fact]
    public void The_rehearsal_goes_all_the_way_to_a_stored_weighing() => Assert.True(Rehearsal.Run());
}
