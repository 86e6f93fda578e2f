using CaptureAgent.Simulators.Nursery.Flock;

namespace CaptureAgent.Simulators.Nursery.Round;

/// <summary>The script of the morning: every chick once, youngest first, and a few mishaps on purpose.</summary>
internal sealed class MorningRound(InventedNursery nursery, Keeper keeper, Watching.EventLog log, decimal division)
{
    private const string FedTooEarly = "LB-0078";
    private const string LosesWeight = "CN-0322";
    private const string BeforeNewTowel = "CN-0321";
    private const string Again = "AM-0148";
    private const string BeforeAgain = "AM-0147";
    private const string Restless = "GR-0096";
    private const string ForgottenCode = "EC-0033";
    private const double FirstTowel = 8.2;
    private const double SecondTowel = 9.6;
    private const double CropFill = 1.09;

    /// <summary>What has come so far; also when the round was cut short.</summary>
    public List<Outcome> Outcomes { get; } = [];

    /// <summary>Steps that the whole round has.</summary>
    public int Planned => nursery.Chicks.Count + 5;

    public async Task RunAsync(CancellationToken cancellationToken)
    {
        keeper.Say("lays a towel on the bare pan");
        Outcomes.Add(Outcome.Tared("towel", await keeper.LayTowelAsync(FirstTowel, cancellationToken), FirstTowel, division));
        await FeedTooEarlyAsync(cancellationToken);
        for (var i = 0; i < nursery.Chicks.Count; i++)
        {
            await WeighAsync(nursery.Chicks[i], i, cancellationToken);
            if (nursery.Chicks[i].Code == BeforeNewTowel)
                await ChangeTowelAsync(cancellationToken);
            if (nursery.Chicks[i].Code == BeforeAgain)
                await WeighAgainAsync(cancellationToken);
        }

        keeper.Say("has done the round");
    }

    private async Task WeighAsync(NurseryChick chick, int place, CancellationToken cancellationToken)
    {
        var manner = new Manner
        {
            Code = place % 3 == 2 ? CodeTime.After : CodeTime.Before,
            HoldSeconds = 0.5 + (0.3 * (place % 4)),
            Support = 0.2 + (0.1 * (place % 5)),
            DroppingGrams = place % 5 == 3 ? 0.006 * chick.TrueGrams : 0,
            Bumped = place % 7 == 6,
        };
        switch (chick.Code)
        {
            case FedTooEarly:
                var full = CropFill * chick.TrueGrams;
                Outcomes.Add(Outcome.Rejected("fed before it was weighed", chick, await keeper.WeighAsync(chick, full, manner, cancellationToken), "after-feed"));
                return;
            case ForgottenCode:
                var nameless = await keeper.WeighAsync(chick, chick.TrueGrams, manner with { Code = CodeTime.Never }, cancellationToken);
                Outcomes.Add(Outcome.Rejected("placed without a code", chick, nameless, "no-code"));
                keeper.Say($"notices, and takes {chick.Code} once more");
                await keeper.PauseAsync(2, cancellationToken);
                break;
            case Restless:
                keeper.Say($"knows that {chick.Code} never sits still");
                break;
        }

        var answer = await keeper.WeighAsync(chick, chick.TrueGrams, manner, cancellationToken);
        var title = chick.Code switch
        {
            LosesWeight => "has lost weight",
            Restless => "restless",
            _ => "morning weight",
        };
        Outcomes.Add(Outcome.Accepted(title, chick, answer, chick.TrueGrams, division));
        if (chick.Code == LosesWeight && answer is { IsAccepted: true })
            keeper.Say($"sees that {chick.Code} has lost weight and sets it apart for the avian veterinarian");
    }

    private async Task FeedTooEarlyAsync(CancellationToken cancellationToken)
    {
        var from = log.Count;
        keeper.Say($"feeds {FedTooEarly} before it was weighed, and scans !FED and its code");
        keeper.Scan("!FED");
        await keeper.PauseAsync(0.8, cancellationToken);
        keeper.Scan(FedTooEarly);
        var fed = await log.WaitAsync(from, one => one.Name == "feed" && one.Chick == FedTooEarly, TimeSpan.FromSeconds(5), cancellationToken);
        Outcomes.Add(new("feed", nursery[FedTooEarly], null, fed is null ? "the feed was not recorded" : null));
        await keeper.PauseAsync(1, cancellationToken);
    }

    private async Task ChangeTowelAsync(CancellationToken cancellationToken)
    {
        keeper.Say("takes the soiled towel away and lays a fresh one");
        await keeper.TakeTowelAsync(cancellationToken);
        var tare = await keeper.LayTowelAsync(SecondTowel, cancellationToken);
        Outcomes.Add(Outcome.Tared("fresh towel", tare, SecondTowel, division));
    }

    private async Task WeighAgainAsync(CancellationToken cancellationToken)
    {
        keeper.Say($"is not sure of {Again} and takes it a second time");
        var answer = await keeper.WeighAsync(nursery[Again], nursery[Again].TrueGrams, new(), cancellationToken);
        Outcomes.Add(Outcome.Rejected("second weighing", nursery[Again], answer, "already-weighed"));
    }
}
