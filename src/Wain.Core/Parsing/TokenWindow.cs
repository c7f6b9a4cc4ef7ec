using Antlr4.Runtime;
using Wain.Core.Findings;
using Wain.Core.Text;
using Wain.Grammar;

namespace Wain.Core.Parsing;

/// <summary>The tokens that come from the lexer and those that go to the parser, with what has to be told of them.</summary>
internal sealed class TokenWindow(SourceText source, IList<IToken> tokens)
{
    public SourceText Source { get; } = source;

    public IList<IToken> In { get; } = tokens;

    public List<IToken> Out { get; } = new(tokens.Count);

    public List<Finding> Findings { get; } = [];

    /// <summary>True if the next token stands right after this one, with no blank between.</summary>
    public bool Follows(int index) => index + 1 < In.Count && In[index + 1].StartIndex == In[index].StopIndex + 1 && In[index + 1].Type != WainLexer.Eof;

    public bool BlankBefore(int index) => index == 0 || In[index - 1].StopIndex + 1 < In[index].StartIndex
        || In[index - 1].Type is WainLexer.NEWLINE or WainLexer.LPAREN or WainLexer.LBRACKET or WainLexer.CALL or WainLexer.COMMA or WainLexer.LBRACE;

    public bool BlankAfter(int index) => !Follows(index) || In[index + 1].Type is WainLexer.NEWLINE or WainLexer.COMMENT;

    public string Text(IToken first, IToken last) => Source.Text.Substring(first.StartIndex, last.StopIndex + 1 - first.StartIndex);

    public Span SpanOf(IToken first, IToken last) => new(Source, first.StartIndex, last.StopIndex + 1 - first.StartIndex);

    public void Report(FindingInfo info, IToken token, string message, Fix? fix = null, IToken? last = null) =>
        Findings.Add(new Finding(info, message, SpanOf(token, last ?? token)) { Fixes = fix is null ? [] : [fix] });

    public static CommonToken Made(IToken at, int type, string text) =>
        new(new Tuple<ITokenSource, ICharStream>(at.TokenSource, at.InputStream), type, 0, at.StartIndex, at.StartIndex - 1) { Text = text, Line = at.Line };

    public static CommonToken Retyped(IToken token, int type, string? text = null)
    {
        var copy = new CommonToken(token) { Type = type };
        if (text is not null) copy.Text = text;
        return copy;
    }
}
