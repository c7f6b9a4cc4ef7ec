using System.Globalization;
using System.Text;
using Wain.Core.Text;

namespace Wain.Core.Findings.Renderers;

/// <summary>Findings for a person at a terminal: what is wrong first, then the line it stands in, then what to do. At most 80 columns.</summary>
public static class PeopleRenderer
{
    private const int Columns = 80;
    private const int Indent = 4;

    /// <summary>Notes of one code that are shown at length; what would be said of the others in the same words is left out.</summary>
    private const int AtLength = 2;

    /// <summary>All findings that are not accepted, errors before warnings before notes, and a last line with how many of each there are and where the first error stands.</summary>
    /// <param name="findings">In the order to be shown in, within each level.</param>
    /// <param name="colour">True to colour the level and the marker with the standard terminal sequences (ECMA-48, SGR).</param>
    /// <param name="counted">False to leave the last line out, for who tells the counts in words of their own.</param>
    public static string Render(IReadOnlyCollection<Finding> findings, bool colour = false, bool counted = true)
    {
        var text = new StringBuilder();
        var open = findings.Where(f => f.AcceptedBecause is null).OrderByDescending(f => f.Level).ToList();
        var told = new Dictionary<string, int>(StringComparer.Ordinal);
        var hints = new HashSet<string?>(StringComparer.Ordinal);
        foreach (var finding in open)
        {
            int before = told.GetValueOrDefault(finding.Code);
            told[finding.Code] = before + 1;
            bool newHint = hints.Add(finding.Hint);
            if (finding.Level == Level.Note && before >= AtLength) Brief(finding, newHint, colour, text);
            else Render(finding, colour, text);
        }
        if (!counted) return text.ToString();
        text.Append(Count(findings)).Append('\n');
        // The top has scrolled away by the time that a long list ends.
        if (open.Count > 1 && open[0].Level == Level.Error) text.Append(string.Join('\n', DisplayText.Wrapped($"The first error: {open[0].Place.Source.Path}, line {Number(open[0].Place.Line)}.", Columns))).Append('\n');
        return text.ToString();
    }

    private static void Render(Finding finding, bool colour, StringBuilder text)
    {
        Message(finding, colour, text);
        Place(finding.Place, finding.Subject, finding.Level, colour, text);
        foreach (var related in finding.Related)
        {
            Paragraph(related.Message, "See also: ", text);
            Place(related.Place, "", Level.Note, colour, text);
        }
        if (finding.Hint is { } hint) Paragraph(hint, "To do: ", text);
        Fixes(finding, text);
        Paragraph($"wain explain {finding.Code}", "More: ", text);
        text.Append('\n');
    }

    /// <summary>One of many notes of a kind: what it says, where, and what there is to do that was not said before.</summary>
    private static void Brief(Finding finding, bool newHint, bool colour, StringBuilder text)
    {
        Message(finding, colour, text);
        Where(finding.Place, finding.Subject, text);
        var (line, column) = finding.Place.Source.Position(finding.Place.Start);
        if (finding.Place.Source.Line(line) is var source && source.Trim().Length > 0)
        {
            string shown = DisplayText.Plain(source, out int[] offsets);
            text.Append(' ', 2 * Indent).Append(Window(shown, offsets[Math.Min(column - 1, source.Length)], 1, Columns - 2 * Indent).Shown.Trim()).Append('\n');
        }
        if (newHint && finding.Hint is { } hint) Paragraph(hint, "To do: ", text);
        Fixes(finding, text);
        text.Append('\n');
    }

    private static void Fixes(Finding finding, StringBuilder text)
    {
        foreach (var fix in finding.Fixes) Paragraph(Told(fix, finding.Place), "Fix: ", text);
    }

    private static void Message(Finding finding, bool colour, StringBuilder text)
    {
        string level = finding.Level.ToString();
        bool first = true;
        foreach (string line in DisplayText.Wrapped($"{level}: {finding.Message}", Columns))
        {
            if (first && colour && line.StartsWith(level, StringComparison.Ordinal)) text.Append(Painted(level, finding.Level)).Append(line, level.Length, line.Length - level.Length);
            else text.Append(line);
            text.Append('\n');
            first = false;
        }
    }

    /// <summary>The label, with what of the change it does not say itself: the new words, the old ones, and the line if it is another.</summary>
    private static string Told(Fix fix, Span place)
    {
        string written = Short(fix.Text.Trim().TrimStart(',').Trim());
        bool said = written.Length == 0 || fix.Text.Trim().Contains('\n', StringComparison.Ordinal) || fix.Label.Contains(written, StringComparison.Ordinal);
        bool other = fix.Place.Source != place.Source || fix.Place.Line != place.Line;
        string old = fix.Place.Length == 0 ? "" : $"instead of \"{Short(fix.Place.Text)}\"";
        string line = other ? $"in line {Number(fix.Place.Line)}" + (fix.Place.Source != place.Source ? $" of {fix.Place.Source.Path}" : "") : "";
        string rest = string.Join(' ', new[] { said ? "" : $"\"{written}\"", old, line }.Where(p => p.Length > 0));
        return rest.Length == 0 ? fix.Label : $"{fix.Label}{(said ? ", " : ": ")}{rest}";
    }

    private static string Short(string text)
    {
        string line = DisplayText.Plain(text.ReplaceLineEndings(" "));
        return line.Length <= 60 ? line : DisplayText.Start(line, 57) + "...";
    }

    private static void Paragraph(string message, string label, StringBuilder text)
    {
        bool first = true;
        foreach (string line in DisplayText.Wrapped(message, Columns - Indent - label.Length))
        {
            text.Append(' ', Indent).Append(first ? label : new string(' ', label.Length)).Append(line).Append('\n');
            first = false;
        }
    }

    private static void Place(Span place, string subject, Level level, bool colour, StringBuilder text)
    {
        Where(place, subject, text);
        var (line, column) = place.Source.Position(place.Start);
        string source = place.Source.Line(line);
        if (source.Trim().Length == 0) return;
        string shown = DisplayText.Plain(source, out int[] offsets);
        int start = offsets[Math.Min(column - 1, source.Length)];
        int end = offsets[Math.Clamp(column - 1 + place.Length, 0, source.Length)];
        int length = Math.Max(1, end - start);
        (shown, start) = Window(shown, start, length, Columns - 2 * Indent);
        length = Math.Min(length, Columns - 2 * Indent - start);
        text.Append('\n').Append(' ', 2 * Indent).Append(shown.TrimEnd()).Append('\n');
        string marker = new('~', Math.Max(1, length));
        text.Append(' ', 2 * Indent + start).Append(colour ? Painted(marker, level) : marker).Append("\n\n");
    }

    private static void Where(Span place, string subject, StringBuilder text)
    {
        var (line, column) = place.Source.Position(place.Start);
        string where = $"{place.Source.Path}, line {Number(line)}, column {Number(column)}" + (subject.Length == 0 ? "" : $", {subject}");
        foreach (string part in DisplayText.Wrapped(where, Columns - Indent)) text.Append(' ', Indent).Append(part).Append('\n');
    }

    /// <summary>The part of a long line round the marked stretch, with dots where something is left out.</summary>
    private static (string Shown, int Start) Window(string line, int start, int length, int width)
    {
        int indent = line.Length - line.TrimStart(' ').Length;
        if (indent > 0 && indent <= start)
        {
            line = line[indent..];
            start -= indent;
        }
        if (DisplayText.Width(line) <= width) return (line, start);
        const string dots = "... ";
        int skip = start + Math.Min(length, width / 2) <= width - dots.Length ? 0 : start - width / 3;
        if (skip <= 0) return (DisplayText.Start(line, width - dots.Length) + " ...", start);
        // Skip whole characters; a wide one may take one column more than asked.
        string skipped = DisplayText.Start(line, skip);
        string rest = line[skipped.Length..];
        int room = width - 2 * dots.Length;
        string part = DisplayText.Width(rest) <= width - dots.Length ? rest : DisplayText.Start(rest, room) + " ...";
        return (dots + part, start - DisplayText.Width(skipped) + dots.Length);
    }

    private static string Count(IReadOnlyCollection<Finding> findings)
    {
        string Of(int count, string noun) => count == 1 ? $"1 {noun}" : $"{Number(count)} {noun}s";
        int Open(Level level) => findings.Count(f => f.Level == level && f.AcceptedBecause is null);
        int accepted = findings.Count(f => f.AcceptedBecause is not null);
        string counts = $"{Of(Open(Level.Error), "error")}, {Of(Open(Level.Warning), "warning")}, {Of(Open(Level.Note), "note")}";
        return counts + (accepted == 0 ? "." : $"; {Number(accepted)} accepted with a reason.");
    }

    private static string Painted(string text, Level level)
    {
        string colour = level switch { Level.Error => "31", Level.Warning => "33", _ => "36" };
        return $"\u001b[1;{colour}m{text}\u001b[0m";
    }

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
