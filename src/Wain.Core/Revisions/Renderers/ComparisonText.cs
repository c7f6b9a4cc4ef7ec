using System.Text;
using Wain.Core.Findings.Renderers;

namespace Wain.Core.Revisions.Renderers;

/// <summary>A comparison for a terminal of 80 columns.</summary>
public static class ComparisonText
{
    private const int Width = 80;

    /// <param name="all">True to list every part of every panel.</param>
    public static string Render(Comparison c, bool all = false)
    {
        var text = new StringBuilder();
        Add(text, $"{c.Old} -> {c.New}", 0);
        Add(text, ComparisonWords.Summary(c), 0);
        foreach (string limit in c.Limits) Add(text, "Not all: " + limit, 0);
        var numbered = ComparisonWords.Numbered(c);
        if (numbered.Length == 1 && c.Limits.IsEmpty) Add(text, $"All of it comes from {ComparisonWords.Place(numbered[0], c)}.", 0);
        foreach (var section in ComparisonWords.Sections(c, all))
        {
            text.Append('\n').Append(section.Title).Append('\n');
            foreach (var said in section.Items)
            {
                Add(text, said.Headline + ComparisonWords.References(said.Causes, numbered), 2);
                foreach (string detail in said.Details) Add(text, detail.TrimStart(), detail.StartsWith(' ') ? 8 : 6);
            }
        }
        if (numbered.Length > 0) text.Append("\nLines of the spec\n");
        for (int i = 0; i < numbered.Length; i++)
        {
            var cause = numbered[i];
            Add(text, $"{(numbered.Length > 1 ? $"[{ComparisonWords.Show(i + 1)}] " : "")}{ComparisonWords.Place(cause, c)} {cause.Subject}", 2);
            if (cause.Old is { } old) Add(text, "- " + old.Text, 6);
            if (cause.New is { } now) Add(text, "+ " + now.Text, 6);
        }
        return text.ToString();
    }

    /// <summary>A few lines for who has just saved: what is touched, and the figures that moved.</summary>
    public static string Short(Comparison c)
    {
        var text = new StringBuilder();
        Add(text, c.IsSame ? "Nothing changed in meaning." : ComparisonWords.Summary(c), 0);
        foreach (var figure in c.Figures.Where(f => f.Difference.Length > 0)) Add(text, ComparisonWords.Headline(figure), 0);
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
