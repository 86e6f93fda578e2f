using System.CommandLine;
using System.Globalization;

namespace CaptureAgent.Agent.Commands;

/// <summary>An option that is a day.</summary>
internal static class DayOption
{
    public static Option<DateOnly?> Create(string name, string description) => new(name)
    {
        HelpName = "DATE",
        Description = description,
        CustomParser = result =>
        {
            if (DateOnly.TryParseExact(result.Tokens[0].Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
                return day;
            result.AddError($"{name} is '{result.Tokens[0].Value}'; allowed: a date such as 2026-03-02.");
            return null;
        },
    };
}
