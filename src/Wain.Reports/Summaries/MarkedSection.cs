namespace Wain.Reports.Summaries;

/// <summary>What came of refreshing a section: the whole new text of the file, or why it stays as it is.</summary>
public sealed record SectionResult(string? Text, string? Error);

/// <summary>
/// Refreshes the part of a file between <c>&lt;!-- wain:begin NAME --&gt;</c> and <c>&lt;!-- wain:end NAME --&gt;</c>, each alone on its line, and nothing
/// else: line ends, a byte order mark and all other text stay. Markers inside a fenced code block (CommonMark 0.31.2, 4.5) are only shown there and don't count.
/// </summary>
public static class MarkedSection
{
    public static SectionResult Replace(string fileText, string sectionName, string newContent)
    {
        if (sectionName.Length == 0 || sectionName.Any(c => char.IsWhiteSpace(c) || c is '<' or '>' || char.IsControl(c))) return new(null, $"\"{sectionName}\" can't be the name of a section: use letters, digits, - and _.");
        string begin = $"<!-- wain:begin {sectionName} -->", end = $"<!-- wain:end {sectionName} -->";
        var found = Find(fileText, begin, end, out string? error);
        if (found is not var (start, stop)) return new(null, error);
        // The end of the marker's own line tells how this file ends its lines.
        int mark = fileText.LastIndexOf('\n', Math.Max(0, start - 1));
        string lineEnd = mark > 0 && fileText[mark - 1] == '\r' ? "\r\n" : mark >= 0 ? "\n" : "\r";
        string content = newContent.ReplaceLineEndings(lineEnd);
        if (content.Length > 0 && !content.EndsWith(lineEnd, StringComparison.Ordinal)) content += lineEnd;
        string text = string.Concat(fileText.AsSpan(0, start), content, fileText.AsSpan(stop));
        // The new content may hold a marker or leave a fence open; then the next refresh would go wrong, so this one does not happen.
        bool stable = Find(text, begin, end, out _) is var (newStart, newStop) && newStart == start && newStop == start + content.Length;
        return stable ? new(text, null) : new(null, $"The new content of the section {sectionName} would break its own markers: it holds one of them, or a code block that is not closed.");
    }

    private static (int Start, int Stop)? Find(string text, string begin, string end, out string? error)
    {
        int start = -1, stop = -1, position = 0, number = 0, beginLine = 0, endLine = 0;
        char fence = '\0';
        int fenceLength = 0;
        while (position < text.Length)
        {
            number++;
            int lineEnd = text.AsSpan(position).IndexOfAny('\r', '\n') is >= 0 and var offset ? position + offset : text.Length;
            int next = lineEnd + (lineEnd + 1 < text.Length && text[lineEnd] == '\r' && text[lineEnd + 1] == '\n' ? 2 : lineEnd < text.Length ? 1 : 0);
            var line = text.AsSpan(position, lineEnd - position).TrimStart('\uFEFF');
            var trimmed = line.Trim();
            if (fence != '\0')
            {
                if (Fence(line) is var (c, n) && c == fence && n >= fenceLength && trimmed.Trim(fence).Length == 0) fence = '\0';
            }
            else if (Fence(line) is var (opening, length)) (fence, fenceLength) = (opening, length);
            else if (trimmed.SequenceEqual(begin))
            {
                if (start >= 0)
                {
                    error = $"The marker \"{begin}\" stands twice, in lines {beginLine} and {number}.";
                    return null;
                }
                (start, beginLine) = (next, number);
            }
            else if (trimmed.SequenceEqual(end))
            {
                if (stop >= 0)
                {
                    error = $"The marker \"{end}\" stands twice, in lines {endLine} and {number}.";
                    return null;
                }
                (stop, endLine) = (position, number);
            }
            position = next;
        }
        error = (start, stop) switch
        {
            ( < 0, < 0) => $"There is no section to refresh: put the lines \"{begin}\" and \"{end}\" where it should stand.",
            ( < 0, _) => $"Line {endLine} ends a section that nothing begins: \"{begin}\" is missing.",
            (_, < 0) => $"The section that line {beginLine} begins is not closed: \"{end}\" is missing.",
            _ when stop < start => $"The section ends in line {endLine} before it begins in line {beginLine}.",
            _ => null,
        };
        return error is null ? (start, stop) : null;
    }

    private static (char Sign, int Length)? Fence(ReadOnlySpan<char> line)
    {
        var text = line.TrimStart(' ');
        if (line.Length - text.Length > 3 || text.Length < 3 || text[0] is not ('`' or '~')) return null;
        int length = text.IndexOfAnyExcept(text[0]) is >= 0 and var other ? other : text.Length;
        // The words behind an opening of backticks hold no backtick, else it is code inside a line.
        return length >= 3 && (text[0] == '~' || !text[length..].Contains('`')) ? (text[0], length) : null;
    }
}
