using Antlr4.Runtime;
using Wain.Core.Text;

namespace Wain.Core.Parsing;

/// <summary>
/// Where blocks end by their indents. Only asked for in a text whose braces don't pair: there a block whose first line is indented ends before the first
/// line that is not. A block that is not indented says nothing.
/// </summary>
internal sealed class BlockIndents(SourceText source)
{
    private readonly Stack<(int Own, int Inner)> _blocks = new();

    /// <summary>Blanks before the line of the innermost open block.</summary>
    public int OfOpen => _blocks.Peek().Own;

    public void Open(IToken brace)
    {
        int start = LineStart(brace), own = start;
        while (own < brace.StartIndex && source.Text[own] is ' ' or '\t') own++;
        _blocks.Push((own - start, -1));
    }

    public void Close() => _blocks.TryPop(out _);

    /// <summary>True if a line that begins with this token stands outside of the innermost block.</summary>
    /// <param name="closes">The line begins with a brace, which ends the block of its own indent.</param>
    public bool Ends(IToken first, bool closes)
    {
        if (!_blocks.TryPop(out var block)) return false;
        int indent = Of(first);
        bool alone = source.Text.AsSpan(first.StartIndex - indent, indent).IsWhiteSpace();
        if (block.Inner < 0 && !closes) block.Inner = alone ? indent : int.MaxValue;
        _blocks.Push(block);
        if (!alone || block.Inner is < 0 or int.MaxValue || block.Inner <= block.Own) return false;
        return closes ? indent < block.Own : indent <= block.Own;
    }

    /// <summary>What stands before a token on its line.</summary>
    public int Of(IToken token) => token.StartIndex - LineStart(token);

    private int LineStart(IToken token) => token.StartIndex == 0 ? 0 : source.Text.AsSpan(0, token.StartIndex).LastIndexOfAny('\n', '\r') + 1;
}
