using System.Collections.Immutable;
using System.Text;
using Antlr4.Runtime;
using Wain.Core.Findings;
using Wain.Core.Parsing;
using Wain.Core.Text;
using Wain.Grammar;

namespace Wain.Core.Tidying;

/// <summary>
/// One layout for every spec: one fact a line, blocks indented by four, one blank between words, no aligned columns, at most one blank line, signs of a
/// word processor in their plain spelling. Order and comments stay, and so does the meaning. Works on tokens, so that nothing that is written is lost.
/// </summary>
public static class Tidy
{
    /// <summary>Longer lines are parted after a comma, "and" or "or", outside of brackets if that can be.</summary>
    public const int Width = 140;

    private const int Indent = 4;

    /// <summary>The text in its one layout, or the text itself with findings if it can't be read.</summary>
    public static Stage<string> Format(SourceText source)
    {
        var findings = SpecParser.Parse(source).Findings;
        if (findings.HasErrors()) return new(source.Text, findings);
        string plain = SpecParser.PlainSigns(source.Text);
        var raw = SpecParser.Lex(source);
        var tokens = TokenReader.Read(source, raw).Value.Where(t => t.Type != TokenConstants.EOF);
        // A made line end stands before the token that it was made at, and after a comment that ends there.
        var items = tokens.Concat(raw.Where(t => t.Type == WainLexer.COMMENT)).OrderBy(t => t.StartIndex).ThenBy(t => t.Type == WainLexer.NEWLINE ? 0 : 1);
        var writer = new Writer(source.Text, plain);
        foreach (var item in items) writer.Add(item);
        return new(writer.Finish(), findings);
    }

    private readonly record struct Piece(string Text, int Type);

    private sealed class Writer(string text, string plain)
    {
        private readonly List<StringBuilder> _lines = [];
        private readonly List<Piece> _pieces = [];
        private int _depth;
        private int _end;
        private bool _blank;
        private bool _opened;

        public void Add(IToken token)
        {
            if (token.Type == WainLexer.NEWLINE)
            {
                Flush();
                return;
            }
            bool comment = token.Type == WainLexer.COMMENT;
            int newLines = NewLines(_end, token.StartIndex);
            if (_pieces.Count == 0) _blank = newLines > 1 && _lines.Count > 0;
            _end = token.StopIndex + 1;
            if (comment && newLines == 0 && _pieces.Count == 0 && _lines.Count > 0)
            {
                _lines[^1].Append(' ').Append(Comment(token));
                return;
            }
            if (comment)
            {
                bool ownLine = _pieces.Count == 0;
                _pieces.Add(new Piece(Comment(token), WainLexer.COMMENT));
                if (ownLine) Flush();
                return;
            }
            if (token.Type == WainLexer.RBRACE)
            {
                Flush();
                _depth--;
                _blank = false;
            }
            _pieces.Add(new Piece(Spelling(token), token.Type));
            if (token.Type != WainLexer.LBRACE) return;
            Flush();
            _depth++;
        }

        public string Finish()
        {
            Flush();
            var all = new StringBuilder();
            foreach (var line in _lines) all.Append(line).Append('\n');
            return all.ToString();
        }

        private void Flush()
        {
            if (_pieces.Count == 0) return;
            if (_blank && !_opened) _lines.Add(new StringBuilder());
            _blank = false;
            _opened = _pieces[^1].Type == WainLexer.LBRACE;
            int start = 0;
            bool first = true;
            while (start < _pieces.Count)
            {
                int indent = Indent * _depth + (first ? 0 : Indent);
                int end = LineEnd(start, Width - indent);
                var line = new StringBuilder().Append(' ', indent);
                for (int i = start; i < end; i++)
                {
                    if (i > start && BlankBetween(_pieces[i - 1].Type, _pieces[i].Type)) line.Append(' ');
                    line.Append(_pieces[i].Text);
                }
                _lines.Add(line);
                start = end;
                first = false;
            }
            _pieces.Clear();
        }

        /// <summary>Where the line that begins with this piece ends: after a comment, or at the last good place within the width.</summary>
        private int LineEnd(int start, int room)
        {
            int length = 0;
            int good = -1, goodInside = -1;
            int brackets = 0;
            for (int i = start; i < _pieces.Count; i++)
            {
                if (_pieces[i].Type == WainLexer.COMMENT) return i + 1;
                length += _pieces[i].Text.Length + (i > start && BlankBetween(_pieces[i - 1].Type, _pieces[i].Type) ? 1 : 0);
                if (length > room && Math.Max(good, goodInside) > 0) return good > 0 ? good : goodInside;
                if (_pieces[i].Type is WainLexer.LPAREN or WainLexer.CALL) brackets++;
                if (_pieces[i].Type == WainLexer.RPAREN) brackets--;
                if (_pieces[i].Type is not (WainLexer.COMMA or WainLexer.AND or WainLexer.OR) || i + 1 == _pieces.Count || _pieces[i + 1].Type == WainLexer.COMMENT) continue;
                if (brackets == 0) good = i + 1;
                else goodInside = i + 1;
            }
            return _pieces.Count;
        }

        private static bool BlankBetween(int before, int after)
        {
            if (after is WainLexer.COMMA or WainLexer.RPAREN or WainLexer.RBRACKET or WainLexer.LBRACKET or WainLexer.DOT) return false;
            return before is not (WainLexer.LPAREN or WainLexer.CALL or WainLexer.LBRACKET or WainLexer.DOT or WainLexer.SIGN);
        }

        private int NewLines(int from, int to)
        {
            int count = 0;
            for (int i = from; i < to; i++) if (text[i] == '\n' || (text[i] == '\r' && (i + 1 >= text.Length || text[i + 1] != '\n'))) count++;
            return count;
        }

        private string Comment(IToken token)
        {
            string said = text[token.StartIndex..(token.StopIndex + 1)];
            return ("--" + (said[0] == '\u2014' ? said[1..] : said[2..])).TrimEnd();
        }

        private string Spelling(IToken token)
        {
            string said = plain[token.StartIndex..(token.StopIndex + 1)];
            switch (token.Type)
            {
                // What stands between the quotes is the builder's own text; only the quotes are plain.
                case WainLexer.STRING: return $"\"{text[(token.StartIndex + 1)..token.StopIndex]}\"";
                case WainLexer.NUMBER: return (token.StartIndex > 0 && plain[token.StartIndex - 1] == '#' ? "#" : "") + Measure(said);
                case WainLexer.MEASURE: return Measure(said);
                default: return said;
            }
        }

        private static string Measure(string said)
        {
            var text = new StringBuilder();
            foreach (char c in said)
            {
                int vulgar = NumberText.VulgarFractions.IndexOf(c);
                string written = vulgar >= 0 ? " " + NumberText.VulgarSpellings[vulgar] : c switch { '\u00B0' => " deg", '%' => " %", '\t' or '\r' or '\n' => " ", _ => c.ToString() };
                foreach (char w in written) if (w != ' ' || (text.Length > 0 && text[^1] != ' ')) text.Append(w);
            }
            return text.ToString().TrimEnd();
        }
    }
}
