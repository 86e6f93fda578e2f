using CaptureAgent.Store;

namespace CaptureAgent.Agent.Rejudging;

internal enum FindingKind
{
    /// <summary>Today's rule says the same.</summary>
    Same,

    /// <summary>Today's rule says something else: <see cref="Finding.Now"/>.</summary>
    Changes,

    /// <summary>The readings end, with the decision of that day, before today's rule is certain.</summary>
    Undecided,

    /// <summary>There are no readings to judge.</summary>
    NoEvidence,

    /// <summary>The readings cannot be read: see <see cref="Finding.Why"/>.</summary>
    Unreadable,
}

/// <summary>What became of one weighing that was judged again.</summary>
/// <param name="Was">The row that stands.</param>
/// <param name="Now">The row that would take its place; null unless it changes.</param>
/// <param name="Why">In words, where it is neither the same nor changed.</param>
internal sealed record Finding(FindingKind Kind, WeighingRow Was, WeighingRow? Now = null, string? Why = null);
