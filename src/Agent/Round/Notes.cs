namespace CaptureAgent.Agent.Round;

/// <summary>One thing that was written down and can be taken back.</summary>
/// <param name="What">weighing, feed, crop, observation, chore or batch: as an undo names it.</param>
/// <param name="Chick">Null: it is about none.</param>
/// <param name="Word">Kind of observation, or chore; else empty.</param>
/// <param name="Day">The nursery day; null: that of the moment.</param>
internal readonly record struct Note(Guid Id, string What, string? Chick, string Word, DateOnly? Day, DateTimeOffset At);

/// <summary>Crops seen full, observations, chores and batches by card, as far as they are needed: by chick or by chore, oldest first.</summary>
internal sealed class Notes
{
    public const string Weighing = "weighing", Feed = "feed", Crop = "crop", Observation = "observation", Chore = "chore", Batch = "batch";

    private readonly Dictionary<(string What, string Of), List<Note>> known = [];

    public void Add(in Note note)
    {
        var key = (note.What, Of(note));
        if (!known.TryGetValue(key, out var those))
            known[key] = those = [];
        var i = those.Count;
        while (i > 0 && those[i - 1].At > note.At)
            i--;
        those.Insert(i, note);
    }

    /// <summary>Those of a chick, or of a chore.</summary>
    public IReadOnlyList<Note> Find(string what, string of) => known.TryGetValue((what, of), out var those) ? those : [];

    /// <summary>The newest, whatever it is.</summary>
    public Note? Newest()
    {
        Note? newest = null;
        foreach (var those in known.Values)
        {
            if (those.Count > 0 && those[^1] is var note && !(note.At < newest?.At))
                newest = note;
        }

        return newest;
    }

    public void Remove(Guid id)
    {
        foreach (var those in known.Values)
            those.RemoveAll(note => note.Id == id);
    }

    private static string Of(in Note note) => note.What == Chore ? note.Word : note.Chick ?? "";
}
