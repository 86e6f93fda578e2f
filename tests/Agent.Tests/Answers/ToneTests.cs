using System.Buffers.Binary;
using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Answers.Tones;
using Xunit;

namespace CaptureAgent.Agent.Tests.Answers;

public sealed class ToneTests
{
    public static TheoryData<string, string> Pairs()
    {
        var data = new TheoryData<string, string>();
        foreach (var one in AnswerNames.All)
        {
            foreach (var other in AnswerNames.All.Where(other => other < one))
                data.Add(one.ToString(), other.ToString());
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Any_two_differ_in_rhythm_also_for_ears_without_treble(string one, string other)
    {
        foreach (var (a, b) in new[] { (Of(one), Of(other)), (Of(one).WithoutTreble(), Of(other).WithoutTreble()) })
        {
            var (first, second) = (a.Onsets, b.Onsets);
            var pulses = first.Count != second.Count;
            var gaps = first.Count > 1 && second.Count > 1 && Ratio(first[1] - first[0], second[1] - second[0]) > 1.5;
            Assert.True(pulses || gaps || Ratio(a.Sounding, b.Sounding) > 2,
                $"{one}: {string.Join(' ', first)}, sounding {a.Sounding}; {other}: {string.Join(' ', second)}, sounding {b.Sounding}");
        }
    }

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Any_two_differ_in_timbre(string one, string other)
    {
        var (a, b) = (Of(one), Of(other));
        var rough = Ratio(Roughness(a), Roughness(b)) > 3;
        Assert.True(rough || Ratio(a.Timbre.Centre, b.Timbre.Centre) > 1.25 || Ratio(a.Timbre.Octaves, b.Timbre.Octaves) > 1.5,
            $"{one}: {a.Timbre}, {Roughness(a)}; {other}: {b.Timbre}, {Roughness(b)}");
    }

    [Fact]
    public void Heard_is_one_tick()
    {
        var tick = Of("Heard");
        Assert.Single(tick.Onsets);
        Assert.InRange(tick.Sounding, 5, 60);
    }

    [Fact]
    public void Got_it_is_two_knocks_the_second_fuller_and_lower()
    {
        var lid = Of("GotIt");
        Assert.Equal(2, lid.Onsets.Count);
        Assert.InRange(lid.Onsets[1] - lid.Onsets[0], 80, 140);
        Assert.True(lid.Pitch(115, 300) < 0.7 * lid.Pitch(0, 80));
    }

    [Fact]
    public void Refused_is_two_rough_buzzes()
    {
        var no = Of("Refused");
        Assert.Equal(2, no.Onsets.Count);
        Assert.InRange(no.Onsets[1] - no.Onsets[0], 230, 330);
        Assert.True(Roughness(no) > 0.6);
    }

    [Fact]
    public void Look_is_one_long_sound_that_rises_by_an_octave_like_a_question()
    {
        var question = Of("Look");
        Assert.Single(question.Onsets);
        Assert.True(question.Sounding > 400);
        Assert.InRange(question.Pitch(520, 80) / question.Pitch(40, 80), 1.7, 2.6);
    }

    [Fact]
    public void Urgent_is_twelve_blows_in_two_groups_and_the_loudest()
    {
        var blows = Of("Urgent").Onsets;
        Assert.Equal(12, blows.Count);
        var gaps = blows.Zip(blows.Skip(1), (a, b) => b - a).ToList();
        Assert.All(gaps.Where((_, i) => i != 5), gap => Assert.InRange(gap, 70, 130)); // the first blow has no silence before it: its envelope begins late
        Assert.True(gaps[5] > 200);
        Assert.All(AnswerNames.All.Where(other => other != Answer.Urgent), other => Assert.True(Heard.Of(other).Level < Of("Urgent").Level - 1.5));
    }

    [Theory]
    [InlineData("Heard", -28, -24)]
    [InlineData("GotIt", -20, -16)]
    [InlineData("Refused", -20, -15)]
    [InlineData("Look", -20, -15)]
    [InlineData("Urgent", -16, -13.5)]
    public void None_is_clipped_and_each_is_as_loud_as_it_matters(string answer, double low, double high)
    {
        Assert.InRange(Of(answer).Peak, 0.05, 0.98);
        Assert.InRange(Of(answer).Level, low, high);
    }

    [Fact]
    public void Half_the_loudness_is_a_quarter_of_the_amplitude_and_none_is_silence()
    {
        var samples = ToneBook.Samples(Answer.Look);
        Assert.Equal(Of("Look").Peak / 4, Heard.OfFile(Wave.File(samples, Wave.Gain(50))).Peak, 1e-4);
        Assert.Equal(0, Heard.OfFile(Wave.File(samples, Wave.Gain(0))).Peak);
    }

    // Multimedia Programming Interface and Data Specifications 1.0 (IBM, Microsoft, 1991), WAVE form with PCM data; sizes from memory.
    [Fact]
    public void The_file_is_mono_pcm_of_16_bits()
    {
        var file = Wave.File(ToneBook.Samples(Answer.Heard), 1);

        Assert.Equal("RIFF"u8.ToArray(), file[..4]);
        Assert.Equal(file.Length - 8, BinaryPrimitives.ReadInt32LittleEndian(file.AsSpan(4)));
        Assert.Equal("WAVEfmt "u8.ToArray(), file[8..16]);
        Assert.Equal((16, 1, 1), (BinaryPrimitives.ReadInt32LittleEndian(file.AsSpan(16)), BinaryPrimitives.ReadInt16LittleEndian(file.AsSpan(20)), BinaryPrimitives.ReadInt16LittleEndian(file.AsSpan(22))));
        Assert.Equal((48_000, 96_000), (BinaryPrimitives.ReadInt32LittleEndian(file.AsSpan(24)), BinaryPrimitives.ReadInt32LittleEndian(file.AsSpan(28))));
        Assert.Equal((2, 16), (BinaryPrimitives.ReadInt16LittleEndian(file.AsSpan(32)), BinaryPrimitives.ReadInt16LittleEndian(file.AsSpan(34))));
        Assert.Equal(file.Length - 44, BinaryPrimitives.ReadInt32LittleEndian(file.AsSpan(40)));
    }

    private static Heard Of(string answer) => Heard.Of(Enum.Parse<Answer>(answer));

    private static double Roughness(Heard tone) => tone.Flutter(34, 20, 150 > tone.Sounding ? 40 : 140);

    private static double Ratio(double a, double b) => Math.Max(a, b) / Math.Max(1e-6, Math.Min(a, b));
}
