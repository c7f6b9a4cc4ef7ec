using Antlr4.Runtime;
using Wain.Core.Findings;
using Wain.Core.Text;
using Wain.Grammar;

namespace Wain.Core.Parsing;

/// <summary>
/// Between lexer and parser: has numbers and units joined into measures, lets a line go on inside brackets and after a comma or an operator,
/// counts the depth of nesting before the parser can run out of stack, and closes what was left open. Each of these needs to see the
/// neighbours of a token, which a lexer can't.
/// </summary>
internal sealed class TokenReader
{
    /// <summary>Deeper nesting is refused: the parser recurses, and .NET can't catch a stack overflow.</summary>
    public const int DepthLimit = 200;

    /// <summary>A fact with more words than this is a slip; the parser would hold all of it at once.</summary>
    public const int StatementLimit = 100_000;

    /// <summary>A longer word is no name that a person chose; every message would carry it.</summary>
    public const int WordLimit = 200;

    private readonly TokenWindow _tokens;
    private readonly MeasureReader _measures;
    private readonly SourceText _source;
    private readonly IList<IToken> _in;
    private readonly List<IToken> _out;
    private readonly Stack<IToken> _open = new();
    private readonly BlockIndents? _indents;
    private bool _tooDeep;
    private bool _blockLeftOpen;
    private int _start;

    private TokenReader(SourceText source, IList<IToken> tokens, BlockIndents? indents = null)
    {
        _tokens = new TokenWindow(source, tokens);
        _measures = new MeasureReader(_tokens);
        (_source, _in, _out) = (source, _tokens.In, _tokens.Out);
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
        return new Stage<List<IToken>>(reader._tooDeep ? [] : reader._out, [.. reader._tokens.Findings]);
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
                i = LeaveOut(i, _out[_start], $"This fact has more than {StatementLimit:N0} words; it is left out.");
                continue;
            }
            if (token.Type is (WainLexer.WORD or WainLexer.CALL or WainLexer.DIGIT_WORD) && token.StopIndex - token.StartIndex >= WordLimit)
            {
                i = LeaveOut(i, token, $"{NumberText.Shorten(token.Text)} is a word of {token.StopIndex - token.StartIndex + 1:N0} letters, and {WordLimit} are the most; what it stands in is left out.");
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
                case WainLexer.NEWLINE: EndLine(i); break;
                case WainLexer.LBRACE or WainLexer.LPAREN or WainLexer.LBRACKET or WainLexer.CALL: Open(token); break;
                case WainLexer.RBRACE or WainLexer.RPAREN or WainLexer.RBRACKET: Close(token); break;
                case WainLexer.OPEN_STRING:
                    _tokens.Report(SyntaxFindings.Unclosed, token, "This text has no closing quote on its line.");
                    _out.Add(TokenWindow.Retyped(token, WainLexer.STRING));
                    break;
                case WainLexer.HASH:
                    if (!(_tokens.Follows(i) && _in[i + 1].Type == WainLexer.NUMBER)) _tokens.Report(SyntaxFindings.Unexpected, token, "A # stands before the number of a screw's gauge, as in #8; a remark begins with --.");
                    break;
                case WainLexer.OTHER:
                    int end = i;
                    while (_tokens.Follows(end) && _in[end + 1].Type == WainLexer.OTHER) end++;
                    _tokens.Report(SyntaxFindings.Unexpected, token, end == i ? $"The character {Show(token.Text)} has no meaning here.{Meant(token.Text[0])}" : $"The characters {NumberText.Shorten(_tokens.Text(token, _in[end]))} have no meaning here.", ForEquals(token, i), last: _in[end]);
                    i = end;
                    break;
                case WainLexer.Eof: Finish(token); break;
                default:
                    if (_measures.Read(i) is { } last) i = last;
                    else _out.Add(token);
                    break;
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
            _tokens.Findings.Add(new Finding(SyntaxFindings.Unexpected, $"\"{token.Text}\" begins no fact: a name right before a bracket is a function. Put a blank between: {word} (", _tokens.SpanOf(token, token)) { Fixes = [new Fix(bracket, " ", "put a blank before the bracket")] });
            _out.Add(new CommonToken(token) { Type = WainLexer.WORD, StopIndex = token.StopIndex - 1, Text = word });
            Open(new CommonToken(token) { Type = WainLexer.LPAREN, StartIndex = token.StopIndex, Text = "(" });
            return index;
        }
        if (token.Type == WainLexer.LBRACE && _out.Count > 1 && _out[^1].Type == WainLexer.NEWLINE && _out[^2].Type != WainLexer.RBRACE)
        {
            _tokens.Report(SyntaxFindings.Unexpected, token, "A block opens on the line of its fact: put this { at the end of that line.");
            _out.RemoveAt(_out.Count - 1);
            Open(token);
            return index;
        }
        bool remark = token.Type == WainLexer.HASH || (token.Type == WainLexer.STROKE && _tokens.Follows(index) && _in[index + 1].Type is WainLexer.STROKE or WainLexer.TIMES);
        string why = remark ? "A remark begins with --." : token.Type == WainLexer.ELSE ? "\"else\" follows the } of an if." : $"\"{NumberText.Shorten(token.Text)}\" begins no fact. A fact begins with its keyword, on a line of its own.";
        _tokens.Report(SyntaxFindings.Unexpected, token, why, remark ? new Fix(_tokens.SpanOf(token, token.Type == WainLexer.HASH ? token : _in[index + 1]), "--", "write --") : null);
        return EndOfStatement(index, !remark) - 1;
    }

    // "let width: 70 in" is meant as "let width = 70 in".
    private Fix? ForEquals(IToken token, int index) =>
        token.Text == ":" && index > 1 && _in[index - 1].Type == WainLexer.WORD && _in[index - 2].Type is WainLexer.LET or WainLexer.SET ? new Fix(_tokens.SpanOf(token, token), " =", "write =") : null;

    private int LeaveOut(int index, IToken at, string why)
    {
        _tokens.Report(SyntaxFindings.TooLarge, at, why);
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
            _tokens.Report(SyntaxFindings.TooDeep, token, $"This is nested more than {DepthLimit} levels deep.");
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
            _tokens.Report(SyntaxFindings.Unopened, token, $"This {token.Text} closes nothing that is open.");
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
            _tokens.Findings.Add(new Finding(SyntaxFindings.Unclosed, $"This {{ is never closed; by the indents its }} is missing before line {line}.", _tokens.SpanOf(open, open)) { Fixes = [new Fix(before, brace, "write a } on a line of its own")] });
            _open.Pop();
            _indents.Close();
            _out.Add(TokenWindow.Made(token, WainLexer.RBRACE, "}"));
            EndStatement(token);
        }
    }

    private void CloseRoundBrackets(IToken at)
    {
        while (_open.TryPeek(out var open) && open.Type != WainLexer.LBRACE)
        {
            _open.Pop();
            _tokens.Report(SyntaxFindings.Unclosed, open, $"This {open.Text[^1]} is never closed.");
            _out.Add(TokenWindow.Made(at, open.Type == WainLexer.LBRACKET ? WainLexer.RBRACKET : WainLexer.RPAREN, open.Type == WainLexer.LBRACKET ? "]" : ")"));
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
        _out.Add(TokenWindow.Made(at, WainLexer.NEWLINE, "\n"));
    }

    private void Finish(IToken end)
    {
        CloseRoundBrackets(end);
        while (_open.TryPop(out var open))
        {
            _blockLeftOpen = true;
            _tokens.Report(SyntaxFindings.Unclosed, open, "This { is never closed.");
            EndStatement(end);
            _out.Add(TokenWindow.Made(end, WainLexer.RBRACE, "}"));
        }
        EndStatement(end);
        _out.Add(end);
    }

    private static string Meant(char sign) => sign switch
    {
        '$' or '\u20AC' or '\u00A3' => " An amount of money is written with its currency after it: 42 USD.",
        ';' => " A fact ends with its line.",
        ':' => " A block opens with {, and a name is given a value with =.",
        '&' => " Write and.",
        _ => "",
    };

    private static string Show(string text) => char.IsControl(text[0]) || char.IsSurrogate(text[0]) ? $"U+{(int)text[0]:X4}" : $"'{text}'";
}
