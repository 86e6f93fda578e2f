using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Answers.Voice;
using Xunit;

namespace CaptureAgent.Agent.Tests.Answers;

public sealed class AnswerQueueTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 5, 41, 10, TimeSpan.Zero);

    private readonly AnswerQueue queue = new();

    [Fact]
    public void The_newest_urgent_one_is_first_the_others_keep_their_order()
    {
        Put(Answer.GotIt, "a");
        Put(Answer.Urgent, "old");
        Put(Answer.Refused, "b");
        Put(Answer.Urgent, "new");

        Assert.Equal(["new", "old", "a", "b"], All(At));
    }

    [Fact]
    public void A_tick_gives_way_to_the_verdict_and_is_not_heard_late()
    {
        queue.Put(new(At, Answer.Heard, null));
        Put(Answer.GotIt, "a");
        Assert.Equal(["a"], All(At));

        queue.Put(new(At, Answer.Heard, null));
        Assert.Empty(All(At.AddSeconds(1.5)));
    }

    [Fact]
    public void The_same_thing_said_twice_is_one_tone_but_each_feed_is_answered()
    {
        Put(Answer.Look, "due");
        Put(Answer.Look, "due");
        Put(Answer.GotIt, "fed");
        Put(Answer.GotIt, "fed");

        Assert.Equal(["due", "fed", "fed"], All(At));
    }

    [Fact]
    public void When_it_is_full_the_least_important_goes_and_is_counted()
    {
        Put(Answer.GotIt, "first");
        for (var i = 1; i < AnswerQueue.Capacity; i++)
            Put(Answer.Refused, $"r{i}");
        Put(Answer.Urgent, "now");
        Put(Answer.GotIt, "late");

        var all = All(At);
        Assert.Equal("now", all[0]);
        Assert.Equal(AnswerQueue.Capacity, all.Count);
        Assert.DoesNotContain("first", all);
        Assert.DoesNotContain("late", all);
        Assert.Equal(2, queue.Dropped);
    }

    [Fact]
    public void What_is_stale_is_left_out_unless_it_is_urgent()
    {
        Put(Answer.GotIt, "a");
        Put(Answer.Urgent, "now");

        Assert.Equal(["now"], All(At.AddMinutes(5)));
    }

    private void Put(Answer tone, string key) => queue.Put(new(At, tone, new Saying(key)));

    private List<string> All(DateTimeOffset now)
    {
        List<string> all = [];
        while (queue.TryTake(now, out var reply))
            all.Add(reply.Said?.Key ?? "tick");
        return all;
    }
}
