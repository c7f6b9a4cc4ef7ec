using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Reporting;

namespace Wain.Core.Revisions.Renderers;

/// <summary>A comparison as tables of a workbook: old, new and difference side by side.</summary>
public static class ComparisonReport
{
    public static Report Of(Comparison c, string title) => new(title, $"{c.Old} to {c.New}", "")
    {
        Cautions = [ComparisonWords.Summary(c), .. c.Limits, "A comparison helps to see what a change does. Check what is cut against the drawings of the new revision before cutting again."],
        Tables = [.. new[] { Changes(c), Buying(c), Figures("figures", "Figures", c.Figures, c), Figures("other_figures", "Other figures", c.OtherFigures, c), Findings(c), Lines(c) }.Where(t => t.Rows.Length > 0)],
    };

    private static Column Text(string key, string heading) => new(key, heading, ColumnKind.Text);

    private static Row Row(int number, params Cell[] cells) => new(number.ToString("0000", CultureInfo.InvariantCulture), [number.ToString("0000", CultureInfo.InvariantCulture), .. cells]);

    private static Table Changes(Comparison c) => new("changes", "Changes",
        [Text("row", "Row"), Text("thing", "Thing"), Text("name", "Name"), Text("kind", "Change"), Text("built", "Built"), Text("mirror", "Mirror"), Text("what", "Measure"), Text("old", "Old"), Text("new", "New"), Text("difference", "Difference"), Text("lines", "Spec lines")],
        [.. c.Changes.SelectMany(change => (change.Details.IsEmpty ? [new Detail("", change.OldName ?? "", change.OldName is null ? "" : change.Name)] : change.Details.AsEnumerable())
            .Select(d => (change, d))).Select((x, i) => Row(i + 1, x.change.Thing, x.change.Name, ComparisonWords.Verb(x.change), x.change.Built ?? "", string.Join(", ", x.change.Mirrors), x.d.What, x.d.Old, x.d.New, x.d.Difference, Places(x.change.Causes, c)))]);

    private static Table Buying(Comparison c) => new("buying", "Buying",
        [Text("mark", "What"), Text("pack", "Pack"), Number("old", "Old packs"), Number("new", "New packs"), Number("more", "Difference packs"), Money("old_cost", "Old cost"), Money("new_cost", "New cost"), Money("more_cost", "Difference cost"), Text("lines", "Spec lines")],
        [.. c.Buying.Select(b => new Row(b.Mark, [b.Mark, b.Pack, Or(b.OldPacks), Or(b.NewPacks), Minus("new", "old"), Or(b.OldCost), Or(b.NewCost), Minus("new_cost", "old_cost"), Places(b.Causes, c)]))])
    { Note = CostBasis.Words };

    private static Table Figures(string key, string title, ImmutableArray<FigureChange> figures, Comparison c) => new(key, title,
        [Text("name", "Figure"), Number("old", "Old"), Number("new", "New"), Number("difference", "Difference"), Text("unit", "Unit"), Text("old_shown", "Old as shown"), Text("new_shown", "New as shown"), Text("old_spread", "Old spread"), Text("new_spread", "New spread"), Text("lines", "Spec lines")],
        [.. figures.Select(f => new Row(f.Name, [f.Name, Or(f.OldValue), Or(f.NewValue), double.IsFinite(f.OldValue) && double.IsFinite(f.NewValue) ? Minus("new", "old") : Cell.Empty, f.Unit, f.Old, f.New, f.OldSpread, f.NewSpread, Places(f.Causes, c)]))]);

    private static Table Findings(Comparison c) => new("findings_changed", "Findings changed",
        [Text("row", "Row"), Text("change", "Change"), Text("code", "Code"), Text("subject", "About"), Text("old", "Old"), Text("new", "New"), Text("lines", "Spec lines")],
        [.. c.Findings.Select((f, i) => Row(i + 1, f.Old is null ? "appeared" : f.New is null ? "went" : "now says", (f.New ?? f.Old)!.Code, (f.New ?? f.Old)!.Subject, f.Old?.Message ?? "", f.New?.Message ?? "", Places(f.Causes, c)))]);

    private static Table Lines(Comparison c) => new("lines", "Spec lines",
        [Text("row", "Row"), Text("subject", "Where in the model"), Text("place", "Place"), Text("old", "Old line"), Text("new", "New line")],
        [.. c.Lines.Select((l, i) => Row(i + 1, l.Subject, ComparisonWords.Place(l, c), l.Old?.Text ?? "", l.New?.Text ?? ""))]);

    private static Column Number(string key, string heading) => new(key, heading, ColumnKind.Number);

    private static Column Money(string key, string heading) => new(key, heading, ColumnKind.Money);

    private static Cell Minus(string a, string b) => new Formula.Binary(Formula.Operator.Subtract, new Formula.Here(a), new Formula.Here(b));

    private static Cell Or(double? value) => value is { } v && double.IsFinite(v) ? v : Cell.Empty;

    private static string Places(IEnumerable<Cause> causes, Comparison c) => string.Join(", ", causes.Select(x => ComparisonWords.Place(x, c)).Distinct());
}
