using Wain.Core.Findings;
using Wain.Core.Parsing;
using Wain.Core.Syntax;
using Wain.Core.Units;

namespace Wain.Tests.Parsing;

/// <summary>Each measure has one spelling; every other is refused by name, at its place, with the spelling to use, which is tried as well.</summary>
public class SpellingTests
{
    private static Finding One(string text)
    {
        var findings = SpecParser.Parse(Told.Source(text)).Findings;
        Assert.True(findings.Length == 1, Told.All(findings));
        return findings[0];
    }

    [Theory]
    [InlineData("let a = 3-1/2 in", 9, 5, "Write 3 1/2: whole and fraction are parted by a blank.", "let a = 3 1/2 in")]
    [InlineData("let a = 6'-3 1/2\"", 9, 9, "6'-3 1/2\" uses marks for feet and inches. Write ft and in: 6 ft 3 1/2 in.", "let a = 6 ft 3 1/2 in")]
    [InlineData("let a = 3' 6\"", 9, 5, "3' 6\" uses marks for feet and inches. Write ft and in: 3 ft 6 in.", "let a = 3 ft 6 in")]
    [InlineData("let a = 5/16\"", 9, 5, "5/16\" uses marks for feet and inches. Write ft and in: 5/16 in.", "let a = 5/16 in")]
    [InlineData("let a = 1,200 lb", 9, 5, "1,200: a comma parts the clauses of a fact. Write 1200, or 1.200 if a decimal was meant.", "let a = 1200 lb")]
    [InlineData("let a = 1,5 mm", 9, 3, "1,5: write a decimal with a point, 1.5; between two values a comma and a blank.", "let a = 1.5 mm")]
    [InlineData("let a = .5 in", 9, 2, "Write 0.5, with a digit before the point.", "let a = 0.5 in")]
    [InlineData("let a = 6mm", 9, 3, "Write 6 mm, with a blank before the unit.", "let a = 6 mm")]
    [InlineData("let a = 5/16in", 9, 6, "Write 5/16 in, with a blank before the unit.", "let a = 5/16 in")]
    [InlineData("let a = 10 in / 2 in", 17, 4, "This can be read in two ways: / (2 in), or / 2 with the result in inches. Put brackets round what divides.", "let a = 10 in / (2 in)")]
    [InlineData("let a = (9 in)-1 in", 15, 1, "A minus between two values has a blank on both sides: write \" - \".", "let a = (9 in) - 1 in")]
    [InlineData("let a = (9 in)/3", 15, 1, "Division has a blank on both sides: write \" / \".", "let a = (9 in) / 3")]
    [InlineData("load w { at(1 in, 2 in, 3 in) }", 10, 3, "\"at(\" begins no fact: a name right before a bracket is a function. Put a blank between: at (", "load w { at (1 in, 2 in, 3 in) }")]
    [InlineData("# a remark", 1, 1, "A remark begins with --.", "-- a remark")]
    [InlineData("// a remark", 1, 1, "A remark begins with --.", "-- a remark")]
    public void A_refused_spelling_names_the_right_one(string text, int column, int length, string message, string mended)
    {
        var finding = One(text);
        Assert.Equal(message, finding.Message);
        Assert.Equal((1, column, length), (finding.Place.Line, finding.Place.Column, finding.Place.Length));
        var fix = Assert.Single(finding.Fixes);
        Assert.Equal(mended, text[..fix.Place.Start] + fix.Text + text[fix.Place.End..]);
        Assert.Empty(SpecParser.Parse(Told.Source(mended)).Findings);
    }

    [Theory]
    [InlineData("let a = 5 mm_ply", 11, "\"mm_ply\" can't stand here; after a number comes a unit, an operator or the end of the line.")]
    [InlineData("let a = 2x4", 9, "2x4 begins with a digit. A name begins with a letter, and a number stands apart from the word after it.")]
    [InlineData("let a = b -3 in", 11, "\"-\" can't stand here; a minus between two values has a blank on both sides.")]
    [InlineData("let a = 3 oz/foo", 9, "\"oz/foo\" is no unit that the language knows.")]
    [InlineData("let a = 0/0 in", 9, "0/0 divides by zero.")]
    [InlineData("let a = 2026-02-30", 9, "2026-02-30 is no day of the calendar.")]
    [InlineData("let a = 5/2/2026", 9, "Write a date as year, month and day: 2026-05-02.")]
    [InlineData("let a = $4", 9, "The character '$' has no meaning here. An amount of money is written with its currency after it: 42 USD.")]
    [InlineData("let a = -500 degF", 9, "-500 degF is below absolute zero.")]
    [InlineData("let a = 1e40 in", 9, "1e40 has more digits than can be held exactly.")]
    [InlineData("else { }", 1, "\"else\" follows the } of an if.")]
    [InlineData("require 3 => 2", 11, "\"=\" can't stand here; a comparison is written ==, >= or <=, and a name is given a value with let.")]
    public void What_has_no_one_cure_is_told_in_plain_words(string text, int column, string message)
    {
        var finding = One(text);
        Assert.Equal(message, finding.Message);
        Assert.Equal(column, finding.Place.Column);
    }

    [Theory]
    [InlineData("5 1/2 in", 11, 2)]
    [InlineData("6 ft 3 1/2 in", 151, 2)]
    [InlineData("5/16 in", 5, 16)]
    [InlineData("5½ in", 11, 2)]
    [InlineData("5 ½ in", 11, 2)]
    [InlineData("5\u00A01/2\u00A0in", 11, 2)]
    [InlineData("0.125 in", 1, 8)]
    [InlineData("1e3 in", 1000, 1)]
    public void A_measure_is_one_value_read_exactly(string text, long numerator, long denominator)
    {
        var let = Assert.IsType<LetStatement>(Told.Parsed($"let a = {text}").Statements.Single());
        var measure = Assert.IsType<MeasureExpression>(let.Value);
        var inches = UnitTable.NumberOf(measure.Value, UnitTable.Find("in")!);
        Assert.Equal(Rational.Of(numerator, denominator), inches.Exact);
    }

    [Theory]
    [InlineData("sheet 3/8 ply", 2)]
    [InlineData("sheet 2 inner", 2)]
    [InlineData("sheet a (1 in, 2 in)", 2)]
    [InlineData("screw #8", 1)]
    [InlineData("leg a -3 in", 2)]
    [InlineData("leg a - 3 in", 1)]
    public void After_a_unit_comes_no_letter_and_a_place_has_a_blank_before_it(string text, int terms) =>
        Assert.Equal(terms, Assert.IsType<Fact>(Told.Parsed(text).Statements.Single()).Clauses.Sum(c => c.Length));

    [Theory]
    [InlineData("panel floor of deck")]
    [InlineData("leg nose across width")]
    [InlineData("panel panel of stack")]
    [InlineData("panel for of let")]
    [InlineData("gap at least 1 in")]
    [InlineData("a {\n}")]
    public void Trade_words_are_names_where_a_name_is_expected(string text) => Told.Parsed(text);

    [Theory]
    [InlineData("let a = 3 in +\n 2 in")]
    [InlineData("let a = (3 in\n + 2 in)")]
    [InlineData("let a = min(3 in,\n\n -- why\n 2 in)")]
    [InlineData("size 3 in by 2 in,\n called \"x\"")]
    [InlineData("if 1 > 2 {\n}\nelse {\n}")]
    [InlineData("require 1 > 2\n and 2 > 1")]
    [InlineData("let a = if 1 > 2\n then 3\n else 4")]
    [InlineData("let a = 1\r\nlet b = 2\rlet c = 3")]
    [InlineData("\uFEFFlet a = 1")]
    [InlineData("let a = 3 in × 2 – 1 in")]
    [InlineData("let a = “x”")]
    [InlineData("let a = 1 — a remark")]
    public void A_line_goes_on_and_signs_of_a_word_processor_are_read(string text) => Told.Parsed(text);

    [Fact]
    public void One_run_tells_every_mistake_and_reads_the_rest()
    {
        var stage = SpecParser.Parse(Told.Source("let a = = 1\nlet b = 2\nload w {\n 5 in\n full 3 gal\n) x\n at 3 = 4\n}\nlet c = (1\nlet d = 3\n"));
        Assert.Equal([1, 4, 6, 7, 9], stage.Findings.Select(f => f.Place.Line).Order());
        Assert.Equal(["a", "b", "c", "d"], stage.Value.Statements.OfType<LetStatement>().Select(s => s.Name.Text));
        Assert.Contains(stage.Value.Statements.OfType<Fact>().Single().Body!.Value, s => s is Fact { Head.Text: "full" });
    }

    [Fact]
    public void Text_in_quotes_is_kept_as_written()
    {
        var let = (LetStatement)Told.Parsed("let a = “6 × 4 – it’s \\\"big\\\" \\\\”").Statements.Single();
        Assert.Equal("6 × 4 – it’s \"big\" \\", ((TextExpression)let.Value).Value);
    }
}
