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

    /// <summary>A fact with more words than this is a slip; the parser would hold all of it at once.</summary>
    public const int StatementLimit = 100_000;

    internal const string VulgarFractions = "\u00BC\u00BD\u00BE\u215B\u215C\u215D\u215E";
    internal static readonly string[] VulgarSpellings = ["1/4", "1/2", "3/4", "1/8", "3/8", "5/8", "7/8"];

    private readonly SourceText _source;
    private readonly IList<IToken> _in;
    private readonly List<IToken> _out;
    private readonly List<Finding> _findings = [];
    private readonly Stack<IToken> _open = new();
    private readonly BlockIndents? _indents;
    private bool _tooDeep;
    private bool _blockLeftOpen;
    private int _start;

    private TokenReader(SourceText source, IList<IToken> tokens, BlockIndents? indents = null)
    {
        _source = source;
        _in = tokens;
        _out = new List<IToken>(tokens.Count);
        _indents = indents;
    }

    /// <summary>The tokens for the parser. None at all if the text is nested too deep to be parsed.</summary>
    public static Stage<List<IToken>> Read(SourceText source, IList<IToken> tokens)
    {
        var reader = new TokenReader(source, tokens);
        reader.Run();
        // A brace too few: braces alone can't say where, so the text is read again by its indents, and the rest of it stays what it is.
        if (reader._blockLeftOpen)
        {
            reader = new TokenReader(source, tokens, new BlockIndents(source));
            reader.Run();
        }
        return new Stage<List<IToken>>(reader._tooDeep ? [] : reader._out, [.. reader._findings]);
    }

    private void Run()
    {
        for (int i = 0; i < _in.Count && !_tooDeep; i++)
        {
            var token = _in[i];
            if (AtStart && _indents is not null) CloseByIndent(token);
            if (AtStart) _start = _out.Count;
            else if (_out.Count - _start > StatementLimit)
            {
                i = LeaveOutLong(i);
                continue;
            }
            if (AtStart && !MayStart(token.Type))
            {
                i = ReadBadStart(i);
                continue;
            }
            switch (token.Type)
            {
                case WainLexer.COMMENT: break;
                case WainLexer.NUMBER: i = ReadMeasure(i, ReadNumber(token)); break;
                case WainLexer.NEWLINE: EndLine(i); break;
                case WainLexer.LBRACE or WainLexer.LPAREN or WainLexer.LBRACKET or WainLexer.CALL: Open(token); break;
                case WainLexer.RBRACE or WainLexer.RPAREN or WainLexer.RBRACKET: Close(token); break;
                case WainLexer.MINUS: ReadMinus(i); break;
                case WainLexer.STROKE: ReadStroke(i); break;
                case WainLexer.OPEN_STRING:
                    Report(SyntaxFindings.Unclosed, token, "This text has no closing quote on its line.");
                    _out.Add(Retyped(token, WainLexer.STRING));
                    break;
                case WainLexer.GROUPED_NUMBER: i = ReadGrouped(i); break;
                case WainLexer.BARE_POINT_NUMBER: i = Misspelled(i, $"Write 0{token.Text}, with a digit before the point.", "0" + token.Text); break;
                case WainLexer.DASHED_MEASURE: i = Misspelled(i, $"Write {token.Text.Replace('-', ' ')}: whole and fraction are parted by a blank.", token.Text.Replace('-', ' ')); break;
                case WainLexer.MARKED_MEASURE: ReadMarked(token); break;
                case WainLexer.DIGIT_WORD: i = ReadDigitWord(i); break;
                case WainLexer.HASH:
                    if (!(Follows(i) && _in[i + 1].Type == WainLexer.NUMBER)) Report(SyntaxFindings.Unexpected, token, "A # stands before the number of a screw's gauge, as in #8; a remark begins with --.");
                    break;
                case WainLexer.OTHER:
                    int last = i;
                    while (Follows(last) && _in[last + 1].Type == WainLexer.OTHER) last++;
                    Report(SyntaxFindings.Unexpected, token, last == i ? $"The character {Show(token.Text)} has no meaning here.{Meant(token.Text[0])}" : $"The characters {Shorten(Text(token, _in[last]))} have no meaning here.", last: _in[last]);
                    i = last;
                    break;
                case WainLexer.Eof: Finish(token); break;
                default: _out.Add(token); break;
            }
        }
    }

    private bool AtStart => _out.Count == 0 || _out[^1].Type is WainLexer.NEWLINE or WainLexer.LBRACE;

    private static bool MayStart(int type) => type is WainLexer.WORD or WainLexer.LET or WainLexer.SET or WainLexer.FUNCTION or WainLexer.GROUP or WainLexer.IF or WainLexer.FOR or WainLexer.REQUIRE
        or WainLexer.RBRACE or WainLexer.NEWLINE or WainLexer.COMMENT or WainLexer.OTHER or WainLexer.Eof;

    /// <summary>A line that begins with what begins no fact: mended where it is plain what was meant, else left out whole.</summary>
    private int ReadBadStart(int index)
    {
        var token = _in[index];
        if (token.Type == WainLexer.CALL)
        {
            string word = token.Text[..^1];
            var bracket = new Span(_source, token.StopIndex, 0);
            _findings.Add(new Finding(SyntaxFindings.Unexpected, $"\"{token.Text}\" begins no fact: a name right before a bracket is a function. Put a blank between: {word} (", SpanOf(token, token)) { Fixes = [new Fix(bracket, " ", "put a blank before the bracket")] });
            _out.Add(new CommonToken(token) { Type = WainLexer.WORD, StopIndex = token.StopIndex - 1, Text = word });
            Open(new CommonToken(token) { Type = WainLexer.LPAREN, StartIndex = token.StopIndex, Text = "(" });
            return index;
        }
        if (token.Type == WainLexer.LBRACE && _out.Count > 1 && _out[^1].Type == WainLexer.NEWLINE && _out[^2].Type != WainLexer.RBRACE)
        {
            Report(SyntaxFindings.Unexpected, token, "A block opens on the line of its fact: put this { at the end of that line.");
            _out.RemoveAt(_out.Count - 1);
            Open(token);
            return index;
        }
        bool remark = token.Type == WainLexer.HASH || (token.Type == WainLexer.STROKE && Follows(index) && _in[index + 1].Type is WainLexer.STROKE or WainLexer.TIMES);
        string why = remark ? "A remark begins with --." : token.Type == WainLexer.ELSE ? "\"else\" follows the } of an if." : $"\"{Shorten(token.Text)}\" begins no fact. A fact begins with its keyword, on a line of its own.";
        Report(SyntaxFindings.Unexpected, token, why, remark ? new Fix(SpanOf(token, token.Type == WainLexer.HASH ? token : _in[index + 1]), "--", "write --") : null);
        return EndOfStatement(index, !remark) - 1;
    }

    private int LeaveOutLong(int index)
    {
        var first = _out[_start];
        Report(SyntaxFindings.TooLarge, first, $"This fact has more than {StatementLimit:N0} words; it is left out.");
        _out.RemoveRange(_start, _out.Count - _start);
        while (_open.TryPeek(out var open) && open.Type != WainLexer.LBRACE) _open.Pop();
        return EndOfStatement(index, true) - 1;
    }

    /// <summary>The line end, or the brace of the block around, that ends what stands here.</summary>
    private int EndOfStatement(int index, bool withBlocks)
    {
        int depth = 0;
        int end = index;
        while (_in[end].Type != WainLexer.Eof)
        {
            if (withBlocks && _in[end].Type == WainLexer.LBRACE) depth++;
            if (withBlocks && _in[end].Type == WainLexer.RBRACE && --depth < 0) break;
            if (_in[end].Type == WainLexer.NEWLINE && depth == 0) break;
            end++;
        }
        return end;
    }

    private void Open(IToken token)
    {
        // A block that opens inside round brackets means that a bracket was forgotten, not that the bracket goes on for pages.
        if (token.Type == WainLexer.LBRACE) CloseRoundBrackets(token);
        _open.Push(token);
        if (token.Type == WainLexer.LBRACE) _indents?.Open(token);
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
        if (token.Type == WainLexer.RBRACE)
        {
            _indents?.Close();
            EndStatement(token);
        }
        _out.Add(token);
    }

    /// <summary>Closes the blocks that a line, by its indent, stands no more in.</summary>
    private void CloseByIndent(IToken token)
    {
        if (token.Type is WainLexer.NEWLINE or WainLexer.COMMENT or WainLexer.Eof) return;
        while (_open.TryPeek(out var open) && open.Type == WainLexer.LBRACE && _indents!.Ends(token, token.Type == WainLexer.RBRACE))
        {
            int line = _source.Position(token.StartIndex).Line;
            var before = new Span(_source, token.StartIndex - _indents.Of(token), 0);
            string brace = new string(' ', _indents.OfOpen) + "}\n";
            _findings.Add(new Finding(SyntaxFindings.Unclosed, $"This {{ is never closed; by the indents its }} is missing before line {line}.", SpanOf(open, open)) { Fixes = [new Fix(before, brace, "write a } on a line of its own")] });
            _open.Pop();
            _indents.Close();
            _out.Add(Made(token, WainLexer.RBRACE, "}"));
            EndStatement(token);
        }
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
        if (_out.Count == 0 || _out[^1].Type is WainLexer.NEWLINE or WainLexer.LBRACE || GoesOnAfter(_out[^1].Type)) return;
        // No line can begin with these, so they belong to the one above.
        if (NextThatSays(index) is WainLexer.ELSE or WainLexer.THEN or WainLexer.AND or WainLexer.OR) return;
        EndStatement(_in[index]);
    }

    /// <summary>True if the next token stands right after this one, with no blank between.</summary>
    private bool Follows(int index) => index + 1 < _in.Count && _in[index + 1].StartIndex == _in[index].StopIndex + 1 && _in[index + 1].Type != WainLexer.Eof;

    private bool BlankBefore(int index) => index == 0 || _in[index - 1].StopIndex + 1 < _in[index].StartIndex
        || _in[index - 1].Type is WainLexer.NEWLINE or WainLexer.LPAREN or WainLexer.LBRACKET or WainLexer.CALL or WainLexer.COMMA or WainLexer.LBRACE;

    private bool BlankAfter(int index) => !Follows(index) || _in[index + 1].Type is WainLexer.NEWLINE or WainLexer.COMMENT;

    /// <summary>The first token past a line end that says anything.</summary>
    private int NextThatSays(int index)
    {
        int type = TokenConstants.EOF;
        for (int i = index + 1; i < _in.Count; i++)
        {
            type = _in[i].Type;
            if (type is not (WainLexer.COMMENT or WainLexer.NEWLINE)) break;
        }
        return type;
    }

    private bool StartsNewFact(int index) => !GoesOnAfter(_out[^1].Type) && NextThatSays(index) is WainLexer.LET or WainLexer.REQUIRE or WainLexer.FOR or WainLexer.GROUP or WainLexer.SET or WainLexer.FUNCTION
        or WainLexer.WORD or WainLexer.RBRACE or WainLexer.Eof;

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
            _blockLeftOpen = true;
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
        if (BlankAfter(index)) _out.Add(token);
        else if (BlankBefore(index)) _out.Add(Retyped(token, WainLexer.SIGN));
        else
        {
            Report(SyntaxFindings.Sign, token, "A minus between two values has a blank on both sides: write \" - \".", new Fix(SpanOf(token, token), " - ", "put blanks round it"));
            _out.Add(token);
        }
    }

    private void ReadStroke(int index)
    {
        var token = _in[index];
        if (!BlankBefore(index) && !BlankAfter(index) && _in[index - 1].Type == WainLexer.NUMBER && _in[index - 1].Text.Contains('/') && _in[index + 1].Type == WainLexer.NUMBER)
        {
            Report(SyntaxFindings.Spelling, _in[index - 1], "Write a date as year, month and day: 2026-05-02.", last: _in[index + 1]);
        }
        else if (!BlankBefore(index) || !BlankAfter(index)) Report(SyntaxFindings.Sign, token, "Division has a blank on both sides: write \" / \".", new Fix(SpanOf(token, token), " / ", "put blanks round it"));
        _out.Add(token);
    }

    /// <summary>Joins a number with the unit words that follow it; returns the index of the last token used.</summary>
    /// <param name="number">What the token comes to; null if it can't be held, which is told already.</param>
    private int ReadMeasure(int index, Rational? number)
    {
        var first = _in[index];
        int next = index + 1;
        if (Follows(index) && _in[next].Type is WainLexer.WORD or WainLexer.CALL or WainLexer.DIGIT_WORD)
        {
            bool isUnit = UnitTable.IsUnit(_in[next].Text);
            Report(SyntaxFindings.Spelling, first, isUnit ? $"Write {first.Text} {_in[next].Text}, with a blank before the unit." : $"{first.Text}{_in[next].Text} can't be read: put a blank after the number.", isUnit ? new Fix(new Span(_source, _in[next].StartIndex, 0), " ", "put a blank before the unit") : null, _in[next]);
        }
        if (next < _in.Count && _in[next].Type == WainLexer.WORD && !UnitTable.IsUnit(_in[next].Text) && UnitTable.Meant(_in[next].Text) is { } meant)
        {
            Report(SyntaxFindings.Spelling, _in[next], $"\"{_in[next].Text}\" is no unit of the language. Did you mean {meant}?", new Fix(SpanOf(_in[next], _in[next]), meant, $"write {meant}"));
            return AddMeasure(first, next, number, meant);
        }
        bool sign = next < _in.Count && _in[next].Type is WainLexer.PERCENT or WainLexer.DEGREE;
        if (!sign && (next >= _in.Count || _in[next].Type != WainLexer.WORD || !UnitTable.IsUnit(_in[next].Text)))
        {
            _out.Add(number is null ? Retyped(first, WainLexer.NUMBER, "1") : first.Type == WainLexer.NUMBER ? first : Retyped(first, WainLexer.NUMBER, number.Value.ToString()));
            return index;
        }
        string unitText = sign ? _in[next].Type == WainLexer.PERCENT ? "%" : "deg" : _in[next].Text;
        int last = sign ? next : ReadUnit(next, ref unitText);
        return AddMeasure(first, last, number, unitText);
    }

    /// <summary>The words of a unit such as oz/yd2, from its first on; returns the index of the last.</summary>
    private int ReadUnit(int index, ref string text)
    {
        while (Follows(index) && _in[index + 1].Type is WainLexer.STROKE or WainLexer.TIMES && Follows(index + 1) && _in[index + 2].Type == WainLexer.WORD)
        {
            text += _in[index + 1].Text + _in[index + 2].Text;
            index += 2;
        }
        return index;
    }

    private int AddMeasure(IToken first, int last, Rational? number, string unitText)
    {
        var unit = UnitTable.Find(unitText);
        if (unit is null)
        {
            Report(SyntaxFindings.Spelling, first, $"\"{unitText}\" is no unit that the language knows.", last: _in[last]);
            unit = UnitTable.Find(unitText.Split('/', '*')[0])!;
        }
        var value = number is { } known ? UnitTable.ToBase(known, unit) : new Quantity(Rational.One, unit.Dimension);
        // 6 ft 3 1/2 in is one length.
        if (unitText == "ft" && last + 2 < _in.Count && _in[last + 1].Type == WainLexer.NUMBER && _in[last + 2].Type == WainLexer.WORD && _in[last + 2].Text == "in"
            && !(Follows(last + 2) && _in[last + 3].Type is WainLexer.STROKE or WainLexer.TIMES) && ReadNumber(_in[last + 1]) is { } inches)
        {
            value = Quantity.Add(value, UnitTable.ToBase(inches, UnitTable.Find("in")!), Dimension.OfLength);
            last += 2;
        }
        AddMeasure(first, _in[last], value, unitText);
        return last;
    }

    private void AddMeasure(IToken first, IToken last, Quantity value, string unitText)
    {
        string read = Text(first, last);
        if (_out.Count > 0 && _out[^1].Type == WainLexer.STROKE)
        {
            Report(SyntaxFindings.Division, first, $"This can be read in two ways: / ({read}), or / {first.Text} with the result in {UnitTable.Find(unitText)?.Words ?? unitText}. Put brackets round what divides.", last: last,
                fix: new Fix(SpanOf(first, last), $"({read})", $"write ({read})"));
        }
        if (value.Dimension.OnScale && value.Value < 0) Report(SyntaxFindings.BadNumber, first, $"{read} is below absolute zero.", last: last);
        _out.Add(new MeasureToken(first, last, read, value, unitText));
    }

    private Rational? ReadNumber(IToken token)
    {
        var value = ParseNumber(token.Text);
        if (value is null) Report(SyntaxFindings.BadNumber, token, token.Text.Contains("/0", StringComparison.Ordinal) ? $"{token.Text} divides by zero." : TooManyDigits(token.Text));
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

    private int ReadGrouped(int index)
    {
        string text = _in[index].Text;
        string joined = text.Replace(",", "", StringComparison.Ordinal), point = text.Replace(',', '.');
        bool thousands = text.Split(',').Skip(1).All(p => p.Split('.')[0].Length == 3);
        bool onePoint = point.Count(c => c == '.') == 1;
        string decimals = onePoint ? thousands ? $", or {point} if a decimal was meant" : $"with a point for a decimal, {point}" : "";
        string message = thousands ? $"{text}: a comma parts the clauses of a fact. Write {joined}{decimals}."
            : onePoint ? $"{text}: write a decimal with a point, {point}; between two values a comma and a blank." : $"{text}: between two values write a comma and a blank.";
        return Misspelled(index, message, thousands ? joined : onePoint ? point : text.Split(',')[0], fixIt: thousands || onePoint);
    }

    private int ReadDigitWord(int index)
    {
        var token = _in[index];
        int split = 0;
        while (split < token.Text.Length && (char.IsAsciiDigit(token.Text[split]) || token.Text[split] == '.')) split++;
        string number = token.Text[..split], word = token.Text[split..];
        if (!UnitTable.IsUnit(word))
        {
            Report(SyntaxFindings.Spelling, token, $"{Shorten(token.Text)} begins with a digit. A name begins with a letter, and a number stands apart from the word after it.");
            _out.Add(Retyped(token, WainLexer.WORD));
            return index;
        }
        Report(SyntaxFindings.Spelling, token, $"Write {number} {word}, with a blank before the unit.", new Fix(SpanOf(token, token), $"{number} {word}", $"write {number} {word}"));
        int last = ReadUnit(index, ref word);
        return AddMeasure(token, last, ParseNumber(number), word);
    }

    /// <summary>A number that is refused, read as its right spelling, so that one slip is told once.</summary>
    private int Misspelled(int index, string message, string cure, bool fixIt = true)
    {
        var token = _in[index];
        Report(SyntaxFindings.Spelling, token, message, fixIt ? new Fix(SpanOf(token, token), cure, $"write {cure}") : null);
        return ReadMeasure(index, ParseNumber(cure));
    }

    // 3' 6", 6'-3 1/2", 5/16".
    private void ReadMarked(IToken token)
    {
        string cure = SpellOut(token.Text);
        Report(SyntaxFindings.Spelling, token, $"{token.Text} uses marks for feet and inches. Write ft and in: {cure}.", new Fix(SpanOf(token, token), cure, $"write {cure}"));
        var value = new Quantity(Rational.Zero, Dimension.OfLength);
        foreach (string unit in (string[])["ft", "in"])
        {
            int at = cure.IndexOf(unit, StringComparison.Ordinal);
            if (at < 0) continue;
            if (ParseNumber(cure[..at].Trim()) is { } number) value = Quantity.Add(value, UnitTable.ToBase(number, UnitTable.Find(unit)!), Dimension.OfLength);
            cure = cure[(at + 2)..];
        }
        AddMeasure(token, token, value, "in");
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

    internal static string TooManyDigits(string text) => $"{Shorten(text)} has more digits than can be held exactly.";

    private static string Shorten(string text) => text.Length <= 24 ? text : text[..20] + "...";

    private static string Meant(char sign) => sign switch
    {
        '$' or '\u20AC' or '\u00A3' => " An amount of money is written with its currency after it: 42 USD.",
        ';' => " A fact ends with its line.",
        ':' => " A block opens with {, and a name is given a value with =.",
        '&' => " Write and.",
        _ => "",
    };

    private static string Show(string text) => char.IsControl(text[0]) || char.IsSurrogate(text[0]) ? $"U+{(int)text[0]:X4}" : $"'{text}'";

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
