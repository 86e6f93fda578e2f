using CaptureAgent.Agent.Growth.References;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>The reference as the page draws it behind a chick's weights. Pure.</summary>
internal static class ReferenceOfChick
{
    /// <summary>Standard deviations of the 97th centile.</summary>
    private const double Outer = 1.880794;

    public static ReferenceView Of(ReferenceCurve curve) => new(Word(curve.Kind), curve.Source, [.. Enumerable.Range(curve.FirstAge, curve.LastAge - curve.FirstAge + 1).Select(age => Point(age, curve.At(age)!.Value))]);

    private static ReferencePoint Point(int age, Lms at) => new(age, Grams(at.Value(-Outer)), Grams(at.M), Grams(at.Value(Outer)));

    // A distribution with a power may end before: then its end.
    private static decimal Grams(double grams) => double.IsFinite(grams) && grams > 0 ? decimal.Round((decimal)grams, 1) : 0;

    private static string Word(ReferenceKind kind) => kind switch
    {
        ReferenceKind.OwnRecords => "own-records",
        ReferenceKind.Published => "published",
        _ => "group",
    };
}
