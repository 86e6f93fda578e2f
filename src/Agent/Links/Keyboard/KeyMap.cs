namespace CaptureAgent.Agent.Links.Keyboard;

/// <summary>What a key types on a US keyboard, which is how scanners are delivered (key codes: Linux, include/uapi/linux/input-event-codes.h).</summary>
internal static class KeyMap
{
    public const int Enter = 28, KeypadEnter = 96, Tab = 15, LeftControl = 29, RightControl = 97, LeftShift = 42, RightShift = 54, CapsLock = 58, Letter1 = 2;

    // By key code, from Escape (1) to Space (57); \0 types nothing.
    private const string Plain = "\0\u001b1234567890-=\b\tqwertyuiop[]\r\0asdfghjkl;'`\0\\zxcvbnm,./\0*\0 ";
    private const string Shifted = "\0\u001b!@#$%^&*()_+\b\tQWERTYUIOP{}\r\0ASDFGHJKL:\"~\0|ZXCVBNM<>?\0*\0 ";

    // From keypad 7 (71) to the keypad's point (83).
    private const string Keypad = "789-456+1230.";
    private const int KeypadStart = 71, KeypadSlash = 98;

    /// <summary>\0 if the key types no character.</summary>
    public static char Type(int code, bool shift, bool capsLock)
    {
        if (code is KeypadEnter)
            return '\r';
        if (code is KeypadSlash)
            return '/';
        if (code >= KeypadStart && code - KeypadStart < Keypad.Length)
            return Keypad[code - KeypadStart];
        if (code < 0 || code >= Plain.Length)
            return '\0';
        var isLetter = char.IsAsciiLetter(Plain[code]);
        return shift != (isLetter && capsLock) ? Shifted[code] : Plain[code];
    }
}
