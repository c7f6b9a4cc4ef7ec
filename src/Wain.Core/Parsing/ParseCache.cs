using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Parsing;

/// <summary>
/// Parses texts that change a little from one time to the next. A text is parted behind each closing brace that stands alone at the beginning of a line;
/// a part that was read before without a finding is not read again, its statements are only given their new places. Such a part is whole: nothing in a
/// lexer's line or in a statement reaches over it. As soon as one part has a finding the text is parsed as one, so that what is told is what
/// <see cref="SpecParser.Parse"/> tells.
/// </summary>
public sealed class ParseCache
{
    private readonly Dictionary<string, Kept> _kept = new(StringComparer.Ordinal);

    /// <summary>What one text came to, by the path of it; its parts by their own text.</summary>
    private sealed record Kept(SourceText Source, Stage<SyntaxFile> Parsed, Dictionary<string, ImmutableArray<Statement>> Parts);

    /// <summary>How many parts were read anew so far; for tests.</summary>
    public int Read { get; private set; }

    /// <summary>The same as <see cref="SpecParser.Parse"/> gives.</summary>
    public Stage<SyntaxFile> Parse(SourceText source)
    {
        var before = _kept.GetValueOrDefault(source.Path);
        if (before is not null && ReferenceEquals(before.Source, source)) return before.Parsed;
        var parts = new Dictionary<string, ImmutableArray<Statement>>(StringComparer.Ordinal);
        var parsed = OfParts(source, before?.Parts, parts) ?? SpecParser.Parse(source);
        _kept[source.Path] = new Kept(source, parsed, parts);
        return parsed;
    }

    private Stage<SyntaxFile>? OfParts(SourceText source, Dictionary<string, ImmutableArray<Statement>>? before, Dictionary<string, ImmutableArray<Statement>> parts)
    {
        if (source.Text.Length > SpecParser.LengthLimit) return null;
        var statements = ImmutableArray.CreateBuilder<Statement>();
        bool isWhole = true;
        foreach (var (start, end) in Parts(source.Text))
        {
            string text = source.Text[start..end];
            if (!parts.TryGetValue(text, out var own) && !(before is not null && before.TryGetValue(text, out own)))
            {
                Read++;
                var parsed = SpecParser.Parse(new SourceText(source.Path, text));
                isWhole &= parsed.Findings.IsEmpty;
                own = parsed.Findings.IsEmpty ? parsed.Value.Statements : default;
            }
            // The other parts are kept all the same: the next save is probably the one that mends this one.
            if (own.IsDefault) continue;
            parts[text] = own;
            if (!isWhole) continue;
            var moved = new Relocation(source, start);
            foreach (var statement in own) statements.Add(moved.Of(statement));
        }
        return isWhole ? new(new SyntaxFile(source, statements.ToImmutable()), []) : null;
    }

    /// <summary>Where each part begins and ends; together they are the text.</summary>
    internal static List<(int Start, int End)> Parts(string text)
    {
        var parts = new List<(int, int)>();
        int start = 0;
        for (int line = 0; line < text.Length;)
        {
            int next = text.IndexOf('\n', line) is var found && found < 0 ? text.Length : found + 1;
            if (text[line] == '}' && text.AsSpan(line + 1, next - line - 1).IsWhiteSpace() && !GoesOn(text, next))
            {
                parts.Add((start, next));
                start = next;
            }
            line = next;
        }
        if (start < text.Length) parts.Add((start, text.Length));
        return parts;
    }

    /// <summary>True if what follows may belong to the statement above, such as an else: anything but a fact at the beginning of a line.</summary>
    private static bool GoesOn(string text, int at)
    {
        while (at < text.Length)
        {
            var line = text.AsSpan(at, (text.IndexOf('\n', at) is var end && end < 0 ? text.Length : end + 1) - at);
            at += line.Length;
            if (line.IsWhiteSpace() || line.StartsWith("--")) continue;
            int word = 0;
            while (word < line.Length && char.IsAsciiLetter(line[word])) word++;
            return word == 0 || line[..word] is "else" or "then" or "and" or "or";
        }
        return false;
    }
}
