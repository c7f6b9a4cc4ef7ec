using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>The two sides of a joint must meet in space. A joint that is meant to stay open says so with its gap.</summary>
public static class JointMeets
{
    /// <summary>1/32 in: what glue fills and a plane takes off.</summary>
    public const double Tolerance = 25.4 / 32;

    private const string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan deck_plan {
            start at (0 in, 20 in)
            leg left_side run 80 in
            leg front across 40 in
            leg right_side mirror of left_side
            leg rear home, across 40 in
        }
        panel deck of board { covers plan deck_plan, top at 0 in }
        panel wall of board { stands on deck_plan.front, from HEIGHT to 40 in }
        joint wall.bottom to deck.top { butt }
        """;

    public static readonly FindingInfo Info = new("WN4003", "joint-apart", Level.Error, "The two sides of a joint do not meet",
        "A joint that is listed but does not touch in space is a wrong place or a wrong edge; its glue and screws would be counted for nothing.",
        Text.Replace("HEIGHT", "2 in", StringComparison.Ordinal), Text.Replace("HEIGHT", "deck.top", StringComparison.Ordinal));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var joint in input.Structure.Joints)
        {
            double allowed = joint.Fact.Find("gap") is { } gap ? input.Spec.Evaluator.Bounds(gap, "range")?.High?.Millimetres ?? Tolerance : Tolerance;
            if (joint.Gap <= allowed + 1e-6)
            {
                if ((OtherEdge(input, joint, allowed) ?? OtherFace(input, joint, joint.First, "first", joint.Second) ?? OtherFace(input, joint, joint.Second, "second", joint.First)) is { } other) yield return other;
                continue;
            }
            var (hint, named) = Named(input, joint, allowed);
            // Where one only ends short of the step that it should reach into, that is told with by how much.
            if (hint is null && JointFit.Of(input.Spec, joint) is { Parallel: false } fit && Math.Abs(fit.Reach + joint.Gap) < 0.1) continue;
            yield return new Finding(Info, $"{joint.First.Panel.Name}.{joint.First.Name} and {joint.Second.Panel.Name}.{joint.Second.Name} are {input.Say.Length(joint.Gap)} apart where they should meet.", joint.Fact.HeadSpan)
            {
                Subject = joint.Name,
                Hint = hint ?? (allowed > Tolerance ? $"The joint allows {input.Say.Length(allowed)}." : Sealed(joint.Gap) ? $"If the gap is meant, say so: gap at most {input.Say.AtLeast(joint.Gap)}" : null),
                Fixes = joint.Mirrored ? [] : named.IsEmpty ? Mended(input, joint, allowed) : named,
            };
        }
    }

    /// <summary>True if a joint that does not meet was probably meant for another edge or panel: nothing that is said of it holds till that is mended.</summary>
    internal static bool NamesAnother(CheckInput input, PlacedJoint joint) => joint.Gap > Tolerance + 1e-6 && Named(input, joint, Tolerance).Hint is not null;

    /// <summary>The edge or the panel that was probably meant: what meets as it is placed is a slip in the joint, and no panel needs to move.</summary>
    private static (string? Hint, ImmutableArray<Fix> Fixes) Named(CheckInput input, PlacedJoint joint, double allowed)
    {
        if (WhatMeets.Edge(joint) is not { } side) return (null, []);
        var (edge, panel) = (WhatMeets.OtherEdge(input.Structure, joint, allowed), WhatMeets.OtherPanel(input.Structure, input.Clearance.Clashes, joint, allowed));
        var (own, others) = joint.First.IsFace ? ("second", "first") : ("first", "second");
        string other = (joint.First.IsFace ? joint.First : joint.Second).Panel.Name;
        var fixes = ImmutableArray.CreateBuilder<Fix>();
        var (written, named) = (Owner(input, joint, own), Owner(input, joint, others));
        if (edge is not null) fixes.Add(Fixing.Write(input.Spec, joint.Fact, own, $"{written}.{edge}"));
        // A line that speaks of a panel and of its mirror says so by the name of the one.
        var scope = joint.Fact.Scope;
        if (panel is not null && (written, named) == (scope.NameFor(side.Panel.Name), scope.NameFor(other)) && WhatMeets.Face(panel, side.Panel) is { } face && Fixing.WriteOf(input.Spec, joint.Fact, others, panel.Name, face) is { } write) fixes.Add(write);
        return ((edge, panel) switch
        {
            ({ }, { }) => $"{side.Panel.Name} meets {other} with its edge {edge}, and its edge {side.Name} meets {panel.Name}: name the one that is meant.",
            ({ }, null) => $"{side.Panel.Name} meets {other} with its edge {edge}.",
            (null, { }) => $"Its edge {side.Name} meets {panel.Name}.",
            _ => null,
        }, fixes.ToImmutable());
    }

    /// <summary>The panel of a side as the text has it: in a group it goes by its own name.</summary>
    private static string Owner(CheckInput input, PlacedJoint joint, string slot) => input.Spec.Evaluator.SlotSpan(joint.Fact, slot).Text is var text && text.LastIndexOf('.') is > 0 and var dot ? text[..dot] : text;

    /// <summary>1/4 in: what a bead of sealant or a fillet closes (common practice). A wider gap is a place that went wrong.</summary>
    private static bool Sealed(double gap) => gap <= 25.4 / 4 + 1e-6;

    // A panel that ends at a number is run to the face; else a narrow gap may be meant.
    private static ImmutableArray<Fix> Mended(CheckInput input, PlacedJoint joint, double allowed)
    {
        if (Reaching.Meet(input.Spec, joint.First.Panel, joint.Second.Panel, joint.Gap) is { } face) return [face];
        return Fixing.One(allowed > Tolerance || !Sealed(joint.Gap) ? null : Fixing.AddLine(joint.Fact, $"gap at most {input.Say.AtLeast(joint.Gap)}"));
    }

    /// <summary>The panels meet, but not at the second edge that is named: what is cut and drawn there would be cut at the wrong end.</summary>
    private static Finding? OtherEdge(CheckInput input, PlacedJoint joint, double allowed)
    {
        // Panels that lap edge over edge are held to the width of their lap.
        if (joint.First.IsFace || joint.Second.IsFace || ReferenceEquals(joint.First.Panel, joint.Second.Panel) || JointFit.Of(input.Spec, joint) is { Parallel: true }) return null;
        // Panels that pass through each other are told as such, and meet nowhere as they should.
        if (input.Clearance.Clashes.Any(c => (c.First == joint.First.Panel || c.First == joint.Second.Panel) && (c.Second == joint.First.Panel || c.Second == joint.Second.Panel))) return null;
        var panel = joint.Second.Panel;
        double room = joint.First.Panel.Thickness + panel.Thickness + allowed;
        // An edge that only crosses the seam, as the bottom of a wall does at the end of its side, is not the one that meets.
        double Away(int edge)
        {
            var line = panel.Outline.Segment(edge);
            var shaft = new Shaft(panel.Face.ToWorld(line.From, panel.Thickness / 2), panel.Face.ToWorld(line.To, panel.Thickness / 2));
            var along = (shaft.Point - shaft.Head).Unit;
            double Beside(Vec3 end) => (end - shaft.Head).Cross(along).Length;
            return Math.Max(new Shaft(joint.From, joint.To).Nearest(shaft).Distance, Math.Max(Beside(joint.From), Beside(joint.To)));
        }
        double away = Away(joint.Second.Edge);
        if (away <= room) return null;
        int nearest = Enumerable.Range(0, panel.Outline.Count).MinBy(Away);
        // No edge of it is there, or the first edge runs into its face where that ends: then it is met on a face.
        string face = PanelShapes.IsBefore(panel, joint.First.Panel) ? "outside" : "inside", name = !RunsInto(joint, allowed) && Away(nearest) <= room && panel.Outline.Edges[nearest].Name is { } edge ? edge : face;
        return new Finding(Info, $"{joint.First.Panel.Name}.{joint.First.Name} meets {panel.Name}, but not its edge {joint.Second.Name}, which is {input.Say.Nearly(away)} away.", joint.Fact.HeadSpan)
        {
            Subject = joint.Name,
            Hint = name == face ? $"It is met on its {face}." : $"Its edge {name} is there.",
            Fixes = joint.Mirrored ? [] : [Fixing.Write(input.Spec, joint.Fact, "second", $"{Owner(input, joint, "second")}.{name}")],
        };
    }

    /// <summary>The panels meet, but on the other face than the one that is named: what is driven or laid there would be on the wrong side.</summary>
    private static Finding? OtherFace(CheckInput input, PlacedJoint joint, JointSide side, string slot, JointSide other)
    {
        if (!side.IsFace) return null;
        var (panel, met) = (side.Panel, other.Panel);
        // An edge comes from the side that its own panel lies on; one that stands beside it, or lies through it, meets neither face.
        double over = other.IsFace ? panel.Face.Plane.SignedDistance(met.Face.ToWorld(met.Outline.Centroid(), met.Thickness / 2)) : -met.Face.DirectionToWorld(met.Outline.Segment(other.Edge).Chord.Unit.Right).Dot(panel.Face.N);
        bool before = over > (other.IsFace ? Tolerance : 0.5), behind = over < (other.IsFace ? -panel.Thickness - Tolerance : -0.5), up = panel.Face.N.Z > 0;
        if (!before && !behind || before == (side.Name == "outside" || side.Name == (up ? "top" : "bottom") && side.Name is "top" or "bottom")) return null;
        string word = side.Name is "top" or "bottom" ? before == up ? "top" : "bottom" : before ? "outside" : "inside";
        return new Finding(Info, $"{met.Name}{(other.IsFace ? "" : $".{other.Name}")} meets {panel.Name} on its {word}, and not on its {side.Name}.", joint.Fact.HeadSpan)
        {
            Subject = joint.Name,
            Hint = $"Its {word} is there.",
            Fixes = joint.Mirrored ? [] : [Fixing.Write(input.Spec, joint.Fact, slot, $"{Owner(input, joint, slot)}.{word}")],
        };
    }

    /// <summary>True if the first edge stands on a face of the second panel, square to it or nearly.</summary>
    private static bool RunsInto(PlacedJoint joint, double allowed)
    {
        var (panel, face) = (joint.First.Panel, joint.Second.Panel);
        double into = panel.Face.DirectionToWorld(panel.Outline.Segment(joint.First.Edge).Chord.Unit.Right).Dot(face.Face.N), over = face.Face.Plane.SignedDistance(joint.From.Lerp(joint.To, 0.5));
        return into < -0.7 && over > -allowed || into > 0.7 && over < allowed - face.Thickness;
    }
}
