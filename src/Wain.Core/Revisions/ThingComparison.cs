using System.Globalization;
using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Model;

namespace Wain.Core.Revisions;

/// <summary>Stacks and joints.</summary>
internal static class ThingComparison
{
    public static IEnumerable<Change> Stacks(Design old, Design now, Renames renames, Causes causes, ShownFigures shown, List<FactChange> facts)
    {
        var touched = Touched(facts);
        var olds = old.Structure.Stacks.GroupBy(s => renames.Now(s.Name), StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        foreach (var stack in now.Structure.Stacks)
        {
            if (!olds.Remove(stack.Name, out var was)) yield return new Change("stack", stack.Name, ChangeKind.New) { Details = [new Detail("layers", "", Layers(stack, n => n, shown))], Causes = causes.Of(null, stack.Fact, false) };
            else
            {
                string before = Layers(was, renames.Now, shown), after = Layers(stack, n => n, shown);
                var details = new List<Detail>();
                if (before != after) details.Add(new Detail("layers", before, after));
                if (shown.LengthsDiffer(was.Thickness, stack.Thickness)) details.Add(PanelComparison.Length("thickness", was.Thickness, stack.Thickness, shown));
                bool renamed = was.Name != stack.Name;
                if (details.Count == 0 && !renamed && !touched.Contains(stack.Fact)) continue;
                yield return new Change("stack", stack.Name, details.Count == 0 && !touched.Contains(stack.Fact) ? ChangeKind.Renamed : ChangeKind.Changed)
                {
                    OldName = renamed ? was.Name : null,
                    Details = [.. details],
                    Causes = renamed ? [new Cause(stack.Name, Causes.Line(was.Fact.Span), Causes.Line(stack.Fact.Span))] : causes.Of(was.Fact, stack.Fact, false),
                };
            }
        }
        foreach (var (name, was) in olds) yield return new Change("stack", name, ChangeKind.Gone) { Details = [new Detail("layers", Layers(was, n => n, shown), "")], Causes = causes.Of(was.Fact, null, false) };
    }

    private static HashSet<BoundFact> Touched(List<FactChange> facts) => facts.SelectMany(f => new[] { f.Old, f.New }.OfType<BoundFact>()).Select(FactChange.TopOf).ToHashSet();

    /// <summary>The lines of a block that say something else, as they read.</summary>
    private static IEnumerable<Detail> Said(List<FactChange> facts, BoundFact top) =>
        facts.Where(f => FactChange.TopOf((f.New ?? f.Old)!) == top && (f.New ?? f.Old) != top).Select(f => new Detail("", Words(f.Old), Words(f.New))).Where(d => d.Old != d.New);

    private static string Words(BoundFact? fact) => fact is null ? "" : fact.Keyword + " " + string.Join(", ", fact.Syntax.Clauses.Select(c => string.Join(' ', c.Select(e => FactContent.Even(e.Span.Text)))));

    private static string Layers(Stack stack, Func<string, string> nameNow, ShownFigures shown) => string.Join(", ", stack.Layers.Select(l =>
        $"{(l.Material is { } m ? nameNow(m.Name) : "air")}{(l.Count > 1 ? " x" + l.Count.ToString(CultureInfo.InvariantCulture) : "")}{(l.Thickness > 0 ? " " + shown.Length(l.Thickness) : "")}{(l.Fill is { } fill ? " filled with " + nameNow(fill.Name) : "")}"));

    public static IEnumerable<Change> Joints(Design old, Design now, Renames renames, Causes causes, ShownFigures shown, List<FactChange> facts)
    {
        var touched = Touched(facts);
        string NameNow(PlacedJoint j) => $"{renames.Now(j.First.Panel.Name)}.{j.First.Name} to {renames.Now(j.Second.Panel.Name)}.{j.Second.Name}";
        var olds = old.Structure.Joints.GroupBy(NameNow, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        foreach (var joint in now.Structure.Joints)
        {
            if (!olds.Remove(joint.Name, out var was))
            {
                yield return new Change("joint", joint.Name, ChangeKind.New) { Details = [new Detail("length", "", shown.Length(joint.Length))], Causes = causes.Of(null, joint.Fact, true) };
                continue;
            }
            var details = new List<Detail>();
            if (was.Kind != joint.Kind) details.Add(new Detail("kind", was.Kind.ToString().ToLowerInvariant(), joint.Kind.ToString().ToLowerInvariant()));
            if (shown.LengthsDiffer(was.Length, joint.Length)) details.Add(PanelComparison.Length("length", was.Length, joint.Length, shown));
            if (ShownFigures.AnglesDiffer(was.Dihedral, joint.Dihedral)) details.Add(new Detail("angle", ShownFigures.Angle(was.Dihedral), ShownFigures.Angle(joint.Dihedral)));
            if (shown.LengthsDiffer(was.Gap, joint.Gap)) details.Add(PanelComparison.Length("gap", was.Gap, joint.Gap, shown));
            string through = was.Through is { } t ? renames.Now(t.Name) : "none";
            if (through != (joint.Through?.Name ?? "none")) details.Add(new Detail("runs through", through, joint.Through?.Name ?? "none"));
            bool said = touched.Contains(joint.Fact);
            if (said) details.AddRange(Said(facts, joint.Fact));
            if (details.Count == 0 && !said) continue;
            yield return new Change("joint", joint.Name, ChangeKind.Changed) { Details = [.. details], Causes = causes.Of(was.Fact, joint.Fact, shape: false) };
        }
        foreach (var (name, was) in olds) yield return new Change("joint", name, ChangeKind.Gone) { Details = [new Detail("length", shown.Length(was.Length), "")], Causes = causes.Of(was.Fact, null, true) };
    }
}
