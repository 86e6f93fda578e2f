using CaptureAgent.Store.Tables;

namespace CaptureAgent.Store;

/// <summary>What a person changes: corrections, registrations, devices of the page. The row and its reason are one transaction.</summary>
public sealed partial class CaptureStore
{
    /// <summary>Puts a row of the keeper's in the place of one that stands.</summary>
    /// <param name="row">Names in <see cref="WeighingRow.Replaces"/> the row that it corrects.</param>
    /// <returns>False, and nothing is written, if that one does not stand (any more).</returns>
    public bool Correct(WeighingRow row, string who, string reason)
    {
        var corrects = row.Replaces ?? throw new ArgumentException("A correction names the row that it corrects.", nameof(row));
        var done = false;
        Write("write a correction", db =>
        {
            if (db.Weighings.StateOf(corrects) is not WeighingState.Stands)
                return false;
            db.Weighings.Add(row);
            db.Hands.Add(new(Time.GetUtcNow(), who, reason, Weighing: row.Id));
            return done = true;
        });
        return done;
    }

    /// <summary>Takes back a weighing or a feed, which must be in the store.</summary>
    public void TakeBack(UndoRow undo, string who, string reason) => Write("take a row back", db =>
    {
        Undo(db, undo);
        db.Hands.Add(new(Time.GetUtcNow(), who, reason, Undone: undo.Undone));
        return true;
    });

    /// <summary>Registers a chick by hand, or changes what is registered of it, if <paramref name="mayWrite"/> says so to what is there.</summary>
    /// <returns>Null if it said no; else how many earlier weighings were adopted.</returns>
    public int? Register(Chick chick, string who, string reason, Func<Chick?, bool> mayWrite)
    {
        int? adopted = null;
        Write("write the register", db =>
        {
            if (!mayWrite(db.Register.Find(chick.Code)))
                return false;
            adopted = Adoption.Register(db, chick, Time).Adopted;
            db.Hands.Add(new(Time.GetUtcNow(), who, reason, Chick: chick.Code));
            return true;
        });
        return adopted;
    }

    /// <summary>Everything that was changed by hand of a chick, oldest first.</summary>
    public IReadOnlyList<HandEntry> HandEntries(string chick) => Read("read the corrections", db => db.Hands.Of(chick));

    /// <summary>One weighing, whatever its state; null if there is none.</summary>
    public StoredWeighing? Weighing(Guid id) => Read("read a weighing", db => db.Weighings.OfId(id));

    /// <summary>The newest weighings first, in the order of arrival.</summary>
    /// <param name="before">Only those that arrived before this one; null: from the newest.</param>
    /// <param name="all">Also those that were replaced or taken back.</param>
    public IReadOnlyList<StoredWeighing> WeighingsBack(long? before, int most, string? chick = null, DateOnly? from = null, DateOnly? to = null, bool all = false) =>
        Read("read the weighings", db => db.Weighings.Back(before, most, chick, from, to, all));

    public void Add(PairingCode code) => Write("write a pairing code", db =>
    {
        db.Pairings.Add(code);
        return true;
    });

    /// <summary>Uses a code up.</summary>
    /// <returns>Null if no such code is open.</returns>
    public PairedDevice? Pair(ReadOnlyMemory<byte> codeHash, ReadOnlyMemory<byte> tokenHash, string name)
    {
        PairedDevice? paired = null;
        Write("pair a device", db => (paired = db.Pairings.Pair(codeHash, tokenHash, Guid.CreateVersion7(Time.GetUtcNow()), name, Time.GetUtcNow())) is not null);
        return paired;
    }

    /// <summary>The device with this token; null if there is none, or its pairing has ended.</summary>
    public PairedDevice? PairedDevice(ReadOnlyMemory<byte> tokenHash) => Read("look up a paired device", db => db.Pairings.Find(tokenHash));

    /// <summary>Every device ever paired, oldest first.</summary>
    public IReadOnlyList<PairedDevice> PairedDevices() => Read("read the paired devices", db => db.Pairings.All());

    /// <returns>False if there is no such device, or it has been ended before.</returns>
    public bool EndPairing(Guid id, string who)
    {
        var ended = false;
        Write("end a pairing", db => ended = db.Pairings.End(id, Time.GetUtcNow(), who));
        return ended;
    }
}
