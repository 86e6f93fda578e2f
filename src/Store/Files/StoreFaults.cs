using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Files;

/// <summary>Says in a keeper's words what SQLite's result codes mean here (SQLite documentation, "Result and Error Codes").</summary>
internal static class StoreFaults
{
    private const int Error = 1, Busy = 5, Locked = 6, ReadOnly = 8, InputOutput = 10, Corrupt = 11, Full = 13, CannotOpen = 14, Constraint = 19, NotADatabase = 26;

    /// <param name="doing">What was tried, as in "write a weighing".</param>
    /// <returns>A <see cref="StoreException"/>; an <see cref="ArgumentException"/> where the row itself breaks a rule, which no second try mends.</returns>
    public static Exception Of(SqliteException fault, string path, string doing) => fault.SqliteErrorCode switch
    {
        Constraint => new ArgumentException($"Could not {doing}: the row breaks a rule of the record ({fault.Message}).", fault),
        Busy or Locked => new StoreException($"Could not {doing}: {path} is locked by another program.",
            "Wait until an import or a backup has ended, or close the program that has the file open; then try again.", fault),
        ReadOnly => new StoreException($"Could not {doing}: {path} may not be written.",
            "Give the agent's user write permission on the file and on its folder, and check that the disk is not mounted read-only.", fault),
        Full => new StoreException($"Could not {doing}: no space is left for {path}.",
            "Free space on that disk. What is waiting is written as soon as there is space.", fault),
        InputOutput => new StoreException($"Could not {doing}: the disk failed while reading or writing {path} ({fault.Message}).",
            "Check the disk and its cable or card; copy the file to another disk before anything else.", fault),
        Corrupt => Damaged(path, fault.Message, fault),
        NotADatabase => NotAStore(path, fault),
        CannotOpen => new StoreException($"Could not {doing}: {path} cannot be opened.",
            "Check that the folder exists and that the agent's user may read and write both folder and file.", fault),
        Error => new StoreException($"Could not {doing}: {path} does not have the layout of a capture store ({fault.Message}).",
            "Name another file as the store, or restore this one from a backup.", fault),
        _ => new StoreException($"Could not {doing}: {path}: {fault.Message}", "Check the disk and the permissions of the file.", fault),
    };

    public static StoreException Damaged(string path, string detail, Exception? inner = null) => new(
        $"{path} is damaged: {detail}.",
        "Copy the file and the files of the same name ending in -wal and -shm to a safe place, then restore a backup or start with a new file.", inner);

    public static StoreException NotAStore(string path, Exception? inner = null) => new(
        $"{path} is not a capture store: it is no SQLite database.", "Name another file as the store; this one was left as it is.", inner);

    public static StoreException Foreign(string path) => new(
        $"{path} is a database of another program.", "Name another file as the store; this one was left as it is.");

    public static StoreException Newer(string path, long version, int known) => new(
        $"{path} was written by a newer version of this program (layout {version}; this version knows up to {known}).",
        "Install the newer version again, or name another file as the store; this one was left as it is.");
}
