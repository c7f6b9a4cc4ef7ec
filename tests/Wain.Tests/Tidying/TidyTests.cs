using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text;
using Wain.Core.Findings;
using Wain.Core.Parsing;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Core.Tidying;
using Wain.Tests.Parsing;

namespace Wain.Tests.Tidying;

public class TidyTests
{
    private static string Tidied(string text)
    {
        var stage = Tidy.Format(new SourceText("a.wain", text));
        Assert.True(!stage.Findings.HasErrors(), Told.All(stage.Findings));
        return stage.Value;
    }

    /// <summary>The syntax without its places: what two texts of one meaning share.</summary>
    private static string Meaning(string text)
    {
        var said = new StringBuilder();
        foreach (var statement in Told.Parsed(text).Statements) Write(said, statement);
        return said.ToString();
    }

    private static void Write(StringBuilder said, object? value)
    {
        switch (value)
        {
            case null: said.Append("none "); break;
            case Span: break;
            case Word word: said.Append(word.Text).Append(' '); break;
            case string or bool or char or DateOnly or Core.Units.Rational: said.Append(CultureInfo.InvariantCulture, $"{value} "); break;
            case Core.Units.Quantity quantity: said.Append(CultureInfo.InvariantCulture, $"{quantity.Value:R} {quantity.Dimension} "); break;
            case IEnumerable list:
                said.Append('[');
                foreach (object? item in list) Write(said, item);
                said.Append(']');
                break;
            default:
                said.Append(value.GetType().Name).Append('(');
                if (value.GetType().IsGenericType) foreach (var field in value.GetType().GetFields()) Write(said, field.GetValue(value));
                else foreach (var property in value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.Name != "SingleWord")) Write(said, property.GetValue(value));
                said.Append(')');
                break;
        }
    }

    [Fact]
    public void One_layout()
    {
        const string Untidy = """


            -- first


            -- second
            let   a =   5½ in   -- half
            let b = 8°  * 2
            let long_enough_to_part = aaaaaaaaaa + bbbbbbbbbb + min(cccccccccc, dddddddddd, eeeeeeeeee, ffffffffff, gggggggggg, hhhhhhhhhh, iiiiiiiiii, jjjjjjjjjj)
            size width_of_a_sheet_of_plywood by length_of_a_sheet_of_plywood, called "a long name", price 42 USD, on 2026-05-02, count 3
            sheet ply { thickness 6   mm called “six – mm”

              -- inside
              size 48 in by 96 in,  price 31 USD,on 2026-10-01 }
            lift roof { carries { a
              b } }
            if a > 3 in and
              b < 9 deg { let q = 3 in
             }
            else {
               let q = (a)-  b   — a dash
            }
            screw s { gauge  #8
            length 2 in -- long
            }
            plan p { start at ( 0 in,0 in ) }
            for s in left ,right { place locker( s , width=3 in) as l[ s ] }
            """;
        const string Neat = """
            -- first

            -- second
            let a = 5 1/2 in -- half
            let b = 8 deg * 2
            let long_enough_to_part = aaaaaaaaaa + bbbbbbbbbb + min(cccccccccc, dddddddddd, eeeeeeeeee, ffffffffff, gggggggggg, hhhhhhhhhh, iiiiiiiiii,
                jjjjjjjjjj)
            size width_of_a_sheet_of_plywood by length_of_a_sheet_of_plywood, called "a long name", price 42 USD, on 2026-05-02, count 3
            sheet ply {
                thickness 6 mm called "six – mm"

                -- inside
                size 48 in by 96 in, price 31 USD, on 2026-10-01
            }
            lift roof {
                carries {
                    a
                    b
                }
            }
            if a > 3 in and b < 9 deg {
                let q = 3 in
            } else {
                let q = (a) - b -- a dash
            }
            screw s {
                gauge #8
                length 2 in -- long
            }
            plan p {
                start at (0 in, 0 in)
            }
            for s in left, right {
                place locker(s, width = 3 in) as l[s]
            }

            """;
        Assert.Equal(Neat.ReplaceLineEndings("\n"), Tidied(Untidy.Replace("(a)-  b", "(a) -  b", StringComparison.Ordinal)));
        Assert.Equal(Tidied(Untidy), Tidied(Untidy.ReplaceLineEndings("\r\n")));
        Assert.Equal("", Tidied("\uFEFF\n\n"));
    }

    [Fact]
    public void A_text_that_cannot_be_read_stays_as_it_is()
    {
        const string Broken = "let   a = = 1\nlet b   = 2\n";
        var stage = Tidy.Format(new SourceText("a.wain", Broken));
        Assert.Equal(Broken, stage.Value);
        Assert.True(stage.Findings.HasErrors());
    }

    private static void Holds(string text)
    {
        string once = Tidied(text);
        Assert.Equal(once, Tidied(once));
        Assert.Equal(Meaning(text), Meaning(once));
        Assert.Equal(Remarks(text), Remarks(once));
        Assert.DoesNotContain("\n\n\n", once);
        Assert.DoesNotContain(" \n", once);
    }

    private static IEnumerable<string> Remarks(string text) => SpecParser.Lex(new SourceText("a.wain", text)).Where(t => t.Type == Wain.Grammar.WainLexer.COMMENT).Select(t => t.Text.TrimEnd());

    [Fact]
    public void Meaning_comments_and_layout_hold_for_generated_text()
    {
        for (int seed = 1000; seed < 1060; seed++) Holds(Generated.Spec(new Random(seed), 12));
    }

    [Theory, MemberData(nameof(GrammarTests.Specs), MemberType = typeof(GrammarTests))]
    public void Meaning_comments_and_layout_hold_for_every_spec(string path) => Holds(GrammarTests.Spec(path).Text.ReplaceLineEndings("\n"));

    [Fact]
    public void Documented_examples_are_tidy()
    {
        foreach (var (_, text) in Language.ReferenceTests.Blocks().Where(b => !b.Text.StartsWith("-- wrong:", StringComparison.Ordinal)))
        {
            Holds(text);
            Assert.Equal(text, Tidied(text));
        }
    }
}
