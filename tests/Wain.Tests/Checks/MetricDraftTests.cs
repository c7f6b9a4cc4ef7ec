using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>Slips of a first draft in millimetres and kilograms, and that what they are told to do mends them.</summary>
public class MetricDraftTests
{
    private static IReadOnlyList<Finding> Compile(string text) => Compiler.Compile(new SourceText("draft.wain", text.ReplaceLineEndings("\n"))).Findings;

    private static string Mended(string text, Fix fix) => text[..fix.Place.Start] + fix.Text + text[fix.Place.End..];

    /// <summary>A comma parts clauses: before a word or a value that the fact needs there is none.</summary>
    [Theory]
    [InlineData("empty front 1120 kg, rear 840 kg, weighed 2026-07-14", "1120 kg rear")]
    [InlineData("people 2, 80 kg at 1200 mm", "2 80 kg")]
    public void A_comma_too_many_is_taken_out(string fact, string without)
    {
        string text = $"carrier truck {{\n    kind bed\n    {fact}\n}}\n";
        var told = Assert.Single(Compile(text), f => f.Level == Level.Error);
        Assert.Equal("WN1003", told.Code);
        Assert.StartsWith("No comma stands between", told.Message, StringComparison.Ordinal);
        Assert.Contains($"Write {without} without it.", told.Hint);
        Assert.DoesNotContain(Compile(Mended(text, Assert.Single(told.Fixes))), f => f.Level == Level.Error);
    }

    [Fact]
    public void What_is_not_there_behind_a_comma_is_still_asked_for() =>
        Assert.Contains(Compile("carrier truck {\n    empty front 1120 kg, weighed 2026-07-14\n}\n"), f => f.Message.StartsWith("The word \"rear\" is expected", StringComparison.Ordinal));

    /// <summary>Nobody routes 1 mm of aluminium to half: a sheet of metal is butted over a strip, and the advice, done to the letter, is enough.</summary>
    [Fact]
    public void A_sheet_of_metal_is_advised_a_butt_over_a_strip()
    {
        string text = """
            camper "Roof" revision "A" { lengths millimetres }
            sheet alu { kind metal
                thickness 1 mm
                size 1250 mm by 2500 mm }
            stack skin { sheet alu }
            panel roof of skin {
                through (0 mm, 600 mm, 0 mm) along (3000 mm, 600 mm, 0 mm) up (0 mm, -500 mm, 0 mm)
            }

            """.ReplaceLineEndings("\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN4204");
        Assert.Contains("splice across length of alu { butt backed by 50 mm }", told.Hint);
        Assert.DoesNotContain(Compile(Mended(text, Assert.Single(told.Fixes))), f => f.Level != Level.Note && f.Code is not "WN5001" and not "WN5002");
    }

    [Theory]
    [InlineData("when dry 0 %", true)]
    [InlineData("when dry 0 %\n    when camped 0 %", true)]
    [InlineData("when dry 0 %\n    when ready", false)]
    [InlineData("when dry 50 %", false)]
    [InlineData("", false)]
    public void A_load_that_is_empty_wherever_it_is_stated_is_told(string states, bool told) =>
        Assert.Equal(told, Compile($"load water {{\n    full 40 l\n    at (0 mm, 0 mm, 100 mm)\n    {states}\n}}\n").Any(f => f.Code == "WN4411"));
}
