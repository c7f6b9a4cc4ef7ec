namespace Wain.Core.Text;

/// <summary>One text of a spec with the path that messages show. Holds no file handle: whoever reads files makes it.</summary>
public sealed class SourceText
{
    private int[]? _lineStarts;

    public SourceText(string path, string text)
    {
        Path = path;
        Text = text;
    }

    /// <summary>As shown in messages: relative to where the program was started, with forward slashes.</summary>
    public string Path { get; }

    public string Text { get; }

    public int LineCount => LineStarts.Length;

    private int[] LineStarts => _lineStarts ??= FindLineStarts(Text);

    /// <summary>One-based line and column (in UTF-16 units) of an offset.</summary>
    public (int Line, int Column) Position(int offset)
    {
        offset = Math.Clamp(offset, 0, Text.Length);
        int index = Array.BinarySearch(LineStarts, offset);
        if (index < 0) index = ~index - 1;
        return (index + 1, offset - LineStarts[index] + 1);
    }

    /// <summary>The text of a one-based line, without its line end.</summary>
    public string Line(int line)
    {
        int start = LineStarts[line - 1];
        int end = line < LineStarts.Length ? LineStarts[line] : Text.Length;
        return Text[start..end].TrimEnd('\r', '\n');
    }

    private static int[] FindLineStarts(string text)
    {
        var starts = new List<int> { 0 };
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.Length || text[i + 1] != '\n'))) starts.Add(i + 1);
        }
        return starts.ToArray();
    }

    public override string ToString() => Path;
}

/// <summary>A stretch of a source text: where a value, a name or a mistake stands.</summary>
public readonly record struct Span(SourceText Source, int Start, int Length)
{
    public int End => Start + Length;

    public int Line => Source.Position(Start).Line;

    public int Column => Source.Position(Start).Column;

    public string Text => Source.Text.Substring(Start, Math.Min(Length, Source.Text.Length - Start));

    /// <summary>The smallest span that holds both; both stand in the same text.</summary>
    public Span To(Span other) => new(Source, Math.Min(Start, other.Start), Math.Max(End, other.End) - Math.Min(Start, other.Start));

    public override string ToString() => $"{Source.Path}:{Line}:{Column}";
}
