using Scriban.Parsing;

namespace Wain.Reports.Summaries;

/// <summary>
/// Counts how deep a template nests before anything parses it, since a stack overflow can't be caught. Counted together are open brackets and blocks,
/// the branches of an open block (each <c>else if</c> nests in the one before) and the operators of the statement so far (<c>a + b + c</c> is a tree as
/// deep as it has signs).
/// </summary>
internal static class TemplateNesting
{
    public const int Limit = 200;

    private static readonly HashSet<string> Openers = new(StringComparer.Ordinal) { "if", "for", "while", "case", "func", "capture", "with", "wrap", "do", "tablerow" };

    /// <summary>The error, at the token that goes too deep; null if none does.</summary>
    public static TemplateError? Check(TemplateSource template)
    {
        // What each open block or bracket adds: one for itself, one for each branch, and the operators that stood before it.
        var open = new Stack<int>();
        int total = 0, operators = 0;
        Token last = default;
        foreach (var token in new Lexer(template.Text, template.Path))
        {
            string word = token.Type == TokenType.Identifier ? Text(template, token) : "";
            bool isWord = word.Length > 0 && last.Type != TokenType.Dot;
            if (isWord && word == "end") Close();
            else if (isWord && word is "else" or "when" && open.Count > 0)
            {
                open.Push(open.Pop() + 1);
                total++;
                operators = 0;
            }
            else if (isWord && Openers.Contains(word) || IsOpening(token.Type)) Open();
            else if (IsClosing(token.Type)) Close();
            else if (token.Type is TokenType.Comma) operators = 0;
            else if (token.Type is TokenType.SemiColon or TokenType.CodeExit or TokenType.CodeEnter) operators = 0;
            else if (token.Type is TokenType.NewLine) operators = IsOperator(last.Type) || open.Count > 0 ? operators : Math.Min(operators, 1);
            else if (IsOperator(token.Type)) operators++;
            if (total + operators > Limit)
            {
                return new TemplateError(template.Path, token.Start.Line + 1, token.Start.Column + 1, $"The template nests deeper than {Limit}. Part it into steps with names.");
            }
            if (token.Type != TokenType.NewLine || !IsOperator(last.Type)) last = token;
        }
        return null;

        void Open()
        {
            open.Push(1 + operators);
            total += 1 + operators;
            operators = 0;
        }

        void Close()
        {
            if (!open.TryPop(out int added)) return;
            total -= added;
            operators = 0;
        }
    }

    private static string Text(TemplateSource template, Token token) => template.Text.Substring(token.Start.Offset, token.End.Offset - token.Start.Offset + 1);

    private static bool IsOpening(TokenType type) =>
        type is TokenType.OpenParen or TokenType.OpenBrace or TokenType.OpenBracket or TokenType.OpenInterpolatedBrace or TokenType.BeginInterpolatedString;

    private static bool IsClosing(TokenType type) =>
        type is TokenType.CloseParen or TokenType.CloseBrace or TokenType.CloseBracket or TokenType.CloseInterpolatedBrace or TokenType.EndingInterpolatedString;

    // Everything that is not plainly a value, a name or a mark between statements counts: a sign unknown here must not slip through.
    private static bool IsOperator(TokenType type) => type is not (TokenType.Invalid or TokenType.FrontMatterMarker or TokenType.CodeEnter or TokenType.CodeExit or TokenType.Raw or TokenType.Escape
        or TokenType.EscapeEnter or TokenType.EscapeExit or TokenType.NewLine or TokenType.Whitespace or TokenType.WhitespaceFull or TokenType.Comment or TokenType.CommentMulti
        or TokenType.Identifier or TokenType.IdentifierSpecial or TokenType.Integer or TokenType.HexaInteger or TokenType.BinaryInteger or TokenType.Float or TokenType.String
        or TokenType.ImplicitString or TokenType.VerbatimString or TokenType.InterpolatedString or TokenType.SemiColon or TokenType.Comma or TokenType.Eof)
        && !IsOpening(type) && !IsClosing(type);
}
