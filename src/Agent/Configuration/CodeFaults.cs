using CaptureAgent.Protocol.Codes;

namespace CaptureAgent.Agent.Configuration;

/// <summary>The rules for chick codes, as station.json has them.</summary>
internal static class CodeFaults
{
    /// <summary>The rules of a checked station.json.</summary>
    public static CodeRules Rules(CodeOptions codes)
    {
        _ = CheckSchemes.TryParse(codes.Check, out var scheme);
        return CodeRules.TryCompile(codes.Pattern, scheme, out var rules, out var fault) ? rules : throw new ArgumentException(fault, nameof(codes));
    }

    /// <summary>Says what is wrong with a chick's code, null if nothing is: a code that the station cannot scan is of no use in its register.</summary>
    public static Func<string, string?> Of(CodeOptions codes)
    {
        var rules = Rules(codes);
        return code => rules.Classify(code) switch
        {
            CodeKind.Chick => null,
            CodeKind.BadCheck => $"has a wrong check character ({codes.Check}, as codes.check in station.json has it)",
            CodeKind.Card => "is the code of a command card, not of a chick",
            _ => $"does not match codes.pattern of station.json, {codes.Pattern}",
        };
    }
}
