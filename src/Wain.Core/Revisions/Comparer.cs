using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Figures;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Takeoff;

namespace Wain.Core.Revisions;

/// <summary>Compares two compiled specs by what they mean.</summary>
public static class Comparer
{
    /// <param name="oldName">How the old side is called in what is shown.</param>
    /// <param name="newName">How the new side is called.</param>
    public static Comparison Compare(Compilation old, Compilation now, string oldName, string newName)
    {
        var limits = ImmutableArray.CreateBuilder<string>();
        foreach (var (side, name) in new[] { (old, oldName), (now, newName) })
        {
            if (side.Design is null) limits.Add($"{name} has errors that stop it before its panels are placed: only the declarations and the findings are compared.");
        }
        var renames = Renames.Of(old, now);
        if (old.Structure is { } was && now.Structure is { } isNow && TitleOf(old.Spec) != TitleOf(now.Spec)
            && !was.Panels.Any(p => isNow.Panel(renames.Now(p.Name)) is { } same && Renames.SameShape(p.Outline, same.Outline)))
            limits.Add("Name and shape of no panel agree: these seem to be two designs, and not two revisions of one.");
        List<FactContent> before = Contents(old.Spec, renames.Now), after = Contents(now.Spec, n => n);
        var facts = FactChanges.Of(before, after);
        var causes = new Causes(old, now, renames, facts);
        var comparison = new Comparison(oldName, newName, limits.ToImmutable())
        {
            Lines = InTextOrder(causes.Lines(facts, int.MaxValue).AddRange(RequirementCauses(old, now, renames)).AddRange(limits.Count > 0 ? causes.ChangedValues() : [])),
            OldFolder = FolderOf(old.Source.Path),
            NewFolder = FolderOf(now.Source.Path),
            Findings = FindingChanges(old, now, renames, causes),
        };
        if (old.Design is not { } a || now.Design is not { } b) return comparison with { Changes = Declared(facts, now.Spec, renames, causes) };

        var shown = new ShownFigures(now.Spec);
        var parts = PartComparison.Of(a, b, renames, causes, shown, out int untouchedParts);
        var panels = PanelComparison.Of(a, b, renames, causes, shown, parts, out int untouchedPanels);
        var others = ThingComparison.Stacks(a, b, renames, causes, shown, facts).Concat(ThingComparison.Joints(a, b, renames, causes, shown, facts));
        var built = BuiltState.Of(now.Spec).Concat(BuiltState.Of(old.Spec).Select(s => new KeyValuePair<string, string>(renames.Now(s.Key), s.Value))).GroupBy(s => s.Key, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First().Value, StringComparer.Ordinal);
        var changes = MirrorFolding.Fold([.. panels, .. others, .. parts], b, built).Concat(Renamed(old.Spec, now.Spec, renames));
        var (headlines, otherFigures) = FigureComparison.Of(a, b, renames, causes, shown);
        return comparison with
        {
            Changes = [.. changes.OrderBy(c => c.Built is null).ThenBy(c => Array.IndexOf(Order, c.Thing)).ThenBy(c => c.Name, StringComparer.Ordinal)],
            Buying = BuyChanges(a, b, renames, causes, shown),
            Figures = headlines,
            OtherFigures = otherFigures,
            UntouchedPanels = untouchedPanels,
            UntouchedParts = untouchedParts,
        };
    }

    private static readonly string[] Order = ["panel", "opening", "stack", "joint", "part", "thing"];

    /// <summary>What has another name and is no part: materials, units, loads, plans. Panels and stacks are told with all else that is said of them.</summary>
    private static IEnumerable<Change> Renamed(Spec old, Spec now, Renames renames) =>
        from pair in renames.All
        let was = old.Find(pair.Key) as BoundFact
        let isNow = now.Find(pair.Value) as BoundFact
        where was is not null && isNow is not null && isNow.Keyword is not ("panel" or "mirror" or "stack")
        select new Change("thing", pair.Value, ChangeKind.Renamed) { OldName = pair.Key, Causes = [new Cause(pair.Value, Causes.Line(was.NameSpan), Causes.Line(isNow.NameSpan))] };

    private static string? TitleOf(Spec spec) => spec.All("camper").FirstOrDefault() is { } camper ? spec.Evaluator.Text(camper, "title") : null;

    private static List<FactContent> Contents(Spec spec, Func<string, string> nameNow) => [.. spec.Facts.Select(f => FactContent.Of(spec, f, nameNow))];

    /// <summary>What can be said of things that are not placed: what is declared anew, is gone, or says something else.</summary>
    private static ImmutableArray<Change> Declared(List<FactChange> facts, Spec now, Renames renames, Causes causes)
    {
        var changes = new List<Change>();
        foreach (var group in facts.GroupBy(f => FactChange.TopOf((f.New ?? f.Old)!)))
        {
            if (group.Key.Keyword is not ("panel" or "mirror" or "stack" or "joint")) continue;
            var whole = group.FirstOrDefault(f => f.New == group.Key || f.Old == group.Key);
            var kind = whole is { Old: null } ? ChangeKind.New : whole is { New: null } ? ChangeKind.Gone : ChangeKind.Changed;
            string name = group.Key.Name ?? FactContent.Even(group.Key.HeadSpan.Text);
            changes.Add(new Change(group.Key.Keyword == "mirror" ? "panel" : group.Key.Keyword, name, kind) { Causes = causes.Lines(group) });
        }
        // What reads the same and hangs on a value that is another now.
        var told = changes.Select(c => c.Name).ToHashSet(StringComparer.Ordinal);
        foreach (var fact in now.Facts.Where(f => f.Keyword is "panel" or "stack" && f.Name is { } n && !told.Contains(n)))
        {
            var lines = causes.ChangedValuesOf(fact);
            if (lines.Length > 0) changes.Add(new Change(fact.Keyword, fact.Name!, ChangeKind.Changed) { Causes = lines });
        }
        foreach (var (was, isNow) in renames.All) changes.Add(new Change("thing", isNow, ChangeKind.Renamed) { OldName = was });
        return [.. changes.OrderBy(c => c.Thing, StringComparer.Ordinal).ThenBy(c => c.Name, StringComparer.Ordinal)];
    }

    private static ImmutableArray<BuyChange> BuyChanges(Design old, Design now, Renames renames, Causes causes, ShownFigures shown)
    {
        string MarkNow(BuyLine line) => renames.Now(line.Material.Name) + line.Mark[line.Material.Name.Length..];
        var olds = old.Takeoff.Buy.GroupBy(MarkNow, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        var news = now.Takeoff.Buy.GroupBy(b => b.Mark, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        var changes = ImmutableArray.CreateBuilder<BuyChange>();
        foreach (string mark in olds.Keys.Union(news.Keys, StringComparer.Ordinal).Order(StringComparer.Ordinal))
        {
            var (a, b) = (olds.GetValueOrDefault(mark), news.GetValueOrDefault(mark));
            bool sameCost = a?.Cost is { } x && b?.Cost is { } y ? Math.Abs(x - y) < 0.005 : a?.Cost is null && b?.Cost is null;
            if (a is not null && b is not null && a.Packs == b.Packs && sameCost) continue;
            string material = (b ?? a)!.Material.Name;
            changes.Add(new BuyChange(mark, a?.Packs, b?.Packs, a?.Cost, b?.Cost, now.Takeoff.Currency)
            {
                Pack = (b ?? a)!.Pack is { } pack ? shown.Of(pack.Size) : "",
                Causes = causes.OfFigure((b is null ? renames.Now(material) : material) + ".cost"),
            });
        }
        return changes.ToImmutable();
    }

    private static ImmutableArray<FindingChange> FindingChanges(Compilation old, Compilation now, Renames renames, Causes causes)
    {
        string SubjectNow(Finding f)
        {
            string subject = Bare(f.Subject, old), top = subject.Split('.')[0];
            return renames.Now(top) + subject[top.Length..];
        }
        // A message may name a file, and the two sides lie in different folders or revisions.
        static string Bare(string message, Compilation side)
        {
            string path = side.Source.Path;
            int end = path.LastIndexOf('/') is var slash && slash >= 0 ? slash : path.IndexOf(':');
            return end < 0 ? message : message.Replace(path[..(end + 1)], "", StringComparison.Ordinal);
        }
        string Says(Finding f, bool isOld)
        {
            string message = Bare(f.Message, isOld ? old : now);
            if (isOld) message = renames.All.Aggregate(message, (text, r) => text.Replace(r.Key, r.Value, StringComparison.Ordinal));
            return f.Level + (f.AcceptedBecause is null ? "" : " accepted: ") + f.AcceptedBecause + message;
        }
        var olds = old.Findings.GroupBy(f => (f.Code, Subject: SubjectNow(f))).ToDictionary(g => g.Key, g => g.ToList());
        var news = now.Findings.GroupBy(f => (f.Code, Subject: Bare(f.Subject, now))).ToDictionary(g => g.Key, g => g.ToList());
        var changes = new List<FindingChange>();
        foreach (var key in olds.Keys.Union(news.Keys))
        {
            List<Finding> a = olds.GetValueOrDefault(key, []), b = [.. news.GetValueOrDefault(key, [])];
            foreach (var one in a.ToList())
            {
                int same = b.FindIndex(f => Says(f, false) == Says(one, true));
                if (same < 0) continue;
                b.RemoveAt(same);
                a.Remove(one);
            }
            for (int i = 0; i < Math.Max(a.Count, b.Count); i++)
            {
                var (was, isNow) = (i < a.Count ? a[i] : null, i < b.Count ? b[i] : null);
                // What the later passes of a broken side would have found is unknown, and has not gone.
                if (isNow is null && now.Design is null || was is null && old.Design is null) continue;
                string top = key.Subject.Split('.')[0];
                changes.Add(new FindingChange(was, isNow) { Causes = causes.Of(old.Spec.Find(was?.Subject.Split('.')[0] ?? top), now.Spec.Find(top), shape: false) });
            }
        }
        return [.. FoldMirrors(changes, now.Structure ?? old.Structure).OrderBy(c => c.New is null).ThenByDescending(c => (c.New ?? c.Old)!.Level).ThenBy(c => (c.New ?? c.Old)!.Code, StringComparer.Ordinal).ThenBy(c => (c.New ?? c.Old)!.Subject, StringComparer.Ordinal)];
    }

    /// <summary>What is said alike of a panel and of its mirror is told once.</summary>
    private static List<FindingChange> FoldMirrors(List<FindingChange> changes, Structure? structure)
    {
        if (structure is null) return changes;
        var original = structure.Panels.Where(p => p.Mirrored is not null).ToDictionary(p => p.Name, p => p.Mirrored!, StringComparer.Ordinal);
        var folded = new List<FindingChange>();
        foreach (var change in changes.OrderBy(c => original.ContainsKey((c.New ?? c.Old)!.Subject.Split('.')[0])))
        {
            var said = (change.New ?? change.Old)!;
            string top = said.Subject.Split('.')[0];
            int same = original.TryGetValue(top, out string? of) ? folded.FindIndex(f => (f.New ?? f.Old)! is var other && other.Code == said.Code && other.Level == said.Level
                && other.Subject == of + said.Subject[top.Length..] && f.Old is null == change.Old is null && f.New is null == change.New is null) : -1;
            if (same < 0) folded.Add(change);
            else folded[same] = folded[same] with { Mirrors = folded[same].Mirrors.Add(said.Subject) };
        }
        return folded;
    }

    private static string FolderOf(string path) => path[..(path.LastIndexOf('/') is var slash && slash >= 0 ? slash + 1 : path.IndexOf(':') + 1)];

    private static ImmutableArray<Cause> InTextOrder(ImmutableArray<Cause> causes) =>
        [.. causes.Distinct().OrderBy(c => (c.New ?? c.Old)!.Path, StringComparer.Ordinal).ThenBy(c => (c.New ?? c.Old)!.Line)];

    private static IEnumerable<Cause> RequirementCauses(Compilation oldSide, Compilation nowSide, Renames renames)
    {
        var (old, now) = (oldSide.Spec, nowSide.Spec);
        // A broken side may not know the value of what reads the same.
        bool bothKnown = oldSide.Design is not null && nowSide.Design is not null;
        var before = old.Requirements.Select(r => (Requirement: r, Text: RequirementContent.Of(old, r, renames.Now))).ToList();
        var fresh = new List<(Requirement Requirement, string Text)>();
        foreach (var r in now.Requirements)
        {
            string text = RequirementContent.Of(now, r, n => n);
            int same = before.FindIndex(b => b.Text == text);
            if (same < 0 && !bothKnown) same = before.FindIndex(b => FactContent.Even(b.Requirement.Syntax.Span.Text) == FactContent.Even(r.Syntax.Span.Text));
            if (same >= 0) before.RemoveAt(same);
            else fresh.Add((r, text));
        }
        foreach (var (r, _) in fresh)
        {
            int match = before.FindIndex(b => r.Syntax.Message is { } message && b.Requirement.Syntax.Message == message);
            var was = match >= 0 ? before[match].Requirement : null;
            if (match >= 0) before.RemoveAt(match);
            yield return new Cause("require", was is null ? null : Causes.Line(was.Syntax.Span), Causes.Line(r.Syntax.Span));
        }
        foreach (var (r, _) in before) yield return new Cause("require", Causes.Line(r.Syntax.Span), null);
    }
}
