using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Geometry;

/// <summary>Which wall runs through at the corner of a plan, and where the other stops.</summary>
internal static class CornerPlacer
{
    /// <summary>The plane that ends a wall at the start or end of its leg; its normal points out of the wall.</summary>
    public static Plane End(Resolver resolver, BoundFact panel, PanelFace face, Stack stack, bool atStart)
    {
        var outline = face.Plan!.Outline;
        int leg = face.Leg;
        int other = atStart ? outline.Previous(leg) : outline.Next(leg);
        var segment = outline.Segment(leg);
        var point = atStart ? segment.From : segment.To;
        var out3 = atStart ? -face.Frame.U : face.Frame.U;
        var square = Plane.Through(new Vec3(point.X, point.Y, 0), new Vec3(out3.X, out3.Y, 0).Unit);
        if (Neighbour(resolver, panel, face, outline.Edges[other].Name) is not { } neighbour) return square;
        if (resolver.Face(neighbour.Name!) is not { } next || resolver.StackOf(neighbour) is not { } nextStack) return square;
        var outside = next.Frame.Plane;
        // Two walls in one line meet square.
        if (Math.Abs(face.Frame.U.Cross(next.Frame.U).Length) < 1e-9) return square;
        var meeting = Rule(resolver, panel, neighbour, face.Plan, leg, other);
        var plane = meeting switch
        {
            Meeting.Through => outside,
            Meeting.Stops => outside.Moved(StepInto(resolver, panel, neighbour, nextStack) - nextStack.Thickness),
            _ => MitrePlane(face, stack, next, nextStack) ?? square,
        };
        return plane.Normal.Dot(out3) >= 0 ? plane : plane.Flipped;
    }

    /// <summary>How far the wall that stops goes into the one that runs through (mm): to the ground of the step, where a lap or a rabbet joins the two.</summary>
    private static double StepInto(Resolver resolver, BoundFact panel, BoundFact other, Stack stack)
    {
        foreach (var (fact, first, second) in resolver.SteppedJoints.Value)
        {
            bool isFirst = Design(first) == Design(other) && Design(second) == Design(panel);
            if (!isFirst && (Design(first) != Design(panel) || Design(second) != Design(other))) continue;
            double depth = fact.Find("rabbet") is { } rabbet ? resolver.Evaluator.Length(rabbet, "depth") ?? 0
                : fact.Find("lap") is { } lap && lap.Has("depths") && lap.Word("depths") != "half" && resolver.Evaluator.Lengths(lap, "depths") is [_, ..] depths ? depths[isFirst ? 0 : depths.Length - 1]
                : stack.Thickness / 2;
            return Math.Clamp(depth, 0, stack.Thickness);
        }
        return 0;
    }

    private static BoundFact Design(BoundFact p) => p.MirrorOf ?? p;

    private enum Meeting
    {
        Through,
        Stops,
        Mitred,
    }

    /// <summary>The wall on the next leg whose height laps this one's, if there is one.</summary>
    private static BoundFact? Neighbour(Resolver resolver, BoundFact panel, PanelFace face, string? leg)
    {
        if (leg is null) return null;
        var candidates = resolver.StandingOn.Value[face.Plan!.Name + "." + leg].Where(p => p != panel).ToList();
        // A leg whose wall is the mirror of another has no fact of its own; the mirror stands on the mirrored leg.
        if (candidates.Count == 0) candidates = [.. MirrorsOn(resolver, face.Plan, leg)];
        if (candidates.Count <= 1) return candidates.FirstOrDefault();
        var (low, high) = Range(face);
        return candidates.Select(c => (Panel: c, Range: resolver.Face(c.Name!) is { } f ? Range(f) : (Low: 0, High: 0)))
            .Select(c => (c.Panel, Lap: Math.Min(high, c.Range.High) - Math.Max(low, c.Range.Low))).Where(c => c.Lap > 0).OrderByDescending(c => c.Lap).Select(c => c.Panel).FirstOrDefault();
    }

    private static IEnumerable<BoundFact> MirrorsOn(Resolver resolver, PlacedPlan plan, string leg)
    {
        int index = plan.Outline.IndexOf(leg);
        var middle = plan.Outline.Segment(index).At(0.5);
        foreach (var mirror in resolver.Spec.All("mirror"))
        {
            if (mirror.MirrorOf is not { Keyword: "panel" } original || original.Find("stands") is not { } stands || resolver.Evaluator.PathOf(stands, "leg") is not { Words.Length: 1 } path || path.Thing.Name != plan.Name) continue;
            int source = plan.Outline.IndexOf(path.Words[0]);
            if (source < 0) continue;
            var image = plan.Outline.Segment(source).At(0.5);
            if (new Vec2(image.X, -image.Y).IsNear(middle, 1.6)) yield return mirror;
        }
    }

    // Heights at the face's own origin are enough to tell storeys apart.
    private static (double Low, double High) Range(PanelFace face)
    {
        var at = face.Frame.Origin;
        double Height(Plane plane) => Math.Abs(plane.Normal.Z) < 1e-9 ? 0 : (plane.Offset - plane.Normal.X * at.X - plane.Normal.Y * at.Y) / plane.Normal.Z;
        return face.Limits is { } l ? (Height(l.Bottom), Height(l.Top)) : (double.NegativeInfinity, double.PositiveInfinity);
    }

    private static Meeting Rule(Resolver resolver, BoundFact panel, BoundFact other, PlacedPlan plan, int leg, int otherLeg)
    {
        BoundFact? Said(BoundFact p, string keyword, BoundFact q) => (p.MirrorOf ?? p).All(keyword).FirstOrDefault(f => resolver.Evaluator.Thing(f, "other") is { } t && (t == q || t == q.MirrorOf || t.MirrorOf == q));
        var through = Said(panel, "runs", other) ?? Said(other, "stops", panel);
        var stops = Said(panel, "stops", other) ?? Said(other, "runs", panel);
        // A joint of the two may say it as well as the walls themselves.
        foreach (var (said, runs, first, second) in resolver.ThroughJoints.Value)
        {
            if (!(Design(first) == Design(panel) && Design(second) == Design(other) || Design(first) == Design(other) && Design(second) == Design(panel))) continue;
            if (runs is not null && Design(runs) == Design(panel)) through ??= said;
            else if (runs is not null && Design(runs) == Design(other)) stops ??= said;
        }
        if (through is not null && stops is not null) TellBothWays(resolver, through, stops);
        if (through is not null) return Meeting.Through;
        if (stops is not null) return Meeting.Stops;
        string mine = plan.Outline.Edges[leg].Name ?? "", theirs = plan.Outline.Edges[otherLeg].Name ?? "";
        foreach (var corner in plan.Fact.All("mitred"))
        {
            string? a = corner.Word("first"), b = corner.Word("second");
            if ((a == mine && b == theirs) || (a == theirs && b == mine)) return Meeting.Mitred;
        }
        bool iRun = plan.Fact.All("through").Any(f => f.Word("leg") == mine), theyRun = plan.Fact.All("through").Any(f => f.Word("leg") == theirs);
        if (iRun != theyRun) return iRun ? Meeting.Through : Meeting.Stops;
        if (plan.Fact.Find("corners")?.Word("corners") == "mitred") return Meeting.Mitred;
        // Where nothing is said the longer side runs through; of two alike, the one that runs along the truck.
        double a1 = plan.Outline.Segment(leg).Length, b1 = plan.Outline.Segment(otherLeg).Length;
        if (Math.Abs(a1 - b1) > 0.5) return a1 > b1 ? Meeting.Through : Meeting.Stops;
        return Math.Abs(plan.Outline.Segment(leg).Chord.Unit.X) >= Math.Abs(plan.Outline.Segment(otherLeg).Chord.Unit.X) ? Meeting.Through : Meeting.Stops;
    }

    /// <summary>Tells what a panel says of a corner with a wall that meets it at neither: it has no effect.</summary>
    public static void TellElsewhere(Resolver resolver, BoundFact panel, PanelFace face)
    {
        var said = panel.All("stops").Concat(panel.All("runs")).ToList();
        if (said.Count == 0) return;
        BoundFact?[] there = face.Placing == PanelPlacing.Stands && face.Plan!.Outline is var outline
            ? [Neighbour(resolver, panel, face, outline.Edges[outline.Previous(face.Leg)].Name), Neighbour(resolver, panel, face, outline.Edges[outline.Next(face.Leg)].Name)] : [];
        var walls = there.OfType<BoundFact>().Select(w => w.Name!).Distinct().ToList();
        foreach (var fact in said)
        {
            if (resolver.Evaluator.Thing(fact, "other") is not { Keyword: "panel" or "mirror" } other || there.Any(w => w is not null && (other == w || Design(other) == Design(w)))) continue;
            string says = fact.Keyword == "stops" ? "to stop at" : "to run through at";
            resolver.Report(new Finding(PlacingFindings.CornerElsewhere, $"{panel.Name} is said {says} {other.Name}, which meets it at no corner of a plan.", fact.Span)
            {
                Subject = panel.Path,
                Hint = walls.Count > 0 ? $"At its corners {(walls.Count == 1 ? "stands" : "stand")} {string.Join(" and ", walls)}." : face.Placing == PanelPlacing.Stands ? "No wall stands on the legs beside its own." : "It stands on no leg of a plan, so that its own points say where it ends.",
                Fixes = walls.Count == 0 ? [Fixing.TakeOut(fact)] : [.. walls.Select(w => fact.Scope.NameFor(w)).OfType<string>().Select(w => Fixing.Write(resolver.Spec, fact, "other", w))],
            });
        }
    }

    // Both walls come by here, and their mirrors: what is told of the two facts is told once, at the one that stands first in the text.
    private static void TellBothWays(Resolver resolver, BoundFact one, BoundFact other)
    {
        if (one.HeadSpan.Start > other.HeadSpan.Start) (one, other) = (other, one);
        var (first, second) = (one.Parent!, other.Parent!);
        string message = first.Keyword == "joint" || second.Keyword == "joint" ? $"What {first.Name ?? first.HeadSpan.Text} and {second.Name ?? second.HeadSpan.Text} say of one corner contradicts itself."
            : first == second ? $"{first.Name} is said to run through and to stop at one corner."
            : one.Keyword == "stops" ? $"At one corner {first.Name} and {second.Name} both stop at the other." : $"At one corner {first.Name} and {second.Name} both run through.";
        resolver.Once($"corner {one.Path} {one.HeadSpan.Start} {other.Path} {other.HeadSpan.Start}", message, one.HeadSpan, () =>
        {
            resolver.Report(new Finding(PlacingFindings.CornerBothWays, message, one.Span) { Subject = first.Path, Hint = "Take one of the two lines out: one wall runs through, the other stops at it.", Fixes = [Fixing.TakeOut(one)], Related = [new Related(other.Span, "said the other way here")] });
            return message;
        });
    }

    /// <summary>The plane through the line where the outside faces meet and the line where the inside faces meet.</summary>
    private static Plane? MitrePlane(PanelFace a, Stack stackA, PanelFace b, Stack stackB)
    {
        var (outA, outB) = (a.Frame.Plane, b.Frame.Plane);
        if (outA.Meet(outB) is not { } outer || outA.Moved(-stackA.Thickness).Meet(outB.Moved(-stackB.Thickness)) is not { } inner) return null;
        var across = inner.Point - outer.Point;
        across -= outer.Direction * across.Dot(outer.Direction);
        return across.Length < 1e-9 ? null : Plane.Through(outer.Point, across.Cross(outer.Direction).Unit);
    }
}
