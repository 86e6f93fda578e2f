namespace CaptureAgent.Store.Schema;

/// <summary>How a feed was told and how much it was; crops that a keeper saw full; the chores of hygiene that were done.</summary>
internal static class Version5
{
    public const string Sql = Feeds + CropMarks + Chores + Triggers;

    private const string Feeds = """
        ALTER TABLE feeds ADD COLUMN way TEXT NOT NULL DEFAULT 'card' CHECK (way IN ('card', 'scan', 'weighing', 'brooder'));
        CREATE TABLE intakes (
          seq                     INTEGER PRIMARY KEY AUTOINCREMENT,
          id                      BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          feed                    BLOB NOT NULL REFERENCES feeds (id),
          before                  BLOB NOT NULL REFERENCES weighings (id),
          after                   BLOB NOT NULL REFERENCES weighings (id),
          at                      INTEGER NOT NULL,
          zone                    TEXT NOT NULL,
          station                 TEXT NOT NULL,
          milligrams              INTEGER NOT NULL CHECK (milligrams > 0),
          uncertainty_milligrams  INTEGER NOT NULL CHECK (uncertainty_milligrams >= 0)
        ) STRICT;
        CREATE INDEX intakes_by_feed ON intakes (feed);

        """;

    private const string CropMarks = """
        CREATE TABLE crop_marks (
          seq      INTEGER PRIMARY KEY AUTOINCREMENT,
          id       BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          chick    TEXT NOT NULL CHECK (chick <> ''),
          at       INTEGER NOT NULL,
          zone     TEXT NOT NULL,
          day      TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
          station  TEXT NOT NULL
        ) STRICT;
        CREATE INDEX crop_marks_by_time ON crop_marks (at);

        """;

    private const string Chores = """
        CREATE TABLE chores (
          seq      INTEGER PRIMARY KEY AUTOINCREMENT,
          id       BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          chore    TEXT NOT NULL CHECK (chore <> ''),
          at       INTEGER NOT NULL,
          zone     TEXT NOT NULL,
          station  TEXT NOT NULL
        ) STRICT;
        CREATE INDEX chores_by_kind ON chores (chore, at);

        """;

    private const string Triggers = """
        CREATE TRIGGER intakes_no_update BEFORE UPDATE ON intakes BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER intakes_no_delete BEFORE DELETE ON intakes BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER crop_marks_no_update BEFORE UPDATE ON crop_marks BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER crop_marks_no_delete BEFORE DELETE ON crop_marks BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER chores_no_update BEFORE UPDATE ON chores BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER chores_no_delete BEFORE DELETE ON chores BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        """;
}
