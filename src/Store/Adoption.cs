using CaptureAgent.Store.Tables;

namespace CaptureAgent.Store;

/// <summary>Takes into the growth record what was weighed before its chick was registered.</summary>
internal static class Adoption
{
    /// <summary>Writes what is new about a chick, then adopts. The same again writes nothing to the register.</summary>
    /// <remarks>
    /// Adopts even where nothing is new: a station that had not yet read the register may have refused the code since.
    /// </remarks>
    public static (RegisterChange Change, int Adopted) Register(Database database, Chick chick, TimeProvider time)
    {
        var known = database.Register.Find(chick.Code);
        if (known != chick)
            database.Register.Add(chick, time.GetUtcNow());
        var change = known is null ? RegisterChange.Added : known == chick ? RegisterChange.None : RegisterChange.Changed;
        return (change, Run(database, chick, time));
    }

    /// <summary>
    /// For each nursery day the first weighing that was refused for <c>unknown-chick</c> alone becomes an accepted row of its own,
    /// unless that day has an accepted weight already. Later ones of the day stay refused.
    /// </summary>
    /// <returns>How many rows were added.</returns>
    private static int Run(Database database, Chick chick, TimeProvider time)
    {
        var adopted = 0;
        foreach (var day in database.Weighings.Unregistered(chick.Code).GroupBy(stored => stored.Row.Day))
        {
            var first = day.First();
            // A day before the hatching says that the register is wrong, or that the code was used before.
            if (first.State != WeighingState.Stands || first.Row.Milligrams is not > 0 || first.Row.Day < chick.Hatched)
                continue;
            // An adoption that was taken back is not made again.
            if (database.Weighings.EverReplaced(first.Row.Id) || HasAccepted(database, chick.Code, first.Row.Day))
                continue;
            database.Weighings.Add(first.Row with
            {
                Id = Guid.CreateVersion7(time.GetUtcNow()),
                Verdict = Verdict.Accepted,
                Reasons = [],
                Remedy = null,
                AgeDays = chick.Hatched is { } hatched ? first.Row.Day.DayNumber - hatched.DayNumber : null,
                Origin = Origin.Adopted,
                Replaces = first.Row.Id,
            });
            adopted++;
        }

        return adopted;
    }

    private static bool HasAccepted(Database database, string code, DateOnly day) =>
        database.Weighings.OfDay(code, day).Any(stored => stored is { State: WeighingState.Stands, Row.Verdict: Verdict.Accepted });
}

/// <summary>What writing a chick did to the register.</summary>
internal enum RegisterChange
{
    None,
    Added,
    Changed,
}
