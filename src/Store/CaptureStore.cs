using CaptureAgent.Store.Files;
using CaptureAgent.Store.Tables;
using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store;

/// <summary>The durable record. One writer; every write is one transaction, synced before the call returns.</summary>
/// <remarks>
/// Not thread-safe: one owner. Several stores, in one process or many, may be open on one file at a time. A method that
/// throws <see cref="StoreException"/> has changed nothing that this store will show, and may be tried again; it throws
/// <see cref="ArgumentException"/> where the row itself breaks a rule, which no second try mends.
/// </remarks>
public sealed partial class CaptureStore : IDisposable
{
    private static readonly TimeSpan DefaultPatience = TimeSpan.FromSeconds(5);

    private readonly string path;
    private readonly TimeSpan patience;
    private Database? database;
    private bool disposed;

    private readonly bool toRead;

    private CaptureStore(string path, TimeProvider time, TimeSpan patience, bool toRead)
    {
        this.toRead = toRead;
        this.path = path;
        this.patience = patience;
        Time = time;
        database = Connect();
    }

    internal TimeProvider Time { get; }

    /// <summary>Opens (and creates or migrates) the file; <c>":memory:"</c> keeps all in memory.</summary>
    /// <param name="time">Dates changes of the register and new ids.</param>
    /// <param name="patience">How long to wait for another program's lock; 5 s if not given. Whole seconds, at least one.</param>
    /// <param name="toRead">Nothing will be written: what is damaged shows when it is read, and years of history are not gone through first.</param>
    /// <exception cref="StoreException">Cannot be opened, is damaged, or was written by a newer version.</exception>
    public static CaptureStore Open(string path, TimeProvider time, TimeSpan? patience = null, bool toRead = false) =>
        new(path == StoreFile.InMemory ? path : Path.GetFullPath(path), time, patience ?? DefaultPatience, toRead);

    /// <summary>Changes whenever another process has written to the file.</summary>
    public long DataVersion() => Read("look for changes in the store", db => db.DataVersion());

    /// <summary>Checks every page, index and reference of the file, evidence included; may take minutes on a large one.</summary>
    /// <exception cref="StoreException">Damaged; says where.</exception>
    public void Verify() => Read("check the store", db =>
    {
        StoreFile.Check(db.Connection, path, "PRAGMA integrity_check(1)");
        return true;
    });

    /// <summary>One decision, one transaction. The same id again changes nothing (a try after a failed commit).</summary>
    public void Add(WeighingRow weighing, Evidence? evidence) => Write("write a weighing", db =>
    {
        if (db.Weighings.Add(weighing) is { } seq && evidence is not null)
            db.Evidence.Add(seq, evidence);
        return true;
    });

    public void Add(FeedRow feed) => Write("write a feed", db =>
    {
        db.Feeds.Add(feed);
        return true;
    });

    /// <summary>The row taken back must be in the store. A weighing that it had replaced stands again.</summary>
    public void Add(UndoRow undo) => Write("write an undo", db =>
    {
        Undo(db, undo);
        return true;
    });

    internal static void Undo(Database db, UndoRow undo)
    {
        if (!db.NoteUndos.TryAdd(undo))
            db.Feeds.Add(undo);
    }

    /// <summary>The feed and both weighings must be in the store.</summary>
    public void Add(IntakeRow intake) => Write("write what was taken at a feed", db =>
    {
        db.Intakes.Add(intake);
        return true;
    });

    public void Add(CropMarkRow mark) => Write("write a crop that was seen full", db =>
    {
        db.CropMarks.Add(mark);
        return true;
    });

    public void Add(ChoreRow chore) => Write("write a chore", db =>
    {
        db.Chores.Add(chore);
        return true;
    });

    public void Add(ScaleCheckRow check) => Write("write a check of a scale", db =>
    {
        db.ScaleChecks.Add(check);
        return true;
    });

    /// <summary>The weighing must be in the store.</summary>
    public void Add(TareAfterRow tare) => Write("write the tare after a weighing", db =>
    {
        db.TareAfters.Add(tare);
        return true;
    });

    public void Add(ObservationRow observation) => Write("write an observation", db =>
    {
        db.Observations.Add(observation);
        return true;
    });

    public void Add(BatchRow batch) => Write("write a batch", db =>
    {
        db.Batches.Add(batch);
        return true;
    });

    public void Add(ProbeCheckRow check) => Write("write a check of a probe", db =>
    {
        db.ProbeChecks.Add(check);
        return true;
    });

    public void Add(ProbeLagRow lag) => Write("write the lag of a probe", db =>
    {
        db.ProbeLags.Add(lag);
        return true;
    });

    /// <summary>Rows of the origin <see cref="Origin.Rejudged"/>, each in the place of one that stands: all of them or none.</summary>
    /// <exception cref="ArgumentException">What a row replaces does not stand (any more).</exception>
    public void Rejudge(IReadOnlyCollection<WeighingRow> rows) => Write("write weighings that were judged again", db =>
    {
        Rejudged.Add(db, rows);
        return true;
    });

    /// <summary>Registers a chick or changes what is registered of it (by a new row), and adopts what was weighed before.</summary>
    /// <returns>How many earlier weighings were adopted.</returns>
    public int Register(Chick chick)
    {
        var adopted = 0;
        Write("write the register", db =>
        {
            adopted = Adoption.Register(db, chick, Time).Adopted;
            return true;
        });
        return adopted;
    }

    /// <summary>The register as it is now, in the order of codes.</summary>
    public IReadOnlyList<Chick> Chicks() => Read("read the register", db => db.Register.All());

    /// <summary>The same without those that had left before a day; the register of many years is mostly of these.</summary>
    public IReadOnlyList<Chick> ChicksNotLeftBefore(DateOnly day) => Read("read the register", db => db.Register.NotLeftBefore(day));

    /// <summary>All that was ever registered under one code, oldest first.</summary>
    public IReadOnlyList<ChickVersion> ChickVersions(string code) => Read("read the register", db => db.Register.Versions(code));

    /// <summary>Rows that stand: neither replaced nor taken back; in the order of day, time and arrival.</summary>
    /// <param name="from">First nursery day; an index makes a recent range cheap however long the history is.</param>
    /// <param name="to">Last nursery day.</param>
    public IReadOnlyList<WeighingRow> Weighings(string? chick = null, DateOnly? from = null, DateOnly? to = null, Verdict? verdict = null) =>
        Read("read the weighings", db => db.Weighings.Find(chick, from, to, verdict, all: false).Select(stored => stored.Row).ToList());

    /// <summary>Every row ever added, with its state; in the order of day, time and arrival.</summary>
    public IReadOnlyList<StoredWeighing> AllWeighings(string? chick = null, DateOnly? from = null, DateOnly? to = null) =>
        Read("read the weighings", db => db.Weighings.Find(chick, from, to, null, all: true).ToList());

    /// <summary>Hands over the growth record of each chick, in the order of codes; only one is held at a time, however many there are.</summary>
    public void EachGrowthRecord(Action<GrowthRecord> visit) => Read("read the weighings", db =>
    {
        foreach (var record in db.Growth.Each())
            visit(record);
        return true;
    });

    /// <summary>All that was recorded, taken back or not: from it the record as it was at any moment can be told.</summary>
    public RecordHistory History() => Read("read the record", db => new RecordHistory(
        db.Weighings.InArrival(), db.Feeds.All(), [.. db.Feeds.Undos().Concat(db.NoteUndos.All()).OrderBy(undo => undo.At)], db.CropMarks.All()));

    /// <summary>The accepted weights that stand, in the order of day, time and arrival: the growth record of all chicks, read fast.</summary>
    public IReadOnlyList<GrowthWeight> GrowthWeights(DateOnly from, DateOnly to) => Read("read the growth record", db => db.Weighings.Growth(from, to));

    /// <summary>What keepers saw and have not taken back, oldest first.</summary>
    public IReadOnlyList<ObservationRow> Observations(string? chick = null, DateOnly? from = null, DateOnly? to = null) =>
        Read("read the observations", db => db.Observations.Find(chick, from, to));

    /// <summary>The checks of one scale from a moment on, oldest first.</summary>
    public IReadOnlyList<ScaleCheckRow> ScaleChecks(string device, DateTimeOffset since) =>
        Read("read the checks of the scale", db => db.ScaleChecks.Since(device, since));

    /// <summary>The tare after a weighing; for a row adopted or judged again that of the row it replaces. Null where none was noted.</summary>
    public TareAfterRow? TareAfter(Guid weighing) => Read("read the tare after a weighing", db => db.TareAfters.Find(weighing));

    /// <summary>The states of batches from a moment on, without those taken back; oldest first.</summary>
    public IReadOnlyList<BatchRow> Batches(DateTimeOffset since) => Read("read the batches", db => db.Batches.Since(since));

    /// <summary>Every check of every probe, oldest first.</summary>
    public IReadOnlyList<ProbeCheckRow> ProbeChecks() => Read("read the checks of the probes", db => db.ProbeChecks.All());

    /// <summary>Feeds that stand, oldest first.</summary>
    public IReadOnlyList<FeedRow> Feeds(DateTimeOffset since) => Read("read the feeds", db => db.Feeds.Since(since));

    /// <summary>The nursery day of each chick's last feed that stands, of those from a moment on.</summary>
    public IReadOnlyList<(string Chick, DateOnly Day)> LastFeeds(DateTimeOffset since) => Read("read the last feeds", db => db.Feeds.LastSince(since));

    /// <summary>What was taken at feeds that stand, oldest first.</summary>
    public IReadOnlyList<IntakeRow> Intakes(DateTimeOffset since) => Read("read the feeds", db => db.Intakes.Since(since));

    /// <summary>Crops that were seen full, without those taken back; oldest first.</summary>
    public IReadOnlyList<CropMarkRow> CropMarks(DateTimeOffset since) => Read("read the crops seen full", db => db.CropMarks.Since(since));

    /// <summary>The same by chick and nursery day.</summary>
    public IReadOnlyList<CropMarkRow> CropMarks(string? chick = null, DateOnly? from = null, DateOnly? to = null) =>
        Read("read the crops seen full", db => db.CropMarks.Find(chick, from, to));

    /// <summary>Chores of hygiene that were done, without those taken back; oldest first.</summary>
    public IReadOnlyList<ChoreRow> Chores(DateTimeOffset since) => Read("read the chores", db => db.Chores.Since(since));

    /// <summary>What the newest so many dips of each probe have shown of its lag, oldest first.</summary>
    public IReadOnlyList<ProbeLagRow> ProbeLags(int count) => Read("read the lags of the probes", db => db.ProbeLags.Newest(count));

    /// <summary>How the chicks moved at the accepted weighings that stand as they were captured, from a nursery day on; oldest first.</summary>
    public IReadOnlyList<MotionRow> Motions(DateOnly from) => Read("read how the chicks moved", db => db.Evidence.Motions(from));

    /// <summary>The samples behind a weighing; for a row adopted or judged again those of the row it replaces.</summary>
    public Evidence? EvidenceOf(Guid weighing)
    {
        try
        {
            return Read("read the evidence", db => db.Evidence.Find(weighing));
        }
        catch (InvalidDataException fault)
        {
            throw StoreFaults.Damaged(path, fault.Message, fault);
        }
    }

    internal T Read<T>(string doing, Func<Database, T> work)
    {
        try
        {
            return work(Current());
        }
        catch (SqliteException fault)
        {
            throw StoreFaults.Of(fault, path, doing);
        }
    }

    /// <summary>Runs the work in one transaction; keeps it if the work says so.</summary>
    internal void Write(string doing, Func<Database, bool> work)
    {
        var db = Current();
        try
        {
            db.Begin();
            if (work(db))
                db.Commit();
            else
                db.Rollback();
        }
        catch (SqliteException fault)
        {
            Abandon(db);
            throw StoreFaults.Of(fault, path, doing);
        }
        catch
        {
            Abandon(db);
            throw;
        }
    }

    /// <remarks>
    /// The connection is kept where it can roll back: the frames of a commit that failed to sync are then written once more, at
    /// the same place, by the next try; a new connection might instead recover them from the log and take them as written.
    /// </remarks>
    private void Abandon(Database db)
    {
        try
        {
            db.Rollback();
        }
        catch (SqliteException) when (path != StoreFile.InMemory)
        {
            db.Dispose();
            database = null;
        }
    }

    private Database Current()
    {
        ObjectDisposedException.ThrowIf(disposed, this);
        return database ??= Connect();
    }

    private Database Connect()
    {
        var connection = StoreFile.Open(path, patience, toRead);
        try
        {
            return new(connection);
        }
        catch (SqliteException fault)
        {
            connection.Dispose();
            throw StoreFaults.Of(fault, path, "open the store");
        }
    }

    public void Dispose()
    {
        disposed = true;
        database?.Dispose();
        database = null;
    }
}
