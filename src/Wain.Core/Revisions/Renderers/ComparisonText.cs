using System.Text;
using Wain.Core.Findings.Renderers;

namespace Wain.Core.Revisions.Renderers;

/// <summary>A comparison for a terminal of 80 columns.</summary>
public static class ComparisonText
{
    private const int Width = 80;

    public static string Render(Comparison c)
    {
        var text = new StringBuilder();
        Add(text, $"{c.Old} -> {c.New}", 0);
        Add(text, ComparisonWords.Summary(c), 0);
        foreach (string limit in c.Limits) Add(text, "Not all: " + limit, 0);
        foreach (var section in ComparisonWords.Sections(c))
        {
            text.Append('\n').Append(section.Title).Append('\n');
            foreach (var said in section.Items)
            {
                Add(text, said.Headline, 2);
                foreach (string detail in said.Details) Add(text, detail, 6);
                if (said.Causes.Length > 0) Add(text, "from " + string.Join(", ", said.Causes.Select(ComparisonWords.Place).Distinct()), 6);
            }
        }
        if (c.Lines.Length > 0) text.Append("\nLines of the spec\n");
        foreach (var cause in c.Lines)
        {
            Add(text, $"{ComparisonWords.Place(cause)} {cause.Subject}", 2);
            if (cause.Old is { } old) Add(text, "- " + old.Text, 4);
            if (cause.New is { } now) Add(text, "+ " + now.Text, 4);
        }
        return text.ToString();
    }

    /// <summary>Wrapped at blanks; lines that go on are set two further in.</summary>
    private static void Add(StringBuilder text, string line, int indent)
    {
        bool first = true;
        foreach (string part in DisplayText.Wrapped(line, Width - indent - 2))
        {
            text.Append(' ', first ? indent : indent + 2).Append(part).Append('\n');
            first = false;
        }
    }
}
