using System.Collections.Immutable;
using Antlr4.Runtime;
using Antlr4.Runtime.Atn;
using Antlr4.Runtime.Misc;
using Antlr4.Runtime.Sharpen;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Grammar;

namespace Wain.Core.Parsing;

/// <summary>Text to AST. With <see cref="TokenReader"/> and <see cref="AstBuilder"/> the only code that knows ANTLR.</summary>
public static class SpecParser
{
    /// <summary>Longer texts are refused: tokens take some forty times the memory of their text.</summary>
    public const int LengthLimit = 64 * 1024 * 1024;

    /// <summary>A text with more mistakes than this is no spec; the rest are counted, not told.</summary>
    public const int FindingLimit = 1000;

    /// <summary>Parses one text. Recovers at line ends, so that one run reports every mistake; never throws on user text.</summary>
    public static Stage<SyntaxFile> Parse(SourceText source)
    {
        var start = new Span(source, 0, 0);
        if (source.Text.Length > LengthLimit)
        {
            return new(new SyntaxFile(source, []), [new Finding(SyntaxFindings.TooLarge, $"The text has {source.Text.Length / (1024 * 1024)} MB; the limit is {LengthLimit / (1024 * 1024)} MB.", start)]);
        }
        int control = IndexOfBinary(source.Text);
        if (control >= 0)
        {
            return new(new SyntaxFile(source, []), [new Finding(SyntaxFindings.NotText, "This is not plain UTF-8 text: a byte here is no character. Save the file as UTF-8.", new Span(source, control, 1))]);
        }
        var lexed = TokenReader.Read(source, Lex(source));
        if (lexed.Value.Count == 0) return new(new SyntaxFile(source, []), lexed.Findings);

        var errors = new ErrorListener(source);
        var builder = new AstBuilder(source);
        var parser = MakeParser(lexed.Value, errors);
        parser.Interpreter.PredictionMode = PredictionMode.SLL;
        parser.AddParseListener(builder);
        var file = builder.Finish(parser.spec());
        // A text that is wrong in its brackets makes the parser stumble as well; what the reader said is enough.
        var said = lexed.Findings.Select(f => f.Place.Line).ToHashSet();
        return new(file, Limited(source, [.. lexed.Findings, .. errors.Findings.Where(f => !said.Contains(f.Place.Line)), .. builder.Findings]));
    }

    private static ImmutableArray<Finding> Limited(SourceText source, ImmutableArray<Finding> findings)
    {
        if (findings.Length <= FindingLimit) return findings;
        var last = findings[FindingLimit].Place;
        return [.. findings.Take(FindingLimit), new Finding(SyntaxFindings.Unexpected, $"{findings.Length - FindingLimit:N0} more mistakes like these; they are not listed.", last)];
    }

    /// <summary>Every ambiguity that the grammar has for a text, found with full exact prediction; for tests.</summary>
    internal static ImmutableArray<string> Ambiguities(SourceText source)
    {
        var listener = new AmbiguityListener();
        var parser = MakeParser(TokenReader.Read(source, Lex(source)).Value, new ErrorListener(source));
        parser.AddErrorListener(listener);
        parser.Interpreter.PredictionMode = PredictionMode.LL_EXACT_AMBIG_DETECTION;
        parser.spec();
        return [.. listener.Found];
    }

    internal static IList<IToken> Lex(SourceText source)
    {
        var lexer = new WainLexer(new AntlrInputStream(PlainSigns(source.Text)));
        lexer.RemoveErrorListeners();
        return lexer.GetAllTokens() is { } tokens ? [.. tokens, lexer.EmitEOF()] : [];
    }

    /// <summary>Signs of a word processor as their plain spelling, one for one so that every place stays the same.</summary>
    internal static string PlainSigns(string text)
    {
        if (System.Text.Ascii.IsValid(text)) return text;
        return string.Create(text.Length, text, static (to, from) =>
        {
            for (int i = 0; i < from.Length; i++)
            {
                to[i] = from[i] switch
                {
                    '\u00A0' or '\u2007' or '\u2009' or '\u202F' or '\uFEFF' => ' ',
                    '\u201C' or '\u201D' or '\u201E' or '\u2033' => '"',
                    '\u2018' or '\u2019' or '\u2032' => '\'',
                    '\u2212' or '\u2013' or '\u2010' or '\u2011' => '-',
                    '\u00D7' or '\u00B7' => '*',
                    '\u00F7' or '\u2044' or '\u2215' => '/',
                    '\u00BA' or '\u02DA' => '\u00B0',
                    '\u00B2' => '2',
                    '\u00B3' => '3',
                    var c => c,
                };
            }
        });
    }

    private static int IndexOfBinary(string text)
    {
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (c == '\uFFFD' || (char.IsControl(c) && c is not ('\t' or '\r' or '\n'))) return i;
        }
        return -1;
    }

    private static WainParser MakeParser(IList<IToken> tokens, ErrorListener errors)
    {
        var parser = new WainParser(new CommonTokenStream(new ListTokenSource(tokens))) { ErrorHandler = new LineRecovery() };
        parser.RemoveErrorListeners();
        parser.AddErrorListener(errors);
        return parser;
    }

    /// <summary>Gives up a statement at its first mistake and goes on at the next line.</summary>
    private sealed class LineRecovery : DefaultErrorStrategy
    {
        public override void Sync(Parser recognizer) { }

        public override IToken RecoverInline(Parser recognizer) => throw new InputMismatchException(recognizer);

        public override void Recover(Parser recognizer, RecognitionException e)
        {
            var stream = (ITokenStream)recognizer.InputStream;
            int depth = 0;
            int before = stream.Index;
            for (int type = stream.LA(1); type != TokenConstants.EOF; type = stream.LA(1))
            {
                if (type == WainLexer.LBRACE) depth++;
                if (type == WainLexer.RBRACE && depth-- == 0) break;
                if (type == WainLexer.NEWLINE && depth == 0) break;
                recognizer.Consume();
            }
            // The rule for the whole text has nobody to go back to: past the offending token it must move on by itself.
            if (recognizer.RuleContext is WainParser.StatementContext && stream.LA(1) == WainLexer.NEWLINE) recognizer.Consume();
            else if (recognizer.RuleContext is WainParser.SpecContext && stream.Index == before && stream.LA(1) != TokenConstants.EOF) recognizer.Consume();
        }
    }

    private sealed class ErrorListener(SourceText source) : BaseErrorListener
    {
        public List<Finding> Findings { get; } = [];

        public override void SyntaxError(TextWriter output, IRecognizer recognizer, IToken offendingSymbol, int line, int charPositionInLine, string msg, RecognitionException e)
        {
            int start = Math.Min(offendingSymbol.StartIndex, source.Text.Length);
            int length = Math.Max(0, Math.Min(offendingSymbol.StopIndex + 1, source.Text.Length) - start);
            var place = new Span(source, start, length);
            if (offendingSymbol.Type == WainLexer.CALL)
            {
                string word = place.Text[..^1];
                Findings.Add(new Finding(SyntaxFindings.Unexpected, $"\"{place.Text}\" can't stand here. A name right before a bracket is a function; for a word and a place, put a blank between: {word} (", place)
                {
                    Fixes = [new Fix(new Span(source, place.End - 1, 0), " ", "put a blank before the bracket")],
                });
                return;
            }
            string found = offendingSymbol.Type switch
            {
                TokenConstants.EOF => "The text ends here",
                WainLexer.NEWLINE => "The line ends here",
                _ => $"\"{place.Text}\" can't stand here",
            };
            string expected = offendingSymbol.Type switch
            {
                WainLexer.WORD when recognizer.InputStream is ITokenStream { Index: > 0 } tokens && tokens.Get(offendingSymbol.TokenIndex > 0 ? offendingSymbol.TokenIndex - 1 : 0).Type == WainLexer.NUMBER => "after a number comes a unit, an operator or the end of the line",
                WainLexer.EQUALS => "a comparison is written ==, >= or <=, and a name is given a value with let",
                WainLexer.SIGN => "a minus between two values has a blank on both sides",
                WainLexer.LBRACE when ((Parser)recognizer).RuleContext is WainParser.SpecContext or WainParser.StatementContext or WainParser.BlockContext => "a block opens on the line of its fact",
                WainLexer.RBRACE when ((Parser)recognizer).RuleContext is WainParser.ForKeyContext or WainParser.FactContext => "after a comma the line goes on",
                _ => Expectation((Parser)recognizer),
            };
            Findings.Add(new Finding(SyntaxFindings.Unexpected, $"{found}; {expected}.", place) { Fixes = offendingSymbol.Type switch { WainLexer.EQUALS => Equals(place), WainLexer.SIGN => [new Fix(new Span(source, place.End, 0), " ", "put a blank after the minus")], _ => [] } });
        }

        // By what the line is: a value that is named, a comparison, or a name without its let.
        private static ImmutableArray<Fix> Equals(Span at)
        {
            int begin = at.Source.Text.LastIndexOf('\n', at.Start) + 1;
            string before = at.Source.Text[begin..at.Start];
            if (before.TrimEnd() is [.., '<' or '>' or '!'] apart) return [new Fix(new Span(at.Source, begin + apart.Length - 1, at.End - begin - apart.Length + 1), apart[^1] + "=", $"write {apart[^1]}=")];
            switch (before.TrimStart().Split(' ')[0])
            {
                case "let" or "set" or "function": return before.TrimEnd().EndsWith('=') ? [new Fix(at, "", "take it out")] : [];
                case "require" or "if" or "else" or "}": return [new Fix(at, "==", "write ==")];
                default:
                    string name = before.Trim();
                    return name.Length > 0 && name.All(c => char.IsAsciiLetterOrDigit(c) || c == '_') ? [new Fix(new Span(at.Source, begin + before.Length - before.TrimStart().Length, 0), "let ", $"write let {name}")] : [];
            }
        }

        // In the words of the language, by the rule that was being read; never the parser generator's own words.
        private static string Expectation(Parser parser) => parser.RuleContext switch
        {
            WainParser.LetStatementContext => "a number is given a name like this: let width = 70 in",
            WainParser.SetStatementContext => "a value is replaced like this: set width = 72 in",
            WainParser.FunctionStatementContext or WainParser.ParametersContext => "a function reads like this: function rise(run, slope) = run * tan(slope)",
            WainParser.GroupStatementContext => "a group reads like this: group locker(width) { ... }",
            WainParser.IfStatementContext => "a condition reads like this: if wide { ... } else { ... }",
            WainParser.ForStatementContext or WainParser.ForKeyContext => "a repetition reads like this: for side in left, right { ... }",
            WainParser.RequireStatementContext => "a requirement reads like this: require width <= 80 in, \"why\"",
            WainParser.ChoiceContext => "a choice reads like this: if wide then 3 in else 2 in",
            WainParser.ArgumentContext => "the arguments of a call are parted by commas",
            WainParser.PathContext or WainParser.PathPartContext or WainParser.AnyWordContext or WainParser.IndexContext => "a name was expected",
            WainParser.StatementContext or WainParser.SpecContext or WainParser.BlockContext => "a new fact begins with its keyword on a line of its own",
            WainParser.FactContext or WainParser.TermContext => "the line should go on with a word or a value, or end",
            _ => "a value was expected: a number with its unit, a name, or brackets",
        };
    }

    private sealed class AmbiguityListener : BaseErrorListener
    {
        public List<string> Found { get; } = [];

        public override void ReportAmbiguity(Parser recognizer, Antlr4.Runtime.Dfa.DFA dfa, int startIndex, int stopIndex, bool exact, BitSet ambigAlts, ATNConfigSet configs) =>
            Found.Add($"{recognizer.RuleNames[dfa.atnStartState.ruleIndex]}: {((ITokenStream)recognizer.InputStream).GetText(Interval.Of(startIndex, stopIndex))}");
    }
}
