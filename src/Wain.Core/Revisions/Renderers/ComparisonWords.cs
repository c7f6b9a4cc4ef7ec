using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Findings;

namespace Wain.Core.Revisions.Renderers;

/// <summary>One thing said of a comparison: a headline, measures, and the spec lines behind it.</summary>
internal sealed record Said(string Headline, ImmutableArray<string> Details, ImmutableArray<Cause> Causes);

/// <summary>What belongs under one heading.</summary>
internal sealed record Section(string Title, ImmutableArray<Said> Items);

/// <summary>Where the costs of comparisons and trials come from.</summary>
public static class CostBasis
{
    /// <summary>Said wherever a cost is told that no cutting plan stands behind.</summary>
    public const string Words = "Costs buy sheets and sticks by the estimate, alike everywhere here; a build with a kept cutting plan buys by its plan.";
}

/// <summary>The words of a comparison, shared by all forms that people read.</summary>
internal static class ComparisonWords
{
    private const int PartsListed = 4;

    public static string Summary(Comparison c)
    {
        if (c.IsUndecided) return "Nothing differs as far as could be compared.";
        if (c.IsSame) return "No difference: both mean the same.";
        var words = new List<string>();
        void Count(string thing, string many)
        {
            int n = c.Changes.Where(x => x.Thing == thing).Sum(x => 1 + x.Mirrors.Length);
            if (n > 0) words.Add(n == 1 ? $"1 {thing}" : $"{Show(n)} {many}");
        }
        Count("panel", "panels");
        Count("opening", "openings");
        Count("stack", "stacks");
        Count("joint", "joints");
        Count("part", "parts");
        if (c.Buying.Length > 0) words.Add($"{Show(c.Buying.Length)} {(c.Buying.Length == 1 ? "line" : "lines")} of the buying list");
        if (c.Findings.Length > 0) words.Add(c.Findings.Length == 1 ? "1 finding" : $"{Show(c.Findings.Length)} findings");
        string touched = words.Count == 0 ? "No part changes; the spec says other things." : "Changed: " + string.Join(", ", words) + ".";
        return c.Limits.IsEmpty ? $"{touched} Untouched: {Show(c.UntouchedPanels)} panels, {Show(c.UntouchedParts)} parts." : touched;
    }

    /// <param name="all">True to list every part; otherwise those of what is built, and of panels with few.</param>
    public static IEnumerable<Section> Sections(Comparison c, bool all)
    {
        var parts = c.Changes.Where(x => x.Thing == "part").ToLookup(x => x.Panel, StringComparer.Ordinal);
        var built = c.Changes.Where(x => x.Built is not null && x.Thing != "part").ToList();
        if (built.Count > 0) yield return new("Already built", [.. built.Select(x => Of(x, parts, all))]);
        foreach (var (thing, title) in new[] { ("panel", "Panels"), ("opening", "Openings"), ("stack", "Stacks"), ("joint", "Joints"), ("thing", "Names") })
        {
            var its = c.Changes.Where(x => x.Thing == thing && x.Built is null).ToList();
            if (its.Count > 0) yield return new(title, [.. its.Select(x => Of(x, parts, all))]);
        }
        if (c.Buying.Length > 0) yield return new("Buying list", [.. c.Buying.Select(Of), new(CostBasis.Words, [], [])]);
        // A figure of which only the spread differs in its last place is left to the forms that list all.
        var figures = c.Figures.Where(f => f.Difference.Length > 0 || f.Old.Length == 0 || f.New.Length == 0 || f.Old != f.New).ToList();
        if (figures.Count > 0) yield return new("Weight, cost, balance, clearances", [.. figures.Select(Of)]);
        if (c.Findings.Length > 0) yield return new("Findings", [.. c.Findings.Select(f => Of(f, c))]);
        if (c.OtherFigures.Length > 0) yield return new("Other figures", [new($"{Show(c.OtherFigures.Length)} more figures differ. The workbook of --out and --as json list them.", [], [])]);
    }

    public static string Verb(Change c) => c.Kind switch
    {
        ChangeKind.New => "new",
        ChangeKind.Gone => "gone",
        ChangeKind.Recut => c.Built is null ? "cut to another shape" : "must be cut again",
        ChangeKind.Moved => "moved",
        ChangeKind.Renamed => "renamed",
        _ => "changed",
    };

    private static Said Of(Change c, ILookup<string, Change> parts, bool all)
    {
        string name = c.OldName is { } was ? $"{c.Name} (was {was})" : c.Name;
        string built = c.Built is { } b ? $" ({b})" : "";
        string mirrors = c.Mirrors.IsEmpty ? "" : $", and its mirror {string.Join(", ", c.Mirrors)}";
        // The parts of a panel that is new or gone are as new or gone as it is.
        var own = c.Thing == "panel" && c.Kind is not (ChangeKind.New or ChangeKind.Gone) ? Parts(c, [.. parts[c.Name]], all) : [];
        return new($"{name}{built}{mirrors}: {Verb(c)}", [.. c.Details.Select(Of), .. own], c.Causes);
    }

    public static string Of(Detail d) => d switch
    {
        { What: "place", Old: "" } => "moved " + d.New,
        { What: "", Old: "" } => $"now also: {d.New}",
        { What: "", New: "" } => $"no longer: {d.Old}",
        { What: "" } => $"{d.Old} -> {d.New}",
        { Old: "" } => $"{d.What} {d.New}",
        { New: "" } => $"{d.What} was {d.Old}",
        _ => $"{d.What} {d.Old} -> {d.New}" + (d.Difference.Length > 0 ? $" ({d.Difference})" : ""),
    };

    /// <summary>How many parts of a panel are touched, and those that are to be told one by one.</summary>
    private static IEnumerable<string> Parts(Change panel, ImmutableArray<Change> parts, bool all)
    {
        if (parts.IsEmpty) yield break;
        var counts = parts.GroupBy(p => p.Kind).OrderBy(g => Array.IndexOf(KindOrder, g.Key)).Select(g => $"{Show(g.Count())} {Verb(g.First() with { Built = null })}");
        yield return $"parts: {string.Join(", ", counts)}";
        if (!all && panel.Built is null && parts.Length > PartsListed) yield break;
        foreach (var p in parts.OrderBy(p => Array.IndexOf(KindOrder, p.Kind)))
        {
            string name = p.Name.StartsWith(panel.Name + ".", StringComparison.Ordinal) ? p.Name[(panel.Name.Length + 1)..] : p.Name;
            string measures = string.Join(", ", p.Details.Take(2).Select(Of));
            yield return $"  {name}: {(p.Kind == ChangeKind.Recut && measures.Length > 0 ? measures : Verb(p with { Built = null }) + (measures.Length > 0 ? ", " + measures : ""))}";
        }
    }

    private static readonly ChangeKind[] KindOrder = [ChangeKind.Recut, ChangeKind.New, ChangeKind.Gone, ChangeKind.Moved, ChangeKind.Changed, ChangeKind.Renamed];

    private static Said Of(BuyChange b)
    {
        string packs = (b.OldPacks, b.NewPacks) switch
        {
            (null, { } n) => $"buy {Show(n)}, was not on the list",
            ({ } o, null) => $"no longer bought, was {Show(o)}",
            var (o, n) when o == n => $"{Show(n ?? 0)} as before",
            var (o, n) => $"{Show(o ?? 0)} -> {Show(n ?? 0)} packs",
        };
        return new($"{b.Mark}: {packs}, {Money(b.OldCost)} -> {Money(b.NewCost)} {b.Currency}", [], b.Causes);
    }

    private static string Money(double? amount) => amount is { } a ? a.ToString("0.00", CultureInfo.InvariantCulture) : "unknown";

    /// <summary>A figure before and after, on one line.</summary>
    public static string Headline(FigureChange f)
    {
        string name = FigureWords.Of(f.Name) is { } words ? $"{words} ({f.Name})" : f.Name;
        return f switch
        {
            { Old: "" } => $"{name}: {f.New}, was not there",
            { New: "" } => $"{name}: no longer there, was {f.Old}",
            { Difference: "" } => $"{name}: {f.Old} -> {f.New}",
            _ => $"{name}: {f.Old} -> {f.New} ({f.Difference})",
        };
    }

    private static Said Of(FigureChange f)
    {
        var details = ImmutableArray.CreateBuilder<string>();
        if (f.NewSpread.Length > 0) details.Add(f.OldSpread.Length == 0 || f.OldSpread == f.NewSpread ? f.NewSpread : $"{f.NewSpread}, was {f.OldSpread}");
        if (f.NewBetween.Length > 0) details.Add(f.OldBetween.Length == 0 || f.OldBetween == f.NewBetween ? f.NewBetween : $"{f.NewBetween}, was {f.OldBetween}");
        return new(Headline(f), details.ToImmutable(), f.Causes);
    }

    private static Said Of(FindingChange f, Comparison c)
    {
        string Level(Finding x) => (x.AcceptedBecause is null ? "" : "accepted ") + $"{x.Level.ToString().ToLowerInvariant()} {x.Code}";
        string At(Finding x) => $"{Short(x.Place.Source.Path, c)}:{Show(x.Place.Line)}";
        string mirrors = f.Mirrors.IsEmpty ? "" : $" The same of its mirror {string.Join(", ", f.Mirrors)}.";
        return (f.Old, f.New) switch
        {
            (null, { } n) => new($"appeared: {Level(n)} at {At(n)}: {n.Message}{mirrors}", [], f.Causes),
            ({ } o, null) => new($"went: {Level(o)}: {o.Message}{mirrors}", [], f.Causes),
            var (o, n) => new($"now says: {Level(n!)} at {At(n!)}: {n!.Message}{mirrors}", [$"was: {o!.Message}"], f.Causes),
        };
    }

    /// <summary>Where the cause stands, in the new revision if it is there; without the folder of its side, which the title names.</summary>
    public static string Place(Cause cause, Comparison c)
    {
        var line = cause.New ?? cause.Old!;
        return $"{Short(line.Path, c)}:{Show(line.Line)}" + (cause.New is null ? " (gone)" : "");
    }

    private static string Short(string path, Comparison c)
    {
        foreach (string folder in (string[])[c.NewFolder, c.OldFolder])
            if (folder.Length > 0 && path.Length > folder.Length && path.StartsWith(folder, StringComparison.Ordinal)) return path[folder.Length..];
        return path;
    }

    /// <summary>All lines that anything is from, in the order of the text. Where there are several each has the number of its place in this list.</summary>
    public static ImmutableArray<Cause> Numbered(Comparison c)
    {
        var all = c.Lines.AsEnumerable().Concat(c.Changes.SelectMany(x => x.Causes)).Concat(c.Buying.SelectMany(x => x.Causes)).Concat(c.Figures.SelectMany(x => x.Causes)).Concat(c.Findings.SelectMany(x => x.Causes));
        // Two ways to one line, as from a block and from a value in it, are one line.
        return [.. all.DistinctBy(x => (x.Old, x.New)).OrderBy(x => Place(x, c).Split(':')[0], StringComparer.Ordinal).ThenBy(x => (x.New ?? x.Old)!.Line)];
    }

    /// <summary>" [1, 3]", or nothing where one line is behind all.</summary>
    public static string References(ImmutableArray<Cause> causes, ImmutableArray<Cause> numbered)
    {
        if (numbered.Length < 2 || causes.IsEmpty) return "";
        var numbers = causes.Select(x => numbered.Select((n, i) => (n, i)).First(y => y.n.Old == x.Old && y.n.New == x.New).i + 1).Distinct().Order().ToList();
        return $" [{string.Join(", ", numbers.Take(6).Select(Show))}{(numbers.Count > 6 ? ", ..." : "")}]";
    }

    public static string Show(int n) => n.ToString(CultureInfo.InvariantCulture);
}
