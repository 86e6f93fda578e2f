using CsCheck;
using Xunit;

namespace CaptureAgent.Store.Tests;

/// <summary>The store against a list: whatever is done, in whatever order, both say the same.</summary>
public sealed class StoreModelTests : IDisposable
{
    private static readonly string[] Chicks = ["AM-0147", "CN-0321", "GR-0096"];
    private readonly StoreFolder folder = new();
    private int files;

    public void Dispose() => folder.Dispose();

    private enum Kind
    {
        Weigh,
        Refuse,
        Replace,
        Again,
        TakeBack,
        Feed,
        TakeBackFeed,
        Reopen,
    }

    private sealed record Step(Kind Kind, int Chick, int Day, long Milligrams, int Pick);

    private sealed class Model
    {
        public List<WeighingRow> Weighings { get; } = [];

        public List<FeedRow> Feeds { get; } = [];

        public HashSet<Guid> Undone { get; } = [];

        public IEnumerable<WeighingRow> Standing => Weighings.Where(row =>
            !Undone.Contains(row.Id) && !Weighings.Any(later => later.Replaces == row.Id && !Undone.Contains(later.Id)));
    }

    private static readonly Gen<Step> Steps =
        from kind in Gen.Enum<Kind>()
        from chick in Gen.Int[0, Chicks.Length - 1]
        from day in Gen.Int[0, 3]
        from milligrams in Gen.Long[1, 3_000_000]
        from pick in Gen.Int[0, 1000]
        select new Step(kind, chick, day, milligrams, pick);

    [Fact]
    public void The_store_says_what_a_list_says() => Steps.List[1, 25].Sample(Follow, iter: 30, threads: 1);

    private void Follow(List<Step> steps)
    {
        var file = Path.Combine(folder.Folder, $"{files++}.db");
        var model = new Model();
        var store = CaptureStore.Open(file, folder.Time);
        try
        {
            foreach (var step in steps)
            {
                if (step.Kind == Kind.Reopen)
                {
                    store.Dispose();
                    store = CaptureStore.Open(file, folder.Time);
                }

                Take(step, store, model);
                Compare(store, model);
            }
        }
        finally
        {
            store.Dispose();
        }
    }

    private static void Take(Step step, CaptureStore store, Model model)
    {
        var old = model.Weighings.Count == 0 ? null : model.Weighings[step.Pick % model.Weighings.Count];
        var fed = model.Feeds.Count == 0 ? null : model.Feeds[step.Pick % model.Feeds.Count];
        switch (step.Kind)
        {
            case Kind.Weigh or Kind.Refuse or Kind.Replace:
                var row = Row(step, step.Kind == Kind.Replace ? old?.Id : null);
                store.Add(row, step.Pick % 2 == 0 ? null : new("samples-1", BitConverter.GetBytes(step.Milligrams)));
                model.Weighings.Add(row);
                break;
            case Kind.Again when old is not null:
                store.Add(old with { Milligrams = 1 }, new("other", new byte[3]));
                break;
            case Kind.TakeBack when old is not null:
                store.Add(Rows.Undo(old.Id));
                model.Undone.Add(old.Id);
                break;
            case Kind.Feed:
                var feed = Rows.Feed(Chicks[step.Chick]) with { At = Rows.At("05:00").AddSeconds(step.Pick) };
                store.Add(feed);
                model.Feeds.Add(feed);
                break;
            case Kind.TakeBackFeed when fed is not null:
                store.Add(Rows.Undo(fed.Id));
                model.Undone.Add(fed.Id);
                break;
        }
    }

    private static WeighingRow Row(Step step, Guid? replaces)
    {
        var row = step.Kind == Kind.Refuse ? Rows.Rejected(Chicks[step.Chick], 1, "unsettled") : Rows.Accepted(Chicks[step.Chick], 1, replaces: replaces);
        return row with { Day = Rows.Monday.AddDays(step.Day), Milligrams = step.Milligrams, At = step.Pick % 3 == 0 ? null : Rows.At("05:00").AddSeconds(step.Pick) };
    }

    private static void Compare(CaptureStore store, Model model)
    {
        static IEnumerable<string> InOrder(IEnumerable<WeighingRow> rows) => Rows.Texts(rows.OrderBy(row => row.Day).ThenBy(row => row.At));
        Assert.Equal(InOrder(model.Weighings), Rows.Texts(store.AllWeighings().Select(stored => stored.Row)));
        Assert.Equal(InOrder(model.Standing), Rows.Texts(store.Weighings()));
        Assert.Equal(InOrder(model.Standing.Where(row => row.Chick == Chicks[0] && row.Verdict == Verdict.Accepted)), Rows.Texts(store.Weighings(Chicks[0], verdict: Verdict.Accepted)));
        var (from, to) = (Rows.Monday.AddDays(1), Rows.Monday.AddDays(2));
        Assert.Equal(InOrder(model.Standing.Where(row => row.Day >= from && row.Day <= to)), Rows.Texts(store.Weighings(from: from, to: to)));
        Assert.Equal(model.Feeds.Where(feed => !model.Undone.Contains(feed.Id)).OrderBy(feed => feed.At), store.Feeds(DateTimeOffset.MinValue));
    }
}
