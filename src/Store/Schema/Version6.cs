namespace CaptureAgent.Store.Schema;

/// <summary>What keepers saw of a chick, by card: behaviour, the look-over of a feed, weaning.</summary>
internal static class Version6
{
    public const string Sql = """
        CREATE TABLE observations (
          seq      INTEGER PRIMARY KEY AUTOINCREMENT,
          id       BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          chick    TEXT NOT NULL CHECK (chick <> ''),
          at       INTEGER NOT NULL,
          zone     TEXT NOT NULL,
          day      TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
          kind     TEXT NOT NULL CHECK (kind <> ''),
          station  TEXT NOT NULL
        ) STRICT;
        CREATE INDEX observations_by_chick ON observations (chick, day);
        CREATE INDEX observations_by_day ON observations (day);
        CREATE TRIGGER observations_no_update BEFORE UPDATE ON observations BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER observations_no_delete BEFORE DELETE ON observations BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        """;
}
