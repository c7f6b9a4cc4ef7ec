using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Geometry;

/// <summary>A measure of a plan's leg that the spec states, with its place.</summary>
/// <param name="Kind">"run", "across", "length", "inward", "width" and so on: the word that states it.</param>
/// <param name="Value">mm, or radians for an angle.</param>
public sealed record StatedMeasure(string Leg, string Kind, double Value, Span Place)
{
    /// <summary>The kind of how far from the centre line a walk begins; of no leg, and never less than nothing.</summary>
    public const string Start = "start";
}

/// <summary>A stated measure against what the plan comes to.</summary>
/// <param name="Error">mm, at the leg's far end.</param>
/// <param name="Closing">The value of the measure that would close it (mm or radians).</param>
/// <param name="Against">The measure that it disagrees with.</param>
/// <param name="AgainstClosing">The value of that other measure that would close it.</param>
public sealed record Misfit(StatedMeasure Measure, double Error, double Closing, StatedMeasure Against, double AgainstClosing);

/// <summary>A measure that alone explains why a plan does not close: with this value (mm or radians) in its place all else agrees.</summary>
public sealed record Slip(StatedMeasure Measure, double Closing);

/// <summary>A plan as walked: an outline seen from above, counter-clockwise, with edges named after the legs (mm).</summary>
/// <param name="Lies">Where its line lies in the thickness of walls: "outside", "frame" or "inside".</param>
public sealed record PlacedPlan(string Name, BoundFact Fact, Outline Outline, ImmutableArray<StatedMeasure> Stated, ImmutableArray<Misfit> Misfits, string Lies, double Tolerance)
{
    /// <summary>True if some stated measure is compared with another.</summary>
    public bool CouldFail { get; init; }

    /// <summary>Where the plan does not close: each measure that is enough to blame. Empty where no one measure is.</summary>
    public ImmutableArray<Slip> Slips { get; init; } = [];
}

/// <summary>A part of a panel with a stack of its own.</summary>
/// <param name="Region">On the outside face, in the panel's own axes (mm).</param>
/// <param name="Offset">How far its outside face lies below the panel's (mm); negative if it stands out.</param>
/// <param name="Added">True if it is added to a face; false if it takes the place of the panel's layers.</param>
public sealed record PlacedZone(string Name, BoundFact Fact, Stack Stack, Outline Region, double Offset, bool Added);

/// <summary>A step cut into a face round an opening or along an edge.</summary>
public sealed record PlacedRecess(Outline Region, double Depth, bool FromOutside);

/// <summary>A hole through a panel.</summary>
/// <param name="Hole">On the outside face, in the panel's own axes (mm).</param>
/// <param name="Framed">Members all round it.</param>
public sealed record PlacedOpening(string Name, BoundFact Fact, UnitMaterial? Unit, Outline Hole, double Width, double Height, double Corner, PlacedRecess? Recess, bool Framed, double? ProudAtMost);

public enum PanelPlacing
{
    Covers,
    Stands,
    Spans,
    Leans,
    Through,
}

/// <summary>A panel in space. All that later passes know of where it is.</summary>
/// <param name="Face">The outside face: U to the right and V up as seen from outside, N out of the face (mm).</param>
/// <param name="Outline">On the outside face, counter-clockwise, with named edges whose tilt says how each is bevelled.</param>
/// <param name="Mirrored">The panel that it is the mirror image of, or null.</param>
/// <param name="Lift">The lift that carries it, or null.</param>
public sealed record PlacedPanel(string Name, BoundFact Fact, Stack Stack, Frame Face, Outline Outline, ImmutableArray<PlacedZone> Zones, ImmutableArray<PlacedOpening> Openings, PanelPlacing Placing, string? Mirrored, string? Lift)
{
    public double Thickness => Stack.Thickness;

    /// <summary>Along U (mm), over all, at the outside face.</summary>
    public double Width => Outline.Bounds.Width;

    /// <summary>Along V (mm), over all, at the outside face.</summary>
    public double Height => Outline.Bounds.Height;

    /// <summary>True if its faces are nearly level.</summary>
    public bool IsLevel => Math.Abs(Face.N.Z) > 0.7;

    /// <summary>The outline at a depth below the outside face; the outside outline itself where the bevels leave nothing.</summary>
    public Outline OutlineAt(double depth) => Outline.Below(depth) ?? Outline;

    /// <summary>The zone in place of the panel's layers that an opening is cut through; null if it is cut through the panel's own.</summary>
    public PlacedZone? ZoneOf(PlacedOpening opening) => Zones.FirstOrDefault(z => !z.Added && z.Region.Contains(opening.Hole.Bounds.Centre));

    /// <summary>
    /// How far below the panel's outside face the two faces lie that an opening's unit sits between (mm): those of its zone, thicker by what is added there, if the zone holds the unit's
    /// flange as well; else the panel's own. A recess of the opening's own is counted from them.
    /// </summary>
    public (double Outside, double Inside) FacesAt(PlacedOpening opening)
    {
        var seat = opening.Hole.Offset(Math.Max(0, opening.Unit?.Flange ?? 0)).Outline ?? opening.Hole;
        var zone = ZoneOf(opening) is { } own && own.Region.Contains(seat) ? own : null;
        double outside = zone?.Offset ?? 0, inside = zone is null ? Thickness : zone.Offset + zone.Stack.Thickness;
        foreach (var added in Zones)
            if (added.Added && added.Region.Contains(seat)) (outside, inside) = (Math.Min(outside, added.Offset), Math.Max(inside, added.Offset + added.Stack.Thickness));
        return (outside, inside);
    }

    /// <summary>The panel that facts are written in: its own, or that of the panel that it mirrors.</summary>
    public string DesignName => Mirrored ?? Name;
}

public enum JointKind
{
    Butt,
    Mitre,
    Lap,
    Rabbet,
}

/// <summary>One side of a joint: an edge of a panel by name, or one of its faces.</summary>
/// <param name="Edge">Index of the outline's edge, or -1 for a face.</param>
public sealed record JointSide(PlacedPanel Panel, string Name, int Edge)
{
    public bool IsFace => Edge < 0;

    /// <summary>True of the face that looks into the camper; of a level panel that may be its top or its bottom.</summary>
    public bool IsInside => IsFace && (Name == "inside" || Name == (Panel.Face.N.Z > 0 ? "bottom" : "top"));
}

/// <summary>Where two panels meet.</summary>
/// <param name="From">One end of the line along which they meet, and the other end (mm).</param>
/// <param name="Dihedral">Between the two panels, measured inside the camper (radians).</param>
/// <param name="Gap">mm between the two sides where they should touch.</param>
/// <param name="Through">The panel that runs through, or null for a mitre or a meeting of an edge with a face.</param>
public sealed record PlacedJoint(string Name, BoundFact Fact, JointSide First, JointSide Second, Vec3 From, Vec3 To, double Dihedral, double Gap, JointKind Kind, PlacedPanel? Through, bool Mirrored)
{
    public double Length => From.DistanceTo(To);
}

/// <summary>What a lift carries and how far (mm).</summary>
/// <param name="Hinge">The line that it turns about, and how far it opens; null if it travels straight. A lift that turns has no travel and no lag.</param>
public sealed record PlacedLift(string Name, BoundFact Fact, ImmutableArray<string> Carries, Vec3 Direction, double Travel, double Lag, Hinge? Hinge = null)
{
    /// <summary>From closed to raised.</summary>
    public RigidMove Raised => Hinge is { } hinge ? hinge.At(hinge.Angle) : RigidMove.Straight(Direction * Travel);
}

/// <summary>The whole design in space.</summary>
public sealed record Structure(
    Spec Spec,
    ImmutableArray<Material> Materials,
    ImmutableArray<Stack> Stacks,
    ImmutableArray<PlacedPlan> Plans,
    ImmutableArray<PlacedPanel> Panels,
    ImmutableArray<PlacedJoint> Joints,
    ImmutableArray<PlacedLift> Lifts)
{
    /// <summary>Tubes between the camper and the chassis.</summary>
    public ImmutableArray<SubframeMember> Subframe { get; init; } = [];

    private ILookup<string, PlacedJoint>? _stepped;

    /// <summary>The joints of a panel in which one or both are cut to a step.</summary>
    internal IEnumerable<PlacedJoint> SteppedJoints(string panel) =>
        (_stepped ??= Joints.Where(j => j.Kind is JointKind.Lap or JointKind.Rabbet).SelectMany(j => new[] { j.First.Panel.Name, j.Second.Panel.Name }.Distinct().Select(p => (Panel: p, Joint: j))).ToLookup(p => p.Panel, p => p.Joint, StringComparer.Ordinal))[panel];

    public PlacedPanel? Panel(string name) => Panels.FirstOrDefault(p => p.Name == name);
}
