using Wain.Tests.Parsing;

namespace Wain.Tests.Binding;

/// <summary>Honest mistakes of a builder, and the words that meet them.</summary>
public class MistakeTests
{
    private const string Base = """
        sheet ply {
            thickness 6 mm
            size 48 in by 96 in
        }
        stack deck {
            sheet ply
        }
        plan bunk {
            start at (0 in, 30 in)
            leg nose run 40 in
            leg front across 60 in
            leg right run 40 in
            leg aft home
        }
        panel floor of deck {
            covers plan bunk, underside at 40 in
        }

        """;

    [Theory]
    [InlineData("underside at 40 in", "underside at 40", 16, 36, "A length is expected here, and this is a plain number. A bare number has no unit: write in, ft or mm after it.")]
    [InlineData("of deck", "of dekc", 15, 16, "There is no stack named \"dekc\". Did you mean deck?")]
    [InlineData("plan bunk,", "plan floor,", 16, 17, "\"floor\" is a panel, and a plan is needed here.")]
    [InlineData("by 96 in", "x 96 in", 3, 16, "The word \"by\" is expected after \"48 in\", not \"x\". This fact reads: size <width> by <length> [called <called>] [price <amount>] [on <date>] [count <count>].")]
    [InlineData("thickness 6 mm", "thick 6 mm", 2, 5, "\"thick\" means nothing in a sheet block.")]
    [InlineData("thickness 6 mm", "thickness 6 mm thickness 7 mm", 2, 20, "\"thickness\" is not understood here. This fact reads: thickness <true> [called <called>] [measured <measured>].")]
    [InlineData("thickness 6 mm", "thickness 6 lb", 2, 15, "A length is expected here, and this is a mass.")]
    [InlineData("run 40 in", "run 40 in, run 20 in", 10, 25, "\"run\" stands twice in this fact.")]
    [InlineData("covers plan bunk", "covers bunk", 16, 12, "\"bunk\" is not understood here. This fact reads: covers plan <plan> [underside at <underside>] [top at <top>] [pitched <pitch> toward <toward>].")]
    [InlineData("stack deck {\n", "stack deck\n{\n", 6, 1, "A block opens on the line of its fact: put this { at the end of that line.")]
    [InlineData("    sheet ply\n}\n", "    sheet ply\n", 5, 12, "This { is never closed; by the indents its } is missing before line 7.")]
    [InlineData("underside at 40 in", "underside at 40 inch", 16, 39, "\"inch\" is no unit of the language. Did you mean in?")]
    [InlineData("thickness 6 mm", "thickness 6 MM", 2, 17, "\"MM\" is no unit of the language. Did you mean mm?")]
    [InlineData("start at (0 in, 30 in)", "start at 0 in, 30 in", 9, 14, "A place stands in round brackets: (0 in, 30 in).")]
    [InlineData("start at (0 in, 30 in)", "start at (0 in, 30)", 9, 14, "A place of 2 lengths is expected here, such as (14 in, 8 in).")]
    [InlineData("thickness 6 mm", "thickness width", 2, 15, "There is nothing named \"width\".")]
    public void Is_told_in_plain_words_at_its_place(string right, string wrong, int line, int column, string message)
    {
        string text = Base.ReplaceLineEndings("\n");
        Assert.Contains(right, text);
        int at = text.IndexOf(right, StringComparison.Ordinal);
        var errors = Told.Errors(text[..at] + wrong + text[(at + right.Length)..]);
        var error = errors.FirstOrDefault(e => (e.Place.Line, e.Place.Column) == (line, column));
        Assert.True(error is not null, Told.All(errors));
        Assert.Equal(message, error.Message);
    }

    /// <summary>A brace too few is one mistake, told at the block that lacks it, with the place where the brace belongs.</summary>
    [Theory]
    [InlineData("    sheet ply\n}\n", "    sheet ply\n", 5)]
    [InlineData("    leg aft home\n}\n", "    leg aft home\n", 8)]
    [InlineData("    covers plan bunk, underside at 40 in\n}\n", "    covers plan bunk, underside at 40 in\n    opening hatch {\n        size 10 in by 10 in\n        centred at (20 in, 20 in)\n}\n", 16)]
    public void A_missing_brace_is_one_mistake(string right, string wrong, int line)
    {
        string text = Base.ReplaceLineEndings("\n").Replace(right, wrong, StringComparison.Ordinal);
        var error = Assert.Single(Told.Errors(text));
        Assert.Equal("WN0004", error.Code);
        Assert.Equal(wrong.Contains("opening", StringComparison.Ordinal) ? 17 : line, error.Place.Line);
        var fix = Assert.Single(error.Fixes);
        Assert.Empty(Told.Errors(text[..fix.Place.Start] + fix.Text + text[fix.Place.End..]));
    }

    [Fact]
    public void A_missing_brace_of_a_text_without_indents_is_told_once_by_what_stands_wrong()
    {
        string flat = string.Join('\n', Base.ReplaceLineEndings("\n").Split('\n').Select(l => l.Trim()));
        var errors = Told.Errors(flat.Replace("sheet ply\n}\n", "sheet ply\n", StringComparison.Ordinal));
        Assert.Equal(["WN0004", "WN1001"], errors.Select(e => e.Code).Order(StringComparer.Ordinal));
        Assert.Contains(errors, e => e.Message.EndsWith("is a } missing above?", StringComparison.Ordinal));
    }

    /// <summary>Where a name must follow, a name that is also a word of the fact is a name.</summary>
    [Theory]
    [InlineData("plan underside", "covers plan underside, underside at 40 in")]
    [InlineData("plan top", "covers plan top, top at 40 in")]
    [InlineData("plan pitched", "covers plan pitched, underside at 40 in, pitched 1 deg toward aft")]
    public void A_name_may_be_a_word_of_the_fact(string plan, string covers) =>
        Assert.Empty(Told.Errors(Base.Replace("plan bunk {", plan + " {", StringComparison.Ordinal).Replace("covers plan bunk, underside at 40 in", covers, StringComparison.Ordinal)));

    [Fact]
    public void The_base_is_right() => Assert.Empty(Told.Errors(Base));

    [Theory]
    [InlineData("let a = 3 in\nrequire a > 4 in, \"too short\"", "too short: a is 3 in and should be more than 4 in, off by 1 in.")]
    [InlineData("let a = 3 in\nlet b = 50 mm\nrequire a <= b", "The requirement is not met: a is 3 in and should be at most b, 1.9685 in, off by 1.0315 in.")]
    [InlineData("let a = 3\nrequire a == 3 and a * 2 < 5", "The requirement is not met: a * 2 is 6 and should be less than 5, off by 1.")]
    [InlineData("let a = 70 degF\nrequire a < 60 degF", "The requirement is not met: a is 70 degF and should be less than 60 degF.")]
    public void A_requirement_that_is_not_met_tells_both_figures_and_the_amount(string text, string message) =>
        Assert.Equal([message], Told.Errors(text + "\n").Select(e => e.Message));
}
