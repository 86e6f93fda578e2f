using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Answers.Lamp;
using CaptureAgent.Agent.Links.Serial;
using CaptureAgent.Agent.Tests.Support;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Answers;

public sealed class LampTests
{
    private readonly FakeTimeProvider time = new();
    private readonly ListLogger log = new();
    private readonly StandInLamps lamp = new();

    [Fact]
    public void Without_colour_the_patterns_still_differ()
    {
        var rhythms = AnswerNames.All.Select(answer => string.Join(' ', LampPattern.Of(answer).Select(step => $"{(step.Colour == LampColour.Off ? '-' : '+')}{step.Length.TotalMilliseconds}")));
        Assert.Equal(5, rhythms.Distinct().Count());
        Assert.Equal(5, AnswerNames.All.Select(answer => (Flashes(answer), LampPattern.Of(answer)[0].Length > TimeSpan.FromSeconds(1))).Distinct().Count());
    }

    // WCAG 2.2, success criterion 2.3.1: not more than three flashes in any one second.
    [Fact]
    public void None_flashes_more_than_three_times_a_second() =>
        Assert.All(AnswerNames.All, answer =>
        {
            var steps = LampPattern.Of(answer);
            if (steps.Count > 1)
                Assert.True(steps[0].Length + steps[1].Length >= TimeSpan.FromSeconds(1.0 / 3), $"{answer}");
        });

    [Fact]
    public async Task A_pattern_is_shown_and_the_lamp_is_dark_afterwards()
    {
        await using var runner = new LampRunner(lamp, time, log);
        runner.Show(Answer.Refused);
        await Done(runner);

        Assert.Equal([LampColour.Red, LampColour.Off, LampColour.Red, LampColour.Off, LampColour.Off], lamp.Shown);
    }

    [Fact]
    public async Task The_newest_answer_is_shown_but_an_urgent_one_is_seen_to_its_end()
    {
        await using var runner = new LampRunner(lamp, time, log);
        runner.Show(Answer.GotIt);
        runner.Show(Answer.Urgent);
        runner.Show(Answer.GotIt);
        await Done(runner);

        Assert.Equal(12, lamp.Shown.Count(colour => colour == LampColour.Red));
        Assert.True(lamp.Shown.Count(colour => colour == LampColour.Green) <= 1);
    }

    [Fact]
    public async Task A_lamp_that_fails_is_told_once_and_tried_again()
    {
        await using var runner = new LampRunner(lamp, time, log);
        lamp.Fault = "unplugged";
        runner.Show(Answer.Heard);
        await Done(runner);
        runner.Show(Answer.Heard);
        await Done(runner);
        Assert.Single(log.At(LogLevel.Warning));

        lamp.Fault = null;
        runner.Show(Answer.Heard);
        await Done(runner);
        Assert.Equal([LampColour.Yellow, LampColour.Off], lamp.Shown);
    }

    [Fact]
    public async Task A_serial_lamp_is_sent_its_makers_words()
    {
        using var terminal = new PseudoTerminal();
        var words = new Dictionary<LampColour, string> { [LampColour.Green] = "G1\n", [LampColour.Yellow] = "Y1\n", [LampColour.Red] = "R1\n", [LampColour.Off] = "00\n" };
        using var opened = new SerialLamps(terminal.Path, new SerialSettings(9600, 8, SerialParity.None, 1, SerialFlow.None), words, new SerialPortControl()).Open();

        opened.Show(LampColour.Red);
        Assert.Contains("R1", await terminal.ReceiveAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        opened.Show(LampColour.Off);
        Assert.Contains("00", await terminal.ReceiveAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public void A_board_without_output_lines_is_told_with_a_remedy()
    {
        var lines = new Dictionary<LampColour, int> { [LampColour.Green] = 1017, [LampColour.Yellow] = 1018, [LampColour.Red] = 1019 };
        Assert.Contains("answers.lamp", Assert.Throws<LampException>(() => new GpioLamps(lines, activeLow: false).Open()).Message, StringComparison.Ordinal);
    }

    private static int Flashes(Answer answer) => LampPattern.Of(answer).Count(step => step.Colour != LampColour.Off);

    private Task Done(LampRunner runner) => time.AdvanceUntilAsync(() => runner.Shown.IsCompleted, TestContext.Current.CancellationToken);

    private sealed class StandInLamps : ILampSource
    {
        public List<LampColour> Shown { get; } = [];

        public string? Fault { get; set; }

        public ILamp Open() => Fault is { } fault ? throw new LampException(fault) : new StandInLamp(Shown);
    }

    private sealed class StandInLamp(List<LampColour> shown) : ILamp
    {
        public void Show(LampColour colour) => shown.Add(colour);

        public void Dispose()
        {
        }
    }
}
