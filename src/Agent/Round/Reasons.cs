namespace CaptureAgent.Agent.Round;

/// <summary>Why a weighing was rejected, and what the keeper can do about it.</summary>
internal static class Reasons
{
    public const string AfterFeed = "after-feed";
    public const string AlreadyWeighed = "already-weighed";
    public const string Implausible = "implausible";
    public const string Unsettled = "unsettled";
    public const string HandContact = "hand-contact";
    public const string UnknownChick = "unknown-chick";
    public const string NoCode = "no-code";
    public const string TwoCodes = "two-codes";
    public const string NoTare = "no-tare";
    public const string UnitChanged = "unit-changed";
    public const string Overload = "overload";
    public const string Underload = "underload";
    public const string LinkLost = "link-lost";
    public const string TooCoarse = "too-coarse";

    /// <summary>The weight itself is sound, whatever it means: accepted, or refused for the crop or the day alone.</summary>
    public static bool IsSettled(IReadOnlyList<string> reasons)
    {
        foreach (var reason in reasons)
        {
            if (reason is not (AfterFeed or AlreadyWeighed))
                return false;
        }

        return true;
    }

    /// <summary>One sentence for a keeper with wet hands.</summary>
    public static string RemedyFor(string reason) => reason switch
    {
        AfterFeed => "Fed too short a time ago: weigh this chick tomorrow before its first feed.",
        AlreadyWeighed => "Today's weight is in the record. To put a new one in its place, scan the re-weigh card, then the chick.",
        Implausible => "Check the code and that one chick alone lies on the pan, then weigh again.",
        Unsettled => "Let the chick calm down, lay it on the liner and wait for the answer before lifting it.",
        HandContact => "Take the hand right off the chick and wait for the answer before lifting it.",
        UnknownChick => "Add this code to the register: the weight is kept and will count from then on.",
        NoCode => "Scan the chick's code before it goes on the pan, or while it lies there.",
        TwoCodes => "Two codes for one chick: lift it, scan its own code alone and weigh again.",
        NoTare => "Take everything off the pan, lay the liner on it, wait a moment, then put the chick on.",
        UnitChanged => "Set the scale to the unit it had (grams), lift the chick and weigh again.",
        Overload => "Too heavy for this scale: take everything off and use a larger one.",
        Underload => "The scale shows less than it can: put pan and liner back in place and weigh again.",
        LinkLost => "The scale was not heard for a while: lift the chick, wait until the pan is still and weigh again.",
        TooCoarse => "The values that this scale sends step too coarsely for a chick of this weight: weigh it on a gram scale.",
        _ => "Weigh this chick again.",
    };
}
