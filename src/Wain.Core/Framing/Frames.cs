using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Framing;

public enum MemberRole
{
    Rail,
    Stile,
    Stud,
    Blocking,
    Header,
    Sill,
    Trimmer,
    Cripple,
}

/// <summary>How one end of a member is cut.</summary>
/// <param name="Angle">From square, in the plane of the frame (radians); positive if the end is longer on the member's left, seen along its centre line.</param>
/// <param name="Bevel">Through the depth of the frame (radians): the tilt of the panel's edge that the end lies on.</param>
/// <param name="Shaped">True if the end is more than one straight cut: rounded, or pointed.</param>
public sealed record EndCut(double Angle, double Bevel, bool Shaped)
{
    public static readonly EndCut Square = new(0, 0, false);

    public bool IsSquare => Math.Abs(Angle) < 1e-6 && Math.Abs(Bevel) < 1e-6 && !Shaped;
}

public enum HoleKind
{
    Pour,
    Vent,
    Pocket,
}

/// <summary>A hole drilled in a member: where on the face (mm, panel axes), how wide, how deep along its own axis (mm), and at what angle to the member (radians).</summary>
public sealed record MemberHole(HoleKind Kind, Vec2 At, double Diameter, double Depth, double Angle);

/// <summary>A part of a member's face that is cut back under a recess or a step; as deep as the member itself, it is a notch.</summary>
/// <param name="Depth">What is taken off the member (mm).</param>
public sealed record MemberLap(Outline Region, double Depth, bool FromOutside)
{
    /// <summary>What it is cut for: the opening whose recess it lies in, or the step.</summary>
    public string What { get; init; } = "";
}

/// <summary>One stick of a frame, as cut. All in the panel's own axes, on the outer side of the frame layer (mm, radians).</summary>
/// <param name="Key">What it is called within its panel, such as <c>vent.header</c> or <c>stud3</c>.</param>
/// <param name="Width">Across its wider face (mm), the blank to rip; less than the stick's own where it is ripped.</param>
/// <param name="Depth">Through the wall (mm), before laps.</param>
/// <param name="Below">How far its outer side lies below the panel's outside face (mm).</param>
/// <param name="LongPoint">Length over all, the blank to cut (mm).</param>
/// <param name="ShortPoint">Length that both sides of both its faces have in common (mm).</param>
/// <param name="RipBevel">Tilt of the long side that lies on a bevelled edge of the panel (radians); 0 if square.</param>
public sealed record Member(
    string PartMark, string Key, PlacedPanel Panel, MemberRole Role, StickMaterial Stick, Segment CentreLine, double Width, double Depth, double Below,
    double LongPoint, double ShortPoint, EndCut Start, EndCut End, double RipBevel, Outline Outline)
{
    public ImmutableArray<MemberLap> Laps { get; init; } = [];

    public ImmutableArray<MemberHole> Holes { get; init; } = [];

    /// <summary>What rounding the panel's edges over takes off it (mm3).</summary>
    public double RoundedOff { get; init; }

    /// <summary>The opening or zone that it frames, or null.</summary>
    public string? Around { get; init; }

    /// <summary>True if its width is less than the stick's.</summary>
    public bool IsRipped { get; init; }

    /// <summary>True if it fills a bay too narrow to foam.</summary>
    public bool FillsBay { get; init; }

    /// <summary>What is cut off its sides, each once: "notched for rabbet", "lapped 1/8 in from outside for recess of vent".</summary>
    public IEnumerable<string> Cuts(Func<double, string> length) =>
        Laps.Select(l => l.Depth >= Depth - 0.01 ? $"notched for {l.What}" : $"lapped {length(l.Depth)} from {(l.FromOutside ? "outside" : "inside")} for {l.What}").Distinct();

    public double Area => Outline.Area();

    /// <summary>Solid wood or metal (mm3) with bevels, laps and roundings, before holes. For a hollow stick in proportion to its section.</summary>
    public double Volume => (Solids.Volume(Outline, Depth) - Laps.Sum(l => l.Region.Area() * l.Depth) - RoundedOff) * (Stick.SectionArea / (Stick.Thickness * Stick.Width));

    public override string ToString() => PartMark;
}

public enum MeetingKind
{
    /// <summary>The end of the first stands against the side of the second.</summary>
    Butt,

    /// <summary>Both are cut at an angle and meet at their ends.</summary>
    Mitre,

    /// <summary>They lie side by side.</summary>
    Side,
}

/// <summary>Where two members touch, and what holds them.</summary>
/// <param name="Length">Of the line along which they touch, on the face (mm).</param>
/// <param name="Count">Screws that are asked for; 0 if nothing is stated.</param>
public sealed record Meeting(Member First, Member Second, MeetingKind Kind, Vec2 At, double Length, Material? Screw, int Count, Material? Glue)
{
    /// <summary>The pocket that is drilled for each screw, or null if it takes none.</summary>
    public Pocket? Pocket { get; init; }

    /// <summary>Out of the side that looks into a bay, where pockets are bored from a side.</summary>
    public Vec2 Open { get; init; }

    /// <summary>Where its pockets are begun on the face of the first member; one that would break out of it, or into one from its other end, is left out.</summary>
    public ImmutableArray<PocketPlace> Pockets { get; init; } = [];

    /// <summary>Screws that are driven: without a pocket there is none to drive.</summary>
    public int Driven => Pocket is null ? Count : Pockets.Length;

    /// <summary>Area of the glue line (mm2).</summary>
    public double Area => Length * Math.Min(First.Depth, Second.Depth);
}

/// <summary>A space between members, as it is filled.</summary>
/// <param name="Holes">Openings without members that go through it.</param>
/// <param name="Below">How far its outer side lies below the panel's outside face (mm).</param>
/// <param name="Fill">Board or poured foam; null if it stays empty.</param>
public sealed record Cavity(string PartMark, string Key, PlacedPanel Panel, Outline Outline, ImmutableArray<Outline> Holes, double Depth, double Below, Material? Fill)
{
    public double Area => Outline.Area() - Holes.Sum(h => h.Area());

    /// <summary>mm3, bevelled sides counted.</summary>
    public double Volume => Solids.Volume(Outline, Depth) - Holes.Sum(h => h.Area() * Depth);

    public override string ToString() => PartMark;
}

public enum FrameProblemKind
{
    DoesNotFit,
    BayFilled,
    HoleOutsideClear,
    NoRoomForMember,
    HolesTooClose,
    MemberCut,
    BevelTooSteep,
    HeaderTooDeep,
}

/// <summary>Something about a frame that did not go as it should; the checks tell it.</summary>
/// <param name="Subject">The opening, zone or member it is about.</param>
/// <param name="Has">mm that there are.</param>
/// <param name="Needs">mm that would do.</param>
/// <param name="At">Where on the face (mm).</param>
public sealed record FrameProblem(FrameProblemKind Kind, string Subject, double Has, double Needs, Vec2 At, string? Side = null, string? Other = null);

/// <summary>The frame of a panel, or of one of its zones.</summary>
/// <param name="Area">The frame layer's outline on its outer side (mm).</param>
/// <param name="Clear">Inside the rails and stiles; null if they do not fit.</param>
public sealed record PanelFrame(
    PlacedPanel Panel, PlacedZone? Zone, StackLayer Layer, FrameRules Rules, Outline Area, Outline? Clear, double Depth, double Below,
    ImmutableArray<Member> Members, ImmutableArray<Cavity> Cavities, ImmutableArray<Meeting> Meetings, ImmutableArray<FrameProblem> Problems)
{
    public string Subject => Zone is null ? Panel.Name : $"{Panel.Name}.{Zone.Name}";
}

/// <summary>The frames of a whole structure.</summary>
public sealed record Frames(ImmutableArray<PanelFrame> All)
{
    private readonly ILookup<string, PanelFrame> _byPanel = All.ToLookup(f => f.Panel.Name, StringComparer.Ordinal);

    public IEnumerable<PanelFrame> Of(PlacedPanel panel) => _byPanel[panel.Name];

    public IEnumerable<Member> Members => All.SelectMany(f => f.Members);

    public IEnumerable<Cavity> Cavities => All.SelectMany(f => f.Cavities);
}

internal static class Solids
{
    /// <summary>mm3 of what stands on an outline with bevelled edges, this deep. Areas change with the square of depth, so Simpson's rule is exact while no edge closes up.</summary>
    public static double Volume(Outline outline, double depth)
    {
        if (outline.Edges.All(e => e.Tilt == 0)) return outline.Area() * depth;
        double At(double d) => outline.AtDepth(d).Outline?.Area() ?? 0;
        return depth / 6 * (outline.Area() + 4 * At(depth / 2) + At(depth));
    }
}
