using CaptureAgent.Agent.Links.Devices;

namespace CaptureAgent.Agent.Links.Serial;

/// <summary>Opens a serial port: exclusively, set up, and empty.</summary>
internal sealed class SerialSessions(SerialPlan plan, ISerialPortControl control, TimeProvider time) : ISessionSource
{
    public Task<ISession> OpenAsync(bool afterSilence, CancellationToken stop)
    {
        var port = CharacterDevice.Open(plan.Path);
        try
        {
            var ignored = control.SetUp(port, plan.Settings);
            var remark = ignored.Count == 0 ? null : $"The driver of {plan.Path} does not take these settings: {string.Join(", ", ignored)}.";
            return Task.FromResult<ISession>(new SerialSession(port, control, plan, time, remark, afterSilence));
        }
        catch
        {
            port.Dispose();
            throw;
        }
    }
}
