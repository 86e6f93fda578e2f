namespace CaptureAgent.Store.Tables;

/// <summary>The words that stand in the file (and in CSV) for verdicts, origins, states and sets of reasons.</summary>
internal static class Words
{
    public static string Of(Verdict verdict) => verdict == Store.Verdict.Accepted ? "accepted" : "rejected";

    public static Verdict Verdict(string word) => word == "accepted" ? Store.Verdict.Accepted : Store.Verdict.Rejected;

    public static string Of(Origin origin) => origin switch
    {
        Store.Origin.Captured => "captured",
        Store.Origin.Imported => "imported",
        Store.Origin.Rejudged => "rejudged",
        _ => "adopted",
    };

    public static Origin Origin(string word) => word switch
    {
        "captured" => Store.Origin.Captured,
        "imported" => Store.Origin.Imported,
        "rejudged" => Store.Origin.Rejudged,
        _ => Store.Origin.Adopted,
    };

    public static WeighingState State(string word) => word switch
    {
        "stands" => WeighingState.Stands,
        "replaced" => WeighingState.Replaced,
        _ => WeighingState.TakenBack,
    };

    public static string Of(IReadOnlyList<string> reasons)
    {
        foreach (var reason in reasons)
            if (reason.Length == 0 || reason.Contains(';', StringComparison.Ordinal))
                throw new ArgumentException($"\"{reason}\" cannot be a reason: it is empty or has a semicolon.", nameof(reasons));
        return string.Join(';', reasons);
    }

    public static IReadOnlyList<string> Reasons(string joined) => joined.Length == 0 ? [] : joined.Split(';');
}
