using System.Text.Json.Serialization;

namespace CaptureAgent.Agent.Commands;

/// <summary>What <c>feeds --json</c> prints. Moments are UTC.</summary>
internal sealed record FeedsJson(string At, IReadOnlyList<FedChickJson> Chicks, IReadOnlyList<ChoreJson> Chores);

internal sealed record FedChickJson(
    string Chick, int? AgeDays, double EveryHours, string? LastFeed, decimal? LastIntakeGrams, int FeedsToday, string? DueAt, string State,
    double? OverdueMinutes, double? LongestFastHours, bool FastExceeded);

/// <param name="DueAt">Null: it has never been recorded.</param>
internal sealed record ChoreJson(string Chore, string? DueAt, string Text);

/// <summary>What <c>recipe --json</c> prints; all masses in grams.</summary>
internal sealed record RecipeJson(string At, IReadOnlyList<MixJson> Mixes, IReadOnlyList<string> WithoutWeight, IReadOnlyList<string> Cautions);

internal sealed record MixJson(
    decimal WaterGrams, decimal FormulaGrams, decimal FatGrams, decimal TotalGrams, double NeededGrams, decimal SolidsPercent, decimal FatPercent,
    IReadOnlyList<string> Notes, IReadOnlyList<PortionJson> Portions);

internal sealed record PortionJson(string Chick, int? AgeDays, decimal WeightGrams, string WeighedOn, double FeedGrams);

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(FeedsJson))]
[JsonSerializable(typeof(RecipeJson))]
internal sealed partial class ListJsonContext : JsonSerializerContext;
