using CaptureAgent.Agent.Checks;
using Xunit;

namespace CaptureAgent.Agent.Tests.Checks;

public sealed class DeviceHoldersTests
{
    [Fact]
    public void A_file_that_nobody_holds_has_no_holders() => Assert.Empty(DeviceHolders.Of($"/dev/no-such-device-{Environment.ProcessId}"));

    [Fact]
    public void This_program_is_not_named_as_a_holder()
    {
        var path = Path.GetTempFileName();
        using (File.OpenRead(path))
            Assert.Empty(DeviceHolders.Of(path));
        File.Delete(path);
    }
}
