using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Findings;

namespace Wain.Core.Revisions.Renderers;

/// <summary>One thing said of a comparison: a headline, measures, and the spec lines behind it.</summary>
internal sealed record Said(string Headline, ImmutableArray<string> Details, ImmutableArray<Cause> Causes);

/// <summary>What belongs under one heading.</summary>
internal sealed record Section(string Title, ImmutableArray<Said> Items);

/// <summary>The words of a comparison, shared by all forms that people read.</summary>
internal static class ComparisonWords
{
    private const int PartsListed = 6;

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
        if (c.Buying.Length > 0) words.Add($"{Show(c.Buying.Length)} of the buying list");
        if (c.Findings.Length > 0) words.Add(c.Findings.Length == 1 ? "1 finding" : $"{Show(c.Findings.Length)} findings");
        string touched = words.Count == 0 ? "No part changes; the spec says other things." : "Changed: " + string.Join(", ", words) + ".";
        return c.Limits.IsEmpty ? $"{touched} Untouched: {Show(c.UntouchedPanels)} panels, {Show(c.UntouchedParts)} parts." : touched;
    }

    public static IEnumerable<Section> Sections(Comparison c)
    {
        var built = c.Changes.Where(x => x.Built is not null && x.Thing != "part").ToList();
        if (built.Count > 0) yield return new("Already built", [.. built.Select(Of)]);
        foreach (var (thing, title) in new[] { ("panel", "Panels"), ("opening", "Openings"), ("stack", "Stacks"), ("joint", "Joints"), ("thing", "Names") })
        {
            var its = c.Changes.Where(x => x.Thing == thing && x.Built is null).ToList();
            if (its.Count > 0) yield return new(title, [.. its.Select(Of)]);
        }
        var parts = c.Changes.Where(x => x.Thing == "part").GroupBy(x => (x.Panel, x.Built)).ToList();
        if (parts.Count > 0) yield return new("Parts", [.. parts.Select(g => Parts(g.Key.Panel, g.Key.Built, [.. g]))]);
        if (c.Buying.Length > 0) yield return new("Buying list", [.. c.Buying.Select(Of)]);
        if (c.Figures.Length > 0) yield return new("Weight, cost, balance, clearances", [.. c.Figures.Select(Of)]);
        if (c.Findings.Length > 0) yield return new("Findings", [.. c.Findings.Select(Of)]);
        if (c.OtherFigures.Length > 0) yield return new("Other figures", [new($"{Show(c.OtherFigures.Length)} more figures differ; the workbook and the JSON form list them.", [], [])]);
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

    private static Said Of(Change c)
    {
        string name = c.OldName is { } was ? $"{c.Name} (was {was})" : c.Name;
        string built = c.Built is { } b ? $" ({b})" : "";
        string mirrors = c.Mirrors.IsEmpty ? "" : $", and its mirror {string.Join(", ", c.Mirrors)}";
        return new($"{name}{built}{mirrors}: {Verb(c)}", [.. c.Details.Select(Of)], c.Causes);
    }

    public static string Of(Detail d) => d switch
    {
        { What: "place", Old: "" } => "moved " + d.New,
        { What: "outline" } => "outline: other corners",
        { Old: "" } => $"{d.What} {d.New}",
        { New: "" } => $"{d.What} was {d.Old}",
        _ => $"{d.What} {d.Old} -> {d.New}" + (d.Difference.Length > 0 ? $" ({d.Difference})" : ""),
    };

    private static Said Parts(string panel, string? built, ImmutableArray<Change> parts)
    {
        var counts = parts.GroupBy(p => p.Kind).OrderBy(g => g.Key).Select(g => $"{Show(g.Count())} {(g.Key == ChangeKind.Recut ? "cut to another shape" : g.Key == ChangeKind.Moved ? "moved" : g.Key == ChangeKind.New ? "new" : "gone")}");
        var details = parts.OrderBy(p => p.Kind == ChangeKind.Moved).Take(PartsListed).Select(p => $"{p.Name}: {Verb(p with { Built = null })}{(p.Details.IsEmpty ? "" : ", " + string.Join(", ", p.Details.Take(2).Select(Of)))}").ToList();
        if (parts.Length > PartsListed) details.Add($"and {Show(parts.Length - PartsListed)} more");
        string mirrors = parts[0].Mirrors.IsEmpty ? "" : $", and its mirror {string.Join(", ", parts[0].Mirrors)}";
        return new($"{panel}{(built is null ? "" : $" ({built})")}{mirrors}: {string.Join(", ", counts)}", [.. details], [.. parts.SelectMany(p => p.Causes).Distinct().Take(4)]);
    }

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

    private static Said Of(FigureChange f) => new(f switch
    {
        { Old: "" } => $"{f.Name}: {f.New}, was not there",
        { New: "" } => $"{f.Name}: no longer there, was {f.Old}",
        _ => $"{f.Name}: {f.Old} -> {f.New}" + (f.Difference.Length > 0 ? $" ({f.Difference})" : ""),
    }, [], f.Causes);

    private static Said Of(FindingChange f)
    {
        string Level(Finding x) => x.AcceptedBecause is null ? x.Level.ToString().ToLowerInvariant() : "accepted " + x.Level.ToString().ToLowerInvariant();
        return (f.Old, f.New) switch
        {
            (null, { } n) => new($"appeared: {Level(n)} {n.Code}: {n.Message}", [], f.Causes),
            ({ } o, null) => new($"went: {Level(o)} {o.Code}: {o.Message}", [], f.Causes),
            var (o, n) => new($"now says: {Level(n!)} {n!.Code}: {n.Message}", [$"was: {o!.Message}"], f.Causes),
        };
    }

    /// <summary>Where the cause stands, in the new revision if it is there.</summary>
    public static string Place(Cause cause)
    {
        var line = cause.New ?? cause.Old!;
        return $"{line.Path}:{Show(line.Line)}" + (cause.New is null ? " (gone)" : "");
    }

    public static string Show(int n) => n.ToString(CultureInfo.InvariantCulture);
}
