namespace CaptureAgent.Agent.Configuration;

/// <summary>The rules for feeding.batch.</summary>
internal static class BatchOptionRules
{
    private const string Path = "feeding.batch";

    public static void Check(BatchOptions batch, RuleBook book)
    {
        book.Between($"{Path}.lowCelsius", batch.LowCelsius, 30, 43.3m, "°C");
        book.Between($"{Path}.stopCelsius", batch.StopCelsius, 35, 43.3m, "°C; above 43.3 formula burns crops");
        book.Between($"{Path}.spreadCelsius", batch.SpreadCelsius, 0.2m, 5, "°C");
        book.Between($"{Path}.discardMinutes", batch.DiscardMinutes, 1, 120, "minutes");
        book.Between($"{Path}.roomCelsius", batch.RoomCelsius, 0, 45, "°C");
        book.Between($"{Path}.altitudeMetres", batch.AltitudeMetres, -400, 5000, "m");
        book.Between($"{Path}.boilingCelsius", batch.BoilingCelsius, 80, 102, "°C");
        book.Between($"{Path}.referenceCelsius", batch.ReferenceCelsius, 20, 60, "°C");
        book.Between($"{Path}.probeCheckDays", batch.ProbeCheckDays, 1, 3650, "days");
        book.OneOf($"{Path}.show", batch.Show, ["C", "F"]);
        if (batch.HighCelsius <= batch.LowCelsius || batch.HighCelsius >= batch.StopCelsius)
            book.Add($"{Path}.highCelsius", RuleBook.Text(batch.HighCelsius), $"must lie between lowCelsius, {RuleBook.Text(batch.LowCelsius)}, and stopCelsius, {RuleBook.Text(batch.StopCelsius)}.");
        if (batch.TargetCelsius < batch.LowCelsius || batch.TargetCelsius > batch.HighCelsius)
            book.Add($"{Path}.targetCelsius", RuleBook.Text(batch.TargetCelsius), $"must lie between lowCelsius, {RuleBook.Text(batch.LowCelsius)}, and highCelsius, {RuleBook.Text(batch.HighCelsius)}.");
        if (batch.WarningMinutes is { } warning && (warning < 0 || warning >= batch.DiscardMinutes))
            book.Add($"{Path}.warningMinutes", RuleBook.Text(warning), $"allowed: 0 (never) to less than discardMinutes, {RuleBook.Text(batch.DiscardMinutes)}.");
    }
}
