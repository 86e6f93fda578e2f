using System.Text.RegularExpressions;
using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Labels;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Page.Live;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Page.Tests.Support;
using Xunit;

namespace CaptureAgent.Page.Tests.Live;

/// <summary>What the page says, in each language: nothing is left out in one of them.</summary>
public sealed partial class TextsTests
{
    private static readonly Dictionary<string, string> English = PageTexts.In("en"), Spanish = PageTexts.In("es");

    [Fact]
    public void Every_key_of_one_language_is_in_the_other_with_the_same_places()
    {
        Assert.Equal(English.Keys.Order(StringComparer.Ordinal), Spanish.Keys.Order(StringComparer.Ordinal));
        foreach (var (key, text) in English)
        {
            Assert.False(string.IsNullOrWhiteSpace(text) || string.IsNullOrWhiteSpace(Spanish[key]), key);
            Assert.Equal((key, string.Join(' ', PlacesOf(text))), (key, string.Join(' ', PlacesOf(Spanish[key]))));
        }
    }

    [Fact]
    public void What_is_said_and_what_stands_on_labels_has_every_key_in_both_languages()
    {
        Assert.Equal(SpokenTexts.In("en").Keys.Order(StringComparer.Ordinal), SpokenTexts.In("es").Keys.Order(StringComparer.Ordinal));
        Assert.Equal(LabelTexts.In("en").Keys.Order(StringComparer.Ordinal), LabelTexts.In("es").Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Whatever_can_be_said_can_be_read()
    {
        // The voice has a sentence for each kind of alert, finding, reason and chore, which its own tests hold to the code.
        foreach (var key in SpokenTexts.In("en").Keys.Where(key => key.Split('.')[0] is "alert" or "finding" or "reason" or "due" && !key.EndsWith(".other", StringComparison.Ordinal)))
            Assert.Contains(key.Replace('.', '-'), English.Keys);
        foreach (var kind in ObservationKinds.All.Append(ObservationKinds.CropFull).Concat(["wash", "syringe", "pan", "bowls"]))
            Assert.Contains($"note-{kind}", English.Keys);
        foreach (var kind in ObservationKinds.All)
            Assert.Contains(kind, LabelTexts.In("en").Keys);
    }

    [Fact]
    public void Whatever_keeps_a_device_away_can_be_read() =>
        Assert.All(LinkCause.All, static cause => Assert.Contains($"cause-{cause}", English.Keys));

    [Fact]
    public void Every_step_at_the_pan_has_its_word_and_what_to_do_next()
    {
        foreach (var step in typeof(PanStep).GetFields().Select(field => (string)field.GetRawConstantValue()!).Where(step => step != PanStep.Checked).Concat(["checked-good", "checked-off"]))
        {
            Assert.Contains($"step-{step}", English.Keys);
            Assert.Contains($"next-{step}", English.Keys);
        }
    }

    [Fact]
    public void Remedies_in_English_are_the_agents_own()
    {
        foreach (var reason in English.Keys.Where(key => key.StartsWith("reason-", StringComparison.Ordinal)).Select(key => key["reason-".Length..]))
            Assert.Equal(Reasons.RemedyFor(reason), English[$"remedy-{reason}"]);
    }

    private static IEnumerable<string> PlacesOf(string text) => Places().Matches(text).Select(place => place.Value).Order(StringComparer.Ordinal);

    [GeneratedRegex(@"\{\w+\}")]
    private static partial Regex Places();
}
