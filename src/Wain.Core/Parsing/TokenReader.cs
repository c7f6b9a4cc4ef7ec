using System.Collections.Immutable;
using Antlr4.Runtime;
using Wain.Core.Findings;
using Wain.Core.Text;
using Wain.Core.Units;
using Wain.Grammar;

namespace Wain.Core.Parsing;

/// <summary>A token that stands for a whole measure and carries its value, so that the text is read only once.</summary>
internal sealed class MeasureToken(IToken first, IToken last, string text, Quantity value, string unit)
    : CommonToken(new Tuple<ITokenSource, ICharStream>(first.TokenSource, first.InputStream), WainLexer.MEASURE, 0, first.StartIndex, last.StopIndex)
{
    public Quantity Value { get; } = value;

    public string Unit { get; } = unit;

    public override string Text { get => text; set { } }
}

/// <summary>
/// Between lexer and parser: joins numbers and units into measures, tells a sign from a minus, lets a line go on inside brackets and after a
/// comma or an operator, counts the depth of nesting before the parser can run out of stack, closes what was left open, and names every
/// spelling that is refused. Each of these needs to see the neighbours of a token, which a lexer can't.
/// </summary>
internal sealed class TokenReader
{
    /// <summary>Deeper nesting is refused: the parser recurses, and .NET can't catch a stack overflow.</summary>
    public const int DepthLimit = 200;

    private const string VulgarFractions = "\u00BC\u00BD\u00BE\u215B\u215C\u215D\u215E";
    private static readonly string[] VulgarSpellings = ["1/4", "1/2", "3/4", "1/8", "3/8", "5/8", "7/8"];

    private readonly SourceText _source;
    private readonly IList<IToken> _in;
    private readonly List<IToken> _out;
    private readonly List<Finding> _findings = [];
    private readonly Stack<IToken> _open = new();
    private bool _tooDeep;

    private TokenReader(SourceText source, IList<IToken> tokens)
    {
        _source = source;
        _in = tokens;
        _out = new List<IToken>(tokens.Count);
    }

    /// <summary>The tokens for the parser. None at all if the text is nested too deep to be parsed.</summary>
    public static Stage<List<IToken>> Read(SourceText source, IList<IToken> tokens)
    {
        var reader = new TokenReader(source, tokens);
        reader.Run();
        return new Stage<List<IToken>>(reader._tooDeep ? [] : reader._out, [.. reader._findings]);
    }

    private void Run()
    {
        for (int i = 0; i < _in.Count && !_tooDeep; i++)
        {
            var token = _in[i];
            switch (token.Type)
            {
                case WainLexer.BLANKS or WainLexer.COMMENT: break;
                case WainLexer.NUMBER: i = ReadMeasure(i); break;
                case WainLexer.NEWLINE: EndLine(i); break;
                case WainLexer.LBRACE or WainLexer.LPAREN or WainLexer.LBRACKET or WainLexer.CALL: Open(token); break;
                case WainLexer.RBRACE or WainLexer.RPAREN or WainLexer.RBRACKET: Close(token); break;
                case WainLexer.MINUS: ReadMinus(i); break;
                case WainLexer.STROKE: ReadStroke(i); break;
                case WainLexer.OPEN_STRING:
                    Report(SyntaxFindings.Unclosed, token, "This text has no closing quote on its line.");
                    _out.Add(Retyped(token, WainLexer.STRING));
                    break;
                case WainLexer.GROUPED_NUMBER: ReadGrouped(token); break;
                case WainLexer.BARE_POINT_NUMBER: Misspelled(token, $"Write {"0" + token.Text}, with a digit before the point.", "0" + token.Text); break;
                case WainLexer.DASHED_MEASURE: ReadDashed(token); break;
                case WainLexer.MARKED_MEASURE: Misspelled(token, $"{token.Text} uses marks for feet and inches. Write ft and in: {SpellOut(token.Text)}.", SpellOut(token.Text)); break;
                case WainLexer.DIGIT_WORD: ReadDigitWord(token); break;
                case WainLexer.OTHER:
                    Report(SyntaxFindings.Unexpected, token, $"The character '{Show(token.Text)}' has no meaning here.");
                    break;
                case WainLexer.Eof: Finish(token); break;
                default: _out.Add(token); break;
            }
        }
    }

    private void Open(IToken token)
    {
        // A block that opens inside round brackets means that a bracket was forgotten, not that the bracket goes on for pages.
        if (token.Type == WainLexer.LBRACE) CloseRoundBrackets(token);
        _open.Push(token);
        if (_open.Count > DepthLimit)
        {
            Report(SyntaxFindings.TooDeep, token, $"This is nested more than {DepthLimit} levels deep.");
            _tooDeep = true;
        }
        _out.Add(token);
    }

    private void Close(IToken token)
    {
        if (token.Type == WainLexer.RBRACE) CloseRoundBrackets(token);
        bool matches = _open.TryPeek(out var open) && open.Type switch
        {
            WainLexer.LBRACE => token.Type == WainLexer.RBRACE,
            WainLexer.LBRACKET => token.Type == WainLexer.RBRACKET,
            _ => token.Type == WainLexer.RPAREN,
        };
        if (!matches)
        {
            Report(SyntaxFindings.Unopened, token, $"This {token.Text} closes nothing that is open.");
            return;
        }
        _open.Pop();
        if (token.Type == WainLexer.RBRACE) EndStatement(token);
        _out.Add(token);
    }

    private void CloseRoundBrackets(IToken at)
    {
        while (_open.TryPeek(out var open) && open.Type != WainLexer.LBRACE)
        {
            _open.Pop();
            Report(SyntaxFindings.Unclosed, open, $"This {open.Text[^1]} is never closed.");
            _out.Add(Made(at, open.Type == WainLexer.LBRACKET ? WainLexer.RBRACKET : WainLexer.RPAREN, open.Type == WainLexer.LBRACKET ? "]" : ")"));
        }
    }

    private void EndLine(int index)
    {
        bool inRound = _open.TryPeek(out var open) && open.Type != WainLexer.LBRACE;
        if (inRound)
        {
            // A line goes on inside brackets, unless what follows can only be the beginning of another fact.
            if (StartsNewFact(index)) CloseRoundBrackets(_in[index]);
            else return;
        }
        if (_out.Count > 0 && GoesOnAfter(_out[^1].Type)) return;
        EndStatement(_in[index]);
    }

    private bool StartsNewFact(int index)
    {
        int i = index + 1;
        while (i < _in.Count && _in[i].Type is WainLexer.BLANKS or WainLexer.COMMENT or WainLexer.NEWLINE) i++;
        if (i >= _in.Count) return false;
        if (_out.Count > 0 && GoesOnAfter(_out[^1].Type)) return false;
        return _in[i].Type is WainLexer.LET or WainLexer.REQUIRE or WainLexer.FOR or WainLexer.GROUP or WainLexer.SET or WainLexer.FUNCTION or WainLexer.WORD or WainLexer.RBRACE or WainLexer.Eof;
    }

    private static bool GoesOnAfter(int type) => type is WainLexer.COMMA or WainLexer.PLUS or WainLexer.MINUS or WainLexer.TIMES or WainLexer.STROKE or WainLexer.POWER
        or WainLexer.EQUALS or WainLexer.SAME or WainLexer.DIFFERENT or WainLexer.LESS or WainLexer.LESS_OR_SAME or WainLexer.GREATER or WainLexer.GREATER_OR_SAME
        or WainLexer.AND or WainLexer.OR or WainLexer.THEN or WainLexer.LBRACE or WainLexer.LPAREN or WainLexer.LBRACKET or WainLexer.CALL;

    private void EndStatement(IToken at)
    {
        if (_out.Count == 0 || _out[^1].Type is WainLexer.NEWLINE or WainLexer.LBRACE) return;
        _out.Add(Made(at, WainLexer.NEWLINE, "\n"));
    }

    private void Finish(IToken end)
    {
        CloseRoundBrackets(end);
        while (_open.TryPop(out var open))
        {
            Report(SyntaxFindings.Unclosed, open, "This { is never closed.");
            EndStatement(end);
            _out.Add(Made(end, WainLexer.RBRACE, "}"));
        }
        EndStatement(end);
        _out.Add(end);
    }

    private void ReadMinus(int index)
    {
        var token = _in[index];
        bool blankBefore = index == 0 || _in[index - 1].Type is WainLexer.BLANKS or WainLexer.NEWLINE or WainLexer.LPAREN or WainLexer.LBRACKET or WainLexer.CALL or WainLexer.COMMA or WainLexer.LBRACE or WainLexer.COMMENT;
        bool blankAfter = index + 1 < _in.Count && _in[index + 1].Type is WainLexer.BLANKS or WainLexer.NEWLINE or WainLexer.COMMENT or WainLexer.Eof;
        if (blankAfter)
        {
            _out.Add(token);
            return;
        }
        if (!blankBefore)
        {
            Report(SyntaxFindings.Sign, token, "A minus between two values has a blank on both sides: write \" - \".", new Fix(SpanOf(token, token), " - ", "put blanks round it"));
            _out.Add(token);
            return;
        }
        _out.Add(Retyped(token, WainLexer.SIGN));
    }

    private void ReadStroke(int index)
    {
        var token = _in[index];
        bool before = index > 0 && _in[index - 1].Type is WainLexer.BLANKS or WainLexer.NEWLINE;
        bool after = index + 1 < _in.Count && _in[index + 1].Type is WainLexer.BLANKS or WainLexer.NEWLINE;
        if (!before || !after) Report(SyntaxFindings.Sign, token, "Division has a blank on both sides: write \" / \".", new Fix(SpanOf(token, token), " / ", "put blanks round it"));
        _out.Add(token);
    }

    /// <summary>Joins a number with the unit words that follow it; returns the index of the last token used.</summary>
    private int ReadMeasure(int index)
    {
        var first = _in[index];
        int last = index;
        var number = ReadNumber(first);
        int unitAt = NextUnit(index, out int unitEnd, out string unitText);
        if (unitAt < 0)
        {
            _out.Add(first);
            return index;
        }
        var unit = UnitTable.Find(unitText);
        last = unitEnd;
        if (unit is null)
        {
            Report(SyntaxFindings.Spelling, _in[unitAt], $"\"{unitText}\" is no unit that the language knows.");
            unit = UnitTable.Find("in")!;
        }
        if (number is null)
        {
            _out.Add(new MeasureToken(first, _in[last], Text(first, _in[last]), new Quantity(Rational.One, unit.Dimension), unitText));
            return last;
        }
        var value = UnitTable.ToBase(number.Value, unit);
        // 6 ft 3 1/2 in is one length.
        if (unitText == "ft")
        {
            int next = last + 1;
            while (next < _in.Count && _in[next].Type == WainLexer.BLANKS) next++;
            if (next < _in.Count && _in[next].Type == WainLexer.NUMBER && NextUnit(next, out int inchEnd, out string inchText) >= 0 && inchText == "in" && ReadNumber(_in[next]) is { } inches)
            {
                value = Quantity.Add(value, UnitTable.ToBase(inches, UnitTable.Find("in")!), Dimension.OfLength);
                last = inchEnd;
            }
        }
        var measure = new MeasureToken(first, _in[last], Text(first, _in[last]), value, unitText);
        if (_out.Count > 0 && _out[^1].Type == WainLexer.STROKE)
        {
            string read = Text(first, _in[last]);
            Report(SyntaxFindings.Division, first, $"This can be read in two ways: / ({read}), or / {first.Text} and the result in {unitText}. Put brackets round what divides.", last: _in[last],
                fix: new Fix(SpanOf(first, _in[last]), $"({read})", $"write ({read})"));
        }
        _out.Add(measure);
        return last;
    }

    private int NextUnit(int index, out int end, out string text)
    {
        int i = index + 1;
        if (i < _in.Count && _in[i].Type is WainLexer.PERCENT or WainLexer.DEGREE) { end = i; text = _in[i].Type == WainLexer.PERCENT ? "%" : "deg"; return i; }
        while (i < _in.Count && _in[i].Type == WainLexer.BLANKS) i++;
        end = i;
        text = "";
        if (i >= _in.Count || i == index + 1) return -1;
        if (_in[i].Type is WainLexer.PERCENT or WainLexer.DEGREE) { text = _in[i].Type == WainLexer.PERCENT ? "%" : "deg"; return i; }
        if (_in[i].Type != WainLexer.WORD || !UnitTable.IsUnit(_in[i].Text)) return -1;
        text = _in[i].Text;
        int at = i;
        while (i + 2 < _in.Count && _in[i + 1].Type is WainLexer.STROKE or WainLexer.TIMES && _in[i + 2].Type == WainLexer.WORD && _in[i + 1].StopIndex + 1 == _in[i + 2].StartIndex && _in[i].StopIndex + 1 == _in[i + 1].StartIndex)
        {
            text += _in[i + 1].Text + _in[i + 2].Text;
            i += 2;
        }
        end = i;
        return at;
    }

    private Rational? ReadNumber(IToken token)
    {
        var value = ParseNumber(token.Text);
        if (value is null) Report(SyntaxFindings.BadNumber, token, token.Text.Contains("/0", StringComparison.Ordinal) ? $"{token.Text} divides by zero." : $"{Shorten(token.Text)} has more digits than can be held exactly.");
        return value;
    }

    /// <summary>12, 0.5, 5/16 and 5 1/2; null for a zero denominator or too many digits.</summary>
    internal static Rational? ParseNumber(string text)
    {
        int vulgar = VulgarFractions.IndexOf(text[^1]);
        if (vulgar >= 0) return ParseNumber((text[..^1].Trim() + " " + VulgarSpellings[vulgar]).TrimStart());
        int stroke = text.IndexOf('/');
        if (stroke < 0) return Rational.ParseDecimal(text);
        int blank = text.LastIndexOfAny([' ', '\t'], stroke);
        var whole = blank < 0 ? Rational.Zero : Rational.ParseDecimal(text.AsSpan(0, blank).TrimEnd());
        var numerator = Rational.ParseDecimal(text.AsSpan(blank + 1, stroke - blank - 1));
        var denominator = Rational.ParseDecimal(text.AsSpan(stroke + 1));
        if (whole is null || numerator is null || denominator?.Inverse() is not { } inverse) return null;
        return Rational.Multiply(numerator.Value, inverse) is { } fraction ? Rational.Add(whole.Value, fraction) : null;
    }

    private void ReadGrouped(IToken token)
    {
        string joined = token.Text.Replace(",", "", StringComparison.Ordinal);
        var parts = token.Text.Split(',');
        bool thousands = parts.Skip(1).All(p => p.Split('.')[0].Length == 3);
        string decimalPoint = token.Text.Replace(',', '.');
        Misspelled(token, thousands ? $"{token.Text}: a comma parts the clauses of a fact. Write {joined}, or {decimalPoint} if a decimal was meant."
            : $"{token.Text}: write {decimalPoint} with a point for a decimal; a comma and a blank part two values.", thousands ? joined : decimalPoint);
    }

    private void ReadDashed(IToken token) => Misspelled(token, $"Write {token.Text.Replace('-', ' ')}: whole and fraction are parted by a blank.", token.Text.Replace('-', ' '));

    private void ReadDigitWord(IToken token)
    {
        int split = 0;
        while (split < token.Text.Length && (char.IsAsciiDigit(token.Text[split]) || token.Text[split] == '.')) split++;
        string number = token.Text[..split], word = token.Text[split..];
        if (UnitTable.IsUnit(word)) Misspelled(token, $"Write {number} {word}, with a blank before the unit.", $"{number} {word}");
        else Misspelled(token, $"{token.Text} begins with a digit. A name begins with a letter, and a number stands apart from the word after it.", null);
    }

    private void Misspelled(IToken token, string message, string? cure)
    {
        Report(SyntaxFindings.Spelling, token, message, cure is null ? null : new Fix(SpanOf(token, token), cure, $"write {cure}"));
        _out.Add(Retyped(token, WainLexer.NUMBER, "1"));
    }

    private static string SpellOut(string text)
    {
        var parts = text.TrimEnd('"').Split('\'');
        string feet = parts.Length > 1 ? parts[0] + " ft" : "";
        string inches = parts[^1].Trim(' ', '-');
        if (inches.Length > 0) inches += " in";
        return (feet + " " + inches).Trim();
    }

    private string Text(IToken first, IToken last) => _source.Text.Substring(first.StartIndex, last.StopIndex + 1 - first.StartIndex);

    private static string Shorten(string text) => text.Length <= 24 ? text : text[..20] + "...";

    private static string Show(string text) => char.IsControl(text[0]) || char.IsSurrogate(text[0]) ? $"U+{(int)text[0]:X4}" : text;

    private Span SpanOf(IToken first, IToken last) => new(_source, first.StartIndex, last.StopIndex + 1 - first.StartIndex);

    private void Report(FindingInfo info, IToken token, string message, Fix? fix = null, IToken? last = null) =>
        _findings.Add(new Finding(info, message, SpanOf(token, last ?? token)) { Fixes = fix is null ? [] : [fix] });

    private static CommonToken Made(IToken at, int type, string text) =>
        new(new Tuple<ITokenSource, ICharStream>(at.TokenSource, at.InputStream), type, 0, at.StartIndex, at.StartIndex - 1) { Text = text, Line = at.Line };

    private static CommonToken Retyped(IToken token, int type, string? text = null)
    {
        var copy = new CommonToken(token) { Type = type };
        if (text is not null) copy.Text = text;
        return copy;
    }
}
