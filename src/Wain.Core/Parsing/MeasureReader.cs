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

/// <summary>Reads what begins with a number or a sign: joins numbers and units into measures, tells a sign from a minus, and names every spelling that is refused.</summary>
internal sealed class MeasureReader(TokenWindow tokens)
{
    private readonly TokenWindow _tokens = tokens;
    private readonly IList<IToken> _in = tokens.In;
    private readonly List<IToken> _out = tokens.Out;

    /// <summary>Reads from a token on, if it begins anything of the kind; gives the index of the last token used, or null.</summary>
    public int? Read(int index)
    {
        var token = _in[index];
        switch (token.Type)
        {
            case WainLexer.NUMBER: return ReadMeasure(index, ReadNumber(token));
            case WainLexer.GROUPED_NUMBER: return ReadGrouped(index);
            case WainLexer.BARE_POINT_NUMBER: return Misspelled(index, $"Write 0{token.Text}, with a digit before the point.", "0" + token.Text);
            case WainLexer.DASHED_MEASURE: return Misspelled(index, $"Write {token.Text.Replace('-', ' ')}: whole and fraction are parted by a blank.", token.Text.Replace('-', ' '));
            case WainLexer.DIGIT_WORD: return ReadDigitWord(index);
            case WainLexer.MARKED_MEASURE: ReadMarked(token); return index;
            case WainLexer.MINUS: ReadMinus(index); return index;
            case WainLexer.STROKE: ReadStroke(index); return index;
            default: return null;
        }
    }

    private void ReadMinus(int index)
    {
        var token = _in[index];
        if (_tokens.BlankAfter(index)) _out.Add(token);
        else if (_tokens.BlankBefore(index)) _out.Add(TokenWindow.Retyped(token, WainLexer.SIGN));
        else if (IsInDate(index - 1) || IsInDate(index - 3))
        {
            if (IsInDate(index - 1)) _tokens.Report(SyntaxFindings.Sign, token, "A date is written year, month, day, such as 2026-05-02.", null);
            _out.Add(token);
        }
        else
        {
            _tokens.Report(SyntaxFindings.Sign, token, "A minus between two values has a blank on both sides: write \" - \".", new Fix(_tokens.SpanOf(token, token), " - ", "put blanks round it"));
            _out.Add(token);
        }
    }

    // Day, month and year, or month first: nobody can tell which, so nothing is written for it.
    private bool IsInDate(int first)
    {
        if (first < 0 || first + 4 >= _in.Count || _tokens.BlankBefore(first + 1)) return false;
        bool Digits(int index, int least, int most) => _in[index].Type == WainLexer.NUMBER && _in[index].Text.Length >= least && _in[index].Text.Length <= most && _in[index].Text.All(char.IsAsciiDigit);
        return Digits(first, 1, 2) && _in[first + 1].Type == WainLexer.MINUS && Digits(first + 2, 1, 2) && _in[first + 3].Type == WainLexer.MINUS && Digits(first + 4, 4, 4);
    }

    private void ReadStroke(int index)
    {
        var token = _in[index];
        if (!_tokens.BlankBefore(index) && !_tokens.BlankAfter(index) && _in[index - 1].Type == WainLexer.NUMBER && _in[index - 1].Text.Contains('/') && _in[index + 1].Type == WainLexer.NUMBER)
        {
            _tokens.Report(SyntaxFindings.Spelling, _in[index - 1], "Write a date as year, month and day: 2026-05-02.", last: _in[index + 1]);
        }
        else if (!_tokens.BlankBefore(index) || !_tokens.BlankAfter(index)) _tokens.Report(SyntaxFindings.Sign, token, "Division has a blank on both sides: write \" / \".", new Fix(_tokens.SpanOf(token, token), " / ", "put blanks round it"));
        _out.Add(token);
    }

    /// <summary>Joins a number with the unit words that follow it; returns the index of the last token used.</summary>
    /// <param name="number">What the token comes to; null if it can't be held, which is told already.</param>
    private int ReadMeasure(int index, Rational? number)
    {
        var first = _in[index];
        int next = index + 1;
        if (_tokens.Follows(index) && _in[next].Type is WainLexer.WORD or WainLexer.CALL or WainLexer.DIGIT_WORD)
        {
            bool isUnit = UnitTable.IsUnit(_in[next].Text);
            _tokens.Report(SyntaxFindings.Spelling, first, isUnit ? $"Write {first.Text} {_in[next].Text}, with a blank before the unit." : $"{first.Text}{_in[next].Text} can't be read: put a blank after the number.", isUnit ? new Fix(new Span(_tokens.Source, _in[next].StartIndex, 0), " ", "put a blank before the unit") : null, _in[next]);
        }
        if (next < _in.Count && _in[next].Type == WainLexer.WORD && !UnitTable.IsUnit(_in[next].Text) && UnitTable.Meant(_in[next].Text) is { } meant)
        {
            _tokens.Report(SyntaxFindings.Spelling, _in[next], $"\"{_in[next].Text}\" is no unit of the language. Did you mean {meant}?", new Fix(_tokens.SpanOf(_in[next], _in[next]), meant, $"write {meant}"));
            return AddMeasure(first, next, number, meant);
        }
        bool sign = next < _in.Count && _in[next].Type is WainLexer.PERCENT or WainLexer.DEGREE;
        if (!sign && (next >= _in.Count || _in[next].Type != WainLexer.WORD || !UnitTable.IsUnit(_in[next].Text)))
        {
            _out.Add(number is null ? TokenWindow.Retyped(first, WainLexer.NUMBER, "1") : first.Type == WainLexer.NUMBER ? first : TokenWindow.Retyped(first, WainLexer.NUMBER, number.Value.ToString()));
            return index;
        }
        string unitText = sign ? _in[next].Type == WainLexer.PERCENT ? "%" : "deg" : _in[next].Text;
        int last = sign ? next : ReadUnit(next, ref unitText);
        return AddMeasure(first, last, number, unitText);
    }

    /// <summary>The words of a unit such as oz/yd2, from its first on; returns the index of the last.</summary>
    private int ReadUnit(int index, ref string text)
    {
        while (_tokens.Follows(index) && _in[index + 1].Type is WainLexer.STROKE or WainLexer.TIMES && _tokens.Follows(index + 1) && _in[index + 2].Type == WainLexer.WORD)
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
            _tokens.Report(SyntaxFindings.Spelling, first, $"\"{unitText}\" is no unit that the language knows.", last: _in[last]);
            unit = UnitTable.Find(unitText.Split('/', '*')[0])!;
        }
        var value = number is { } known ? UnitTable.ToBase(known, unit) : new Quantity(Rational.One, unit.Dimension);
        // 6 ft 3 1/2 in is one length.
        if (unitText == "ft" && last + 2 < _in.Count && _in[last + 1].Type == WainLexer.NUMBER && _in[last + 2].Type == WainLexer.WORD && _in[last + 2].Text == "in"
            && !(_tokens.Follows(last + 2) && _in[last + 3].Type is WainLexer.STROKE or WainLexer.TIMES) && ReadNumber(_in[last + 1]) is { } inches)
        {
            value = Quantity.Add(value, UnitTable.ToBase(inches, UnitTable.Find("in")!), Dimension.OfLength);
            last += 2;
        }
        AddMeasure(first, _in[last], value, unitText);
        return last;
    }

    private void AddMeasure(IToken first, IToken last, Quantity value, string unitText)
    {
        string read = _tokens.Text(first, last);
        if (_out.Count > 0 && _out[^1].Type == WainLexer.STROKE)
        {
            _tokens.Report(SyntaxFindings.Division, first, $"This can be read in two ways: / ({read}), or / {first.Text} with the result in {UnitTable.Find(unitText)?.Words ?? unitText}. Put brackets round what divides.", last: last,
                fix: new Fix(_tokens.SpanOf(first, last), $"({read})", $"write ({read})"));
        }
        if (value.Dimension.OnScale && value.Value < 0) _tokens.Report(SyntaxFindings.BadNumber, first, $"{read} is below absolute zero.", last: last);
        _out.Add(new MeasureToken(first, last, read, value, unitText));
    }

    private Rational? ReadNumber(IToken token)
    {
        var value = NumberText.Parse(token.Text);
        if (value is null) _tokens.Report(SyntaxFindings.BadNumber, token, token.Text.Contains("/0", StringComparison.Ordinal) ? $"{token.Text} divides by zero." : NumberText.TooManyDigits(token.Text));
        return value;
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
            _tokens.Report(SyntaxFindings.Spelling, token, $"{NumberText.Shorten(token.Text)} begins with a digit. A name begins with a letter, and a number stands apart from the word after it.");
            _out.Add(TokenWindow.Retyped(token, WainLexer.WORD));
            return index;
        }
        _tokens.Report(SyntaxFindings.Spelling, token, $"Write {number} {word}, with a blank before the unit.", new Fix(_tokens.SpanOf(token, token), $"{number} {word}", $"write {number} {word}"));
        int last = ReadUnit(index, ref word);
        return AddMeasure(token, last, NumberText.Parse(number), word);
    }

    /// <summary>A number that is refused, read as its right spelling, so that one slip is told once.</summary>
    private int Misspelled(int index, string message, string cure, bool fixIt = true)
    {
        var token = _in[index];
        _tokens.Report(SyntaxFindings.Spelling, token, message, fixIt ? new Fix(_tokens.SpanOf(token, token), cure, $"write {cure}") : null);
        return ReadMeasure(index, NumberText.Parse(cure));
    }

    // 3' 6", 6'-3 1/2", 5/16".
    private void ReadMarked(IToken token)
    {
        string cure = SpellOut(token.Text);
        _tokens.Report(SyntaxFindings.Spelling, token, $"{token.Text} uses marks for feet and inches. Write ft and in: {cure}.", new Fix(_tokens.SpanOf(token, token), cure, $"write {cure}"));
        var value = new Quantity(Rational.Zero, Dimension.OfLength);
        foreach (string unit in (string[])["ft", "in"])
        {
            int at = cure.IndexOf(unit, StringComparison.Ordinal);
            if (at < 0) continue;
            if (NumberText.Parse(cure[..at].Trim()) is { } number) value = Quantity.Add(value, UnitTable.ToBase(number, UnitTable.Find(unit)!), Dimension.OfLength);
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
}
