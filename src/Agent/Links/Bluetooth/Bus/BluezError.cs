using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Bus;

/// <summary>What an error of BlueZ means for what to do next (BlueZ, src/error.h; the texts of Failed are those of its src/shared and src/device.c).</summary>
internal static class BluezError
{
    private const string Prefix = "org.bluez.Error.";

    public static bool IsServiceGone(string name) => name is
        "org.freedesktop.DBus.Error.ServiceUnknown" or "org.freedesktop.DBus.Error.NameHasNoOwner"
        or "org.freedesktop.DBus.Error.NoReply" or "org.freedesktop.DBus.Error.Disconnected";

    /// <summary>The object was taken from the bus: a temporary device goes some 30 s after it was last heard.</summary>
    public static bool IsObjectGone(DBusErrorReplyException error) => error.ErrorName is
        "org.freedesktop.DBus.Error.UnknownObject" or "org.freedesktop.DBus.Error.UnknownMethod" or "org.freedesktop.DBus.Error.UnknownInterface"
        or Prefix + "DoesNotExist";

    public static bool IsAlreadyConnected(DBusErrorReplyException error) => error.ErrorName is Prefix + "AlreadyConnected";

    /// <summary>An older try to connect, perhaps of a program that has died, is still pending.</summary>
    public static bool IsInProgress(DBusErrorReplyException error) => error.ErrorName is Prefix + "InProgress";

    public static bool IsNotReady(DBusErrorReplyException error) => error.ErrorName is Prefix + "NotReady";

    /// <summary>The device asks for a bond, or does not know the one we have any more.</summary>
    public static bool IsAboutPairing(DBusErrorReplyException error) => error.ErrorName is
        Prefix + "AuthenticationFailed" or Prefix + "AuthenticationCanceled" or Prefix + "AuthenticationRejected" or Prefix + "AuthenticationTimeout"
        or Prefix + "NotAuthorized"
        || (error.ErrorName is Prefix + "NotPermitted" && !Says(error, "acquired"))
        || (error.ErrorName is Prefix + "Failed" && (Says(error, "key-missing") || Says(error, "Insufficient") || Says(error, "encrypt") || Says(error, "0x05") || Says(error, "0x0f")));

    /// <summary>The link did come up for a moment and was dropped again, as happens on a busy air: the next try usually succeeds.</summary>
    public static bool IsPassing(DBusErrorReplyException error) => error.ErrorName is Prefix + "Failed"
        && (Says(error, "abort-by-local") || Says(error, "connection-busy") || Says(error, "connection-unknown") || Says(error, "abort-by-remote") || Says(error, "Software caused connection abort"));

    /// <summary>The error as one short text for the log.</summary>
    public static string Text(DBusErrorReplyException error) =>
        (error.ErrorName.StartsWith(Prefix, StringComparison.Ordinal) ? error.ErrorName[Prefix.Length..] : error.ErrorName)
        + (string.IsNullOrEmpty(error.ErrorMessage) ? "" : $": {error.ErrorMessage}");

    private static bool Says(DBusErrorReplyException error, string words) =>
        error.ErrorMessage?.Contains(words, StringComparison.OrdinalIgnoreCase) is true;
}
