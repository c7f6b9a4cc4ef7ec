using System.Globalization;
using System.Text;
using Wain.Core.Findings.Renderers;

namespace Wain.Core.Revisions.Renderers;

/// <summary>A comparison ready to stand in a merge request.</summary>
public static class ComparisonMarkdown
{
    /// <param name="all">True to list every part of every panel.</param>
    public static string Render(Comparison c, bool all = false)
    {
        var text = new StringBuilder();
        text.Append($"## {Escaped(c.Old)} to {Escaped(c.New)}\n\n{ComparisonWords.Summary(c)}\n");
        foreach (string limit in c.Limits) text.Append($"\n> Not all: {Escaped(limit)}\n");
        foreach (var section in ComparisonWords.Sections(c, all))
        {
            text.Append($"\n### {section.Title}\n\n");
            if (section.Title == "Buying list") Buying(text, c);
            else if (section.Title.StartsWith("Weight", StringComparison.Ordinal)) Figures(text, c);
            else foreach (var said in section.Items) Item(text, said, c);
        }
        if (c.Lines.Length == 0) return text.ToString();
        text.Append("\n### Lines of the spec\n\n```diff\n");
        foreach (var cause in c.Lines)
        {
            text.Append("@@ ").Append(Plain(ComparisonWords.Place(cause, c))).Append(' ').Append(Plain(cause.Subject)).Append(" @@\n");
            if (cause.Old is { } old) text.Append("- ").Append(Plain(old.Text)).Append('\n');
            if (cause.New is { } now) text.Append("+ ").Append(Plain(now.Text)).Append('\n');
        }
        return text.Append("```\n").ToString();
    }

    private static void Item(StringBuilder text, Said said, Comparison c)
    {
        int colon = said.Headline.IndexOf(": ", StringComparison.Ordinal);
        string head = colon > 0 ? $"**{Escaped(said.Headline[..colon])}**{Escaped(said.Headline[colon..])}" : Escaped(said.Headline);
        text.Append("- ").Append(head).Append(From(said.Causes, c)).Append('\n');
        foreach (string detail in said.Details) text.Append(detail.StartsWith(' ') ? "    - " : "  - ").Append(Escaped(detail.TrimStart())).Append('\n');
    }

    private static void Buying(StringBuilder text, Comparison c)
    {
        text.Append("| what | old | new | old cost | new cost | from |\n| --- | --: | --: | --: | --: | --- |\n");
        foreach (var b in c.Buying) text.Append($"| {Escaped(b.Mark)} | {Count(b.OldPacks)} | {Count(b.NewPacks)} | {Money(b.OldCost)} | {Money(b.NewCost)} | {Places(b.Causes, c)} |\n");
        text.Append('\n').Append(CostBasis.Words).Append('\n');
    }

    private static void Figures(StringBuilder text, Comparison c)
    {
        text.Append("| figure | old | new | difference | from |\n| --- | --: | --: | --: | --- |\n");
        foreach (var f in c.Figures)
        {
            string words = FigureWords.Of(f.Name) is { } w ? $"{Escaped(w)} " : "";
            text.Append($"| {words}`{Plain(f.Name)}` | {With(f.Old, f.OldSpread, f.OldBetween)} | {With(f.New, f.NewSpread, f.NewBetween)} | {Escaped(f.Difference)} | {Places(f.Causes, c)} |\n");
        }
    }

    private static string With(string value, string spread, string between) => Escaped(value + (spread.Length > 0 ? $" ({spread})" : "") + (between.Length > 0 ? $", {between}" : ""));

    private static string From(IEnumerable<Cause> causes, Comparison c)
    {
        string places = Places(causes, c);
        return places.Length == 0 ? "" : $" (from {places})";
    }

    private static string Places(IEnumerable<Cause> causes, Comparison c) => string.Join(", ", causes.Select(x => ComparisonWords.Place(x, c)).Distinct().Select(p => "`" + Plain(p).Replace('`', '\'') + "`"));

    private static string Count(int? n) => n?.ToString(CultureInfo.InvariantCulture) ?? "";

    private static string Money(double? amount) => amount?.ToString("0.00", CultureInfo.InvariantCulture) ?? "";

    private static string Plain(string text) => DisplayText.Plain(text.ReplaceLineEndings(" ")).Replace("```", "'''", StringComparison.Ordinal);

    // What a spec says must not become markup: names and messages are shown as they stand.
    private static string Escaped(string text)
    {
        var safe = new StringBuilder(text.Length);
        foreach (char c in Plain(text))
        {
            if (c is '\\' or '`' or '*' or '_' or '[' or ']' or '<' or '>' or '|' or '#' or '~' or '@') safe.Append('\\');
            safe.Append(c);
        }
        return safe.ToString().Replace("-\\>", "&rarr;", StringComparison.Ordinal);
    }
}
