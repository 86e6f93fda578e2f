using System.Runtime.InteropServices;

namespace CaptureAgent.Agent.Links.Devices;

/// <summary>What an error number of the system means for a person who wants to use a device.</summary>
internal static class DeviceFault
{
    /// <param name="error">As open(2) or flock(2) gave it.</param>
    /// <param name="status">Of the device file, if it can be seen.</param>
    /// <param name="user">Who runs the agent.</param>
    public static LinkException Opening(int error, string path, DeviceStatus? status, string user) => error switch
    {
        Libc.NoEntry or Libc.NotDirectory => new(
            LinkCause.Absent, $"There is no {path}.", "Plug the device in and switch it on; `ls /dev/serial/by-id/` lists the serial devices that are there.")
        {
            IsAbsence = true,
        },
        Libc.Access or Libc.NotPermitted => new(LinkCause.Denied, $"Permission denied: {path}.", Permission(status, user)),
        Libc.Busy or Libc.Again => new(
            LinkCause.Busy, $"{path} is busy: another program uses it.", $"Close that program; `fuser -v {path}` names it."),
        Libc.IsDirectory => NotADevice(path),
        Libc.NoDevice or Libc.NoSuchAddress or Libc.InputOutput => new(
            LinkCause.NoAnswer, $"{path} does not answer ({Text(error)}).", "Plug it in again; if that does not help, try another cable or adapter."),
        _ => new(LinkCause.NoAnswer, $"{path} cannot be opened ({Text(error)}).", "It is tried again by itself."),
    };

    public static LinkException NotADevice(string path) => new(
        LinkCause.WrongDevice, $"{path} is no character device.", "Give the path of the device file, best under /dev/serial/by-id/.");

    public static LinkException NotSerial(string path) => new(
        LinkCause.WrongDevice, $"{path} is no serial port.", "Give the path of a serial device, best under /dev/serial/by-id/.");

    public static LinkException Lost(string path, string how) => new(
        LinkCause.Lost, $"{path} was lost ({how}).", "Unplugged or switched off? It is used again by itself when it comes back.");

    public static string Text(int error) => Marshal.GetPInvokeErrorMessage(error);

    // A group that root alone should be in, or that may not use the device anyway, is no advice.
    private static string Permission(DeviceStatus? status, string user) => status switch
    {
        { GroupMayReadAndWrite: true, GroupId: not 0 } => $"Add the user {user} to the group {status.Value.GroupName}"
            + $" (`sudo usermod -aG {status.Value.GroupName} {user}`) and start the agent again.",
        { } seen => $"It belongs to the group {seen.GroupName}, which may not read and write it:"
            + " a udev rule with GROUP=\"dialout\", MODE=\"0660\" gives it to the group dialout.",
        null => "A directory on the way to it is closed to the user " + user + ".",
    };
}
