using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>A rail or stile as an area, before it becomes a member. In the axes of the layout.</summary>
internal sealed record PerimeterPiece(Outline Outline, Vec2 Along, bool IsRail, string? Edge, int Source, int Layer);

/// <summary>Rails and stiles round an outline, and the clear space inside them; null clear space if they do not fit.</summary>
/// <param name="FitsTo">Width (mm) of the members that would still fit.</param>
internal sealed record PerimeterResult(ImmutableArray<PerimeterPiece> Pieces, Outline? Clear, double FitsTo);

/// <summary>
/// Lays members round any simple outline of straight and arc edges. Edges too short to hold a member of their own (chamfers, small arcs) are left to their
/// neighbours, whose ends are cut to them. Larger arcs get several straight members with mitred ends, sawn to the arc outside.
/// </summary>
internal static class Perimeter
{
    // Two members that turn by less than this are mitred: a square cut there would be all point.
    private const double MitreBelow = 30 * Math.PI / 180;

    // Where an arc runs on from a straight side, its first member turns off by half of what it spans.
    private const double MitreBelowAtArc = 46 * Math.PI / 180;

    // At an arc no more than this share of the stick is sawn away.
    private const double ArcShare = 0.25;

    private sealed record Side(Vec2 From, Vec2 To, double Inner, bool IsRail, bool IsArc, bool BowsOut, int Source, int Layers)
    {
        public Vec2 Along => (To - From).Unit;
        public HalfPlane Outer => HalfPlane.LeftOf(From, Along);
        public HalfPlane InnerLine => Outer.Moved(Inner);
        public double Turn(Side next) => Math.Atan2(Along.Cross(next.Along), Along.Dot(next.Along));
    }

    /// <param name="width">Of the members on the face (mm), for each edge of the outline: what stays of it on the frame's outer side.</param>
    /// <param name="layers">1, or 2 for an edge with two members.</param>
    public static PerimeterResult Build(Outline area, Func<int, double> width, Func<int, int> layers, bool railsThrough)
    {
        var offset = area.Offset(i => -width(i) * layers(i));
        if (offset.Outline is null)
        {
            double widest = Enumerable.Range(0, area.Count).Max(i => width(i) * layers(i));
            return new([], null, offset.Part * widest);
        }
        var sides = offset.Sources.Where(i => i >= 0).SelectMany(i => SidesOf(area, i, width(i), layers(i))).ToList();
        if (sides.Count < 3) return new([], null, 0);
        var corners = Enumerable.Range(0, sides.Count).Select(k => CornerOf(sides[k], sides[(k + 1) % sides.Count])).ToList();
        var clear = Outline.Polygon(corners.Select(c => c.Inner));
        if (clear.SignedArea() <= 1 || clear.Crossings().Length > 0) return new([], null, 0);
        var pieces = ImmutableArray.CreateBuilder<PerimeterPiece>();
        for (int k = 0; k < sides.Count; k++)
        {
            var side = sides[k];
            List<HalfPlane> cuts = [side.InnerLine.Flipped];
            if (!side.BowsOut) cuts.Add(side.Outer);
            cuts.AddRange(EndCuts(side, sides[(k + 1) % sides.Count], corners[k], railsThrough, first: true));
            int before = (k + sides.Count - 1) % sides.Count;
            cuts.AddRange(EndCuts(sides[before], side, corners[before], railsThrough, first: false));
            var body = area.Clip([.. cuts]).MaxBy(o => o.Area());
            if (body is null) continue;
            for (int layer = 0; layer < side.Layers; layer++)
            {
                double each = side.Inner / side.Layers;
                var strip = side.Layers == 1 ? [body] : body.Clip(layer == 0 && side.BowsOut ? side.Outer.Moved(-1e6) : side.Outer.Moved(layer * each), side.Outer.Moved((layer + 1) * each).Flipped);
                foreach (var outline in strip) pieces.Add(new(outline, side.Along, side.IsRail, area.Edges[side.Source].Name, side.Source, layer));
            }
        }
        return new(pieces.ToImmutable(), clear, double.PositiveInfinity);
    }

    // Rails lie nearer to the row of studs than to their run.
    private static bool Rail(Vec2 along) => Math.Abs(along.X) >= Math.Abs(along.Y) - 1e-9;

    private static IEnumerable<Side> SidesOf(Outline area, int i, double width, int layers)
    {
        var s = area.Segment(i);
        if (!s.IsArc)
        {
            yield return new Side(s.From, s.To, width * layers, Rail(s.Chord.Unit), false, false, i, layers);
            yield break;
        }
        // Sagitta over angle w is r (1 - cos(w / 2)).
        double widest = 2 * Math.Acos(Math.Max(0, 1 - ArcShare * width / s.Radius));
        int count = Math.Clamp((int)Math.Ceiling(Math.Abs(s.Sweep) / widest), 1, 1000);
        double sagitta = s.Radius * (1 - Math.Cos(s.Sweep / count / 2));
        for (int k = 0; k < count; k++)
        {
            var (from, to) = (s.At((double)k / count), s.At((double)(k + 1) / count));
            bool bowsOut = s.Sweep > 0;
            yield return new Side(from, to, width * layers - (bowsOut ? sagitta : 0), Rail((to - from).Unit), true, bowsOut, i, layers);
        }
    }

    private static (Vec2 Outer, Vec2 Inner) CornerOf(Side a, Side b)
    {
        // Nearly in one line: the lines meet nowhere near, so the corner stands square to both.
        if (Math.Abs(a.Along.Cross(b.Along)) < 1e-7)
        {
            var middle = a.To.Lerp(b.From, 0.5);
            return (middle, middle + (a.Along + b.Along).Unit.Left * ((a.Inner + b.Inner) / 2));
        }
        var outer = SegmentPair.LineLine(a.From, a.Along, b.From, b.Along)!.Value;
        var inner = SegmentPair.LineLine(a.InnerLine.Point, a.Along, b.InnerLine.Point, b.Along)!.Value;
        return (outer, inner);
    }

    // How the corner from a to b is cut: the half-planes that one of the two keeps.
    private static IEnumerable<HalfPlane> EndCuts(Side a, Side b, (Vec2 Outer, Vec2 Inner) corner, bool railsThrough, bool first)
    {
        double turn = a.Turn(b);
        bool firstRuns = a.IsRail == railsThrough;
        var (through, stops) = firstRuns ? (a, b) : (b, a);
        // The one that runs through takes this much of the other's side; a short side, such as a chamfer, has not that to give.
        double takes = 2 * through.Inner / Math.Abs(Math.Sin(turn));
        double mitreBelow = a.IsArc || b.IsArc ? MitreBelowAtArc : MitreBelow;
        if (Math.Abs(turn) < mitreBelow || a.IsRail == b.IsRail || a.Source == b.Source || (stops.To - stops.From).Length < takes)
        {
            var cut = HalfPlane.LeftOf(corner.Outer, corner.Inner - corner.Outer);
            return [first ? cut : cut.Flipped];
        }
        bool isThrough = first == firstRuns;
        // At an inward corner the one that runs through goes on past the corner and the other begins behind it.
        if (turn < 0) return [isThrough ? stops.InnerLine.Flipped : through.Outer.Flipped];
        return isThrough ? stops.BowsOut ? [] : [stops.Outer] : [through.InnerLine];
    }
}
