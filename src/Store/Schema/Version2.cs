namespace CaptureAgent.Store.Schema;

/// <summary>A weighing may be judged again by a later version of the program: origin <c>rejudged</c>.</summary>
/// <remarks>
/// SQLite cannot change a CHECK, so the table is made anew and copied; what names it (views, triggers, indexes) goes first and comes
/// back after (SQLite documentation, "ALTER TABLE", 7). The evidence, which is most of a file, stays where it is.
/// </remarks>
internal static class Version2
{
    /// <summary>A row that was taken back replaces nothing, but one that was judged again is the same weighing: with it the weighing is taken back.</summary>
    private const string States = """
        CREATE VIEW weighing_states AS
          SELECT w.*, CASE
            WHEN EXISTS (SELECT 1 FROM undos u WHERE u.weighing = w.id) THEN 'taken-back'
            WHEN EXISTS (SELECT 1 FROM weighings r WHERE r.replaces = w.id
                         AND (r.origin = 'rejudged' OR NOT EXISTS (SELECT 1 FROM undos u WHERE u.weighing = r.id))) THEN 'replaced'
            ELSE 'stands' END AS state
          FROM weighings w;
        """;

    public const string Sql = """
        DROP VIEW weighing_states;
        CREATE TABLE weighings_new (
          seq                     INTEGER PRIMARY KEY AUTOINCREMENT,
          id                      BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          chick                   TEXT CHECK (chick <> ''),
          at                      INTEGER,
          zone                    TEXT NOT NULL,
          day                     TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
          milligrams              INTEGER,
          uncertainty_milligrams  INTEGER CHECK (uncertainty_milligrams >= 0),
          tare_milligrams         INTEGER,
          tare_after_milligrams   INTEGER,
          verdict                 TEXT NOT NULL CHECK (verdict IN ('accepted', 'rejected')),
          reasons                 TEXT NOT NULL,
          remedy                  TEXT,
          age_days                INTEGER,
          origin                  TEXT NOT NULL CHECK (origin IN ('captured', 'imported', 'adopted', 'rejudged')),
          station                 TEXT NOT NULL,
          device                  TEXT,
          replaces                BLOB REFERENCES weighings (id),
          grams_decimals          INTEGER,
          uncertainty_decimals    INTEGER,
          tare_decimals           INTEGER,
          CHECK (verdict = 'rejected' OR (chick IS NOT NULL AND coalesce(milligrams, 0) > 0)),
          CHECK (replaces IS NULL OR replaces <> id),
          CHECK (origin <> 'rejudged' OR replaces IS NOT NULL)
        ) STRICT;
        INSERT INTO weighings_new SELECT * FROM weighings ORDER BY seq;
        DROP TABLE weighings;
        ALTER TABLE weighings_new RENAME TO weighings;
        CREATE INDEX weighings_by_chick ON weighings (chick, day);
        CREATE INDEX weighings_by_day ON weighings (day);
        CREATE INDEX weighings_by_replaced ON weighings (replaces) WHERE replaces IS NOT NULL;
        CREATE TRIGGER weighings_no_update BEFORE UPDATE ON weighings BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER weighings_no_delete BEFORE DELETE ON weighings BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;

        """ + States;
}
