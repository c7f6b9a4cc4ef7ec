using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Geometry;

/// <summary>
/// Bound spec to placed design. What depends on what is found by asking: each fact of placing (a plan, the plane of a face, an outline) is computed once,
/// when first asked for, and a fact that comes to need itself is a circle, told with its whole chain. Panels are no nodes of that graph, so two walls that
/// each stop at the other are no circle.
/// </summary>
public sealed class Resolver
{
    private readonly Dictionary<string, Stack> _stacks;
    private readonly Dictionary<string, BoundFact> _panelFacts = new(StringComparer.Ordinal);
    private readonly Dictionary<string, object?> _known = new(StringComparer.Ordinal);
    private readonly HashSet<string> _busy = new(StringComparer.Ordinal);

    private Resolver(Spec spec, ImmutableArray<Material> materials, ImmutableArray<Stack> stacks)
    {
        Spec = spec;
        Materials = materials.ToDictionary(m => m.Name, StringComparer.Ordinal);
        _stacks = stacks.ToDictionary(s => s.Name, StringComparer.Ordinal);
        foreach (var fact in spec.Facts)
        {
            if (fact.Name is not null && (fact.Keyword == "panel" || fact.MirrorOf?.Keyword == "panel")) _panelFacts[fact.Name] = fact;
        }
        foreach (var lift in spec.All("lift"))
        {
            foreach (var item in lift.Find("carries")?.Body ?? []) if (spec.Evaluator.Thing(item, "item") is { Name: { } name }) LiftOf.TryAdd(name, lift.Name!);
        }
        StandingOn = new(() => _panelFacts.Values.Where(p => p.Keyword == "panel").Select(p => (Panel: p, Stands: p.Find("stands"))).Where(p => p.Stands is not null)
            .Select(p => (p.Panel, Leg: spec.Evaluator.PathOf(p.Stands!, "leg"))).Where(p => p.Leg is { Words.Length: 1 })
            .ToLookup(p => p.Leg!.Value.Thing.Name + "." + p.Leg.Value.Words[0], p => p.Panel, StringComparer.Ordinal));
        Fitted = new(() => spec.All("built").Where(b => b.Find("fitted") is not null).Select(b => (Fact: b, spec.Evaluator.Thing(b, "of")?.Name)).Where(b => b.Name is not null)
            .GroupBy(b => b.Name!, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First().Fact, StringComparer.Ordinal));
        SteppedJoints = new(() => [.. spec.All("joint").Where(j => j.Find("lap") is not null || j.Find("rabbet") is not null)
            .Select(j => (Joint: j, First: spec.Evaluator.PathOf(j, "first")?.Thing, Second: spec.Evaluator.PathOf(j, "second")?.Thing))
            .Where(j => j.First is not null && j.Second is not null).Select(j => (j.Joint, j.First!, j.Second!))]);
        ThroughJoints = new(() => [.. spec.All("joint").Select(j => (Said: j.Find("through"), First: spec.Evaluator.PathOf(j, "first")?.Thing, Second: spec.Evaluator.PathOf(j, "second")?.Thing))
            .Where(j => j.Said is not null && j.First is not null && j.Second is not null).Select(j => (j.Said!, spec.Evaluator.Thing(j.Said!, "panel"), j.First!, j.Second!))]);
        spec.Evaluator.AddSource(Figure);
    }

    internal Spec Spec { get; }

    internal Evaluator Evaluator => Spec.Evaluator;

    internal Dictionary<string, Material> Materials { get; }

    internal Dictionary<string, string> LiftOf { get; } = new(StringComparer.Ordinal);

    /// <summary>Panels by the leg that they stand on: "bunk.nose".</summary>
    internal Lazy<ILookup<string, BoundFact>> StandingOn { get; }

    /// <summary>What is fitted already, by the panel: it is as it was measured, and no longer as it was drawn.</summary>
    internal Lazy<Dictionary<string, BoundFact>> Fitted { get; }

    /// <summary>Joints by a lap or a rabbet, with the two things that each joins.</summary>
    internal Lazy<ImmutableArray<(BoundFact Joint, BoundFact First, BoundFact Second)>> SteppedJoints { get; }

    /// <summary>What joints say of the panel that runs through, with that panel and the two things that each joins.</summary>
    internal Lazy<ImmutableArray<(BoundFact Said, BoundFact? Panel, BoundFact First, BoundFact Second)>> ThroughJoints { get; }

    internal void Report(Finding finding) => Evaluator.Report(finding);

    /// <summary>Places everything. What can't be placed is left out and reported.</summary>
    public static Structure Resolve(Spec spec)
    {
        var materials = Model.Materials.Read(spec);
        var stacks = Stacks.Read(spec, materials.ToDictionary(m => m.Name, StringComparer.Ordinal));
        var resolver = new Resolver(spec, materials, stacks);
        var plans = spec.All("plan").Where(p => p.Name is not null).Select(p => resolver.Plan(p.Name!)).OfType<PlacedPlan>().ToImmutableArray();
        var panels = resolver._panelFacts.Values.Select(p => resolver.Panel(p.Name!)).OfType<PlacedPanel>().ToImmutableArray();
        foreach (var panel in panels) resolver.TellTooLarge(panel);
        PartMarks.Tell(resolver, panels);
        var joints = JointPlacer.Place(resolver, panels);
        var lifts = LiftPlacer.Place(resolver);
        return new Structure(spec, materials, stacks, plans, panels, joints, lifts) { Subframe = SubframePlacer.Place(resolver) };
    }

    /// <summary>mm: nothing of a camper is as long, as far from the origin or as thick; beyond, a unit or a zero went wrong, and the geometry would lose its last digits.</summary>
    internal const double MostSide = 100_000, MostThickness = 1_000;

    private void TellTooLarge(PlacedPanel panel)
    {
        double side = Math.Max(panel.Width, panel.Height);
        var stack = panel.Zones.Select(z => z.Stack).Append(panel.Stack).MaxBy(s => s.Thickness)!;
        if (side <= MostSide && stack.Thickness <= MostThickness) return;
        string what = side > MostSide ? $"{Spec.Say.Length(side)} long" : $"{Spec.Say.Length(stack.Thickness)} thick";
        Report(new Finding(PlacingFindings.TooLarge, $"Panel {panel.Name} comes out {what}.", panel.Fact.HeadSpan)
        {
            Subject = panel.Name,
            Hint = $"Look for the size that went wrong: {(side > MostSide ? "its own, or one of the plan and the panels that place it" : $"a layer of {stack.Name}")}.",
        });
    }

    /// <summary>Computes a fact of placing once, and finds circles.</summary>
    internal T? Once<T>(string key, string name, Span place, Func<T?> compute) where T : class
    {
        if (_known.TryGetValue(key, out object? known)) return (T?)known;
        if (!_busy.Add(key))
        {
            Evaluator.ReportCircle(name, place);
            return null;
        }
        var value = Evaluator.Within(name, place, compute);
        _busy.Remove(key);
        _known[key] = value;
        return value;
    }

    internal PlacedPlan? Plan(string name) =>
        Spec.Find(name) is { Keyword: "plan" } fact ? Once("plan " + name, $"plan {name}", fact.NameSpan, () => PlanPlacer.Place(this, fact)) : null;

    /// <summary>What panels can be made of, as a sentence.</summary>
    internal string StackNames => _stacks.Count == 0 ? "The spec has no stack yet." : _stacks.Count == 1 ? $"The one stack is {_stacks.Keys.First()}." : $"The stacks are {string.Join(", ", _stacks.Keys.Order(StringComparer.Ordinal).Take(8))}{(_stacks.Count > 8 ? " and others" : "")}.";

    internal Stack? StackOf(BoundFact panel)
    {
        var fact = panel.Has("stack") ? panel : panel.MirrorOf ?? panel;
        if (!fact.Has("stack"))
        {
            Once<object>("nostack " + panel.Name, panel.Name!, panel.NameSpan, () =>
            {
                Report(new Finding(PlacingFindings.NoStack, $"Panel {panel.Name} does not say what it is made of.", panel.NameSpan)
                {
                    Subject = panel.Path,
                    Hint = $"Write: panel {panel.Name} of STACK {{ ... }}. {StackNames}",
                    Fixes = _stacks.Count == 1 ? [new Fix(new Span(panel.NameSpan.Source, panel.NameSpan.End, 0), $" of {_stacks.Keys.First()}", $"write {panel.Name} of {_stacks.Keys.First()}")] : [],
                });
                return null;
            });
            return null;
        }
        var stack = Evaluator.Thing(fact, "stack") is { Name: { } name } ? _stacks.GetValueOrDefault(name) : null;
        return stack is not null && Fitted.Value.TryGetValue(panel.Name ?? "", out var built) ? Once("thickness " + panel.Name, panel.Name!, built.HeadSpan, () => AsMeasured.Of(this, panel, built, stack)) : stack;
    }

    internal bool IsFitted(BoundFact panel) => Fitted.Value.ContainsKey(panel.Name ?? "");

    internal Stack? Stack(string name) => _stacks.GetValueOrDefault(name);

    internal BoundFact? PanelFact(string name) => _panelFacts.GetValueOrDefault(name);

    /// <summary>The plane of a panel's outside face, with its axes; the origin is any point of the face.</summary>
    internal PanelFace? Face(string panel) =>
        _panelFacts.TryGetValue(panel, out var fact) ? Once("face " + panel, $"the place of {panel}", fact.NameSpan, () => PanelFaces.Face(this, fact)) : null;

    internal PlacedPanel? Panel(string panel) =>
        _panelFacts.TryGetValue(panel, out var fact) ? Once("panel " + panel, $"the outline of {panel}", fact.NameSpan, () => PanelPlacer.Place(this, fact)) : null;

    /// <summary>A face of a panel as a plane whose normal points out of the panel: "top", "bottom", "outside", "inside". Null if it has no such face.</summary>
    internal Plane? FacePlane(BoundFact panel, string word, Span at)
    {
        if (Face(panel.Name!) is not { } face || StackOf(panel) is not { } stack) return null;
        var outside = face.Frame.Plane;
        var inside = outside.Flipped.Moved(stack.Thickness);
        switch (word)
        {
            case "outside": return outside;
            case "inside": return inside;
            // What stands ends at its limits, however far it leans.
            case "top" or "bottom" when face.Limits is { } limits: return word == "top" ? AsMeasured.Top(this, panel, face.Frame, limits) : limits.Bottom;
            case "top" or "bottom" when Math.Abs(face.Frame.N.Z) > 0.2: return face.Frame.N.Z > 0 == (word == "top") ? outside : inside;
            default:
                Report(new Finding(PlacingFindings.NoSuchEdge, $"{panel.Name} has no face named \"{word}\"; a level panel has top and bottom, an upright one outside and inside.", at) { Subject = panel.Path, Fixes = Fixing.Nearest(at, NearestName.Of(word, ["top", "bottom", "outside", "inside"])) });
                return null;
        }
    }

    /// <summary>The plane that a level slot names: a face of a panel, a named level, or a height.</summary>
    internal Plane? LevelPlane(BoundFact fact, string slot, bool towardsUp)
    {
        if (!fact.Slots.TryGetValue(slot, out var text)) return null;
        if (text.Terms[0] is Syntax.NameExpression { Parts.Length: >= 2 } name && Evaluator.FindThing(name, fact.Scope, out var words) is { } thing && PanelFact(thing.Name ?? "") is { } panel
            && words is [var word] && word is "top" or "bottom" or "outside" or "inside")
        {
            return FacePlane(panel, word, name.Span) is { } plane ? plane : null;
        }
        return Evaluator.Length(fact, slot) is { } height ? new Plane(new Vec3(0, 0, towardsUp ? 1 : -1), towardsUp ? height : -height) : null;
    }

    /// <summary>Figures that placing computes, for expressions: floor.top, bunk.nose.length, wall.area, deck_stack.thickness.</summary>
    private (bool Known, Value? Value) Figure(BoundFact? thing, ImmutableArray<string> path, Span at)
    {
        if (thing?.Name is null) return (false, null);
        static Value Mm(double mm) => new QuantityValue(Quantity.FromMillimetres(Math.Round(mm, 9)));
        if (_panelFacts.ContainsKey(thing.Name) && path is [var word])
        {
            switch (word)
            {
                case "thickness": return (true, StackOf(thing) is { } stack ? Mm(stack.Thickness) : null);
                case "top" or "bottom" or "outside" or "inside":
                    if (FacePlane(thing, word, at) is not { } plane) return (true, null);
                    if (Math.Abs(plane.Normal.Z) > 1 - 1e-9) return (true, Mm(plane.Offset * Math.Sign(plane.Normal.Z)));
                    Report(new Finding(PlacingFindings.NotLevel, $"{thing.Name}.{word} is {Say.Angle(Math.Acos(Math.Min(1, Math.Abs(plane.Normal.Z))))} from level, so it has no one height.", at) { Subject = thing.Path, Hint = $"Use the face alone, such as: to {thing.Name}.{word}" });
                    return (true, null);
                case "width" or "height" or "area" or "left" or "right" or "front" or "rear" or "lowest" or "highest":
                    if (Panel(thing.Name) is not { } panel) return (true, null);
                    var box = PanelShapes.Bounds(panel);
                    return (true, word switch
                    {
                        "width" => Mm(panel.Width),
                        "height" => Mm(panel.Height),
                        "area" => new QuantityValue(new Quantity(panel.Outline.Area() / 1e6, Dimension.OfArea)),
                        "left" => Mm(box.High.Y),
                        "right" => Mm(box.Low.Y),
                        "front" => Mm(box.High.X),
                        "rear" => Mm(box.Low.X),
                        "lowest" => Mm(box.Low.Z),
                        _ => Mm(box.High.Z),
                    });
            }
        }
        switch (thing.Keyword)
        {
            case "stack" when path is ["thickness"]: return (true, _stacks.TryGetValue(thing.Name, out var stack) ? Mm(stack.Thickness) : null);
            case "level" when path.IsEmpty: return (true, Evaluator.Quantity(thing, "at") is { } height ? new QuantityValue(height) : null);
            case "plan": return PlanFigure(thing, path);
            default: return (false, null);
        }

        (bool, Value?) PlanFigure(BoundFact fact, ImmutableArray<string> words)
        {
            if (Plan(fact.Name!) is not { } plan) return (true, null);
            var bounds = plan.Outline.Bounds;
            switch (words)
            {
                case ["area"]: return (true, new QuantityValue(new Quantity(plan.Outline.Area() / 1e6, Dimension.OfArea)));
                case ["perimeter"]: return (true, Mm(plan.Outline.Perimeter));
                case ["length"]: return (true, Mm(bounds.Width));
                case ["width"]: return (true, Mm(bounds.Height));
                case ["front"]: return (true, Mm(bounds.Max.X));
                case ["rear"]: return (true, Mm(bounds.Min.X));
                case ["left"]: return (true, Mm(bounds.Max.Y));
                case ["right"]: return (true, Mm(bounds.Min.Y));
                case ["misclosure"]: return (true, Mm(plan.Misfits.IsEmpty ? 0 : plan.Misfits.Max(m => m.Error)));
                case [var leg, var measure] when plan.Outline.IndexOf(leg) is >= 0 and var i:
                    var segment = plan.Outline.Segment(i);
                    return measure switch
                    {
                        "length" => (true, Mm(segment.Length)),
                        "run" => (true, Mm(Math.Abs(segment.Chord.X))),
                        "across" => (true, Mm(Math.Abs(segment.Chord.Y))),
                        "angle" => (true, new QuantityValue(Quantity.FromRadians(Math.Atan2(Math.Abs(segment.Chord.Y), Math.Abs(segment.Chord.X))))),
                        _ => (false, null),
                    };
                default: return (false, null);
            }
        }
    }
}
