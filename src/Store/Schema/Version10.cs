namespace CaptureAgent.Store.Schema;

/// <summary>How the load moved at a weighing, and the scale at rest: numbers of the readings, so that later mornings need not read them all again.</summary>
/// <remarks>In millionths of a gram: a sleeping hatchling moves by thousandths. Momentum is in microgram-seconds. Null in rows of earlier layouts and where nothing had settled.</remarks>
internal static class Version10
{
    public const string Sql = """
        ALTER TABLE evidence ADD COLUMN force_micrograms INTEGER CHECK (force_micrograms >= 0);
        ALTER TABLE evidence ADD COLUMN momentum_micrograms INTEGER CHECK (momentum_micrograms >= 0);
        ALTER TABLE evidence ADD COLUMN still_micrograms INTEGER CHECK (still_micrograms >= 0);
        """;
}
