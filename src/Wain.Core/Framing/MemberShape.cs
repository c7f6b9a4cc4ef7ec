using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>What a saw needs to know of a member: measured from its outline along its run (mm, radians).</summary>
internal sealed record MemberShape(Segment CentreLine, double Width, double LongPoint, double ShortPoint, EndCut Start, EndCut End, double RipBevel)
{
    // An end that leaves its straight line by more than this is shaped, not cut.
    private const double StraightWithin = 0.5;

    /// <param name="depth">Through the frame, for what bevelled edges add to the length.</param>
    public static MemberShape Of(Outline outline, Vec2 along, double depth = 0)
    {
        var left = along.Left;
        var flat = outline.Flattened(0.01);
        var face = Sides.Of(flat, along);
        var (low, high) = (face.Low, face.High);
        var (leftFrom, leftTo) = face.Left;
        var (rightFrom, rightTo) = face.Right;
        double across = high - low, hair = Hair(across);
        var (from, to) = Extent(flat, along);
        double tiltStart = 0, tiltEnd = 0, rip = 0;
        for (int i = 0; i < outline.Count; i++)
        {
            if (outline.Edges[i].Tilt == 0) continue;
            var s = outline.Segment(i);
            if (Math.Abs(s.Chord.Unit.Dot(along)) > 0.94) rip = outline.Edges[i].Tilt;
            else if (s.At(0.5).Dot(along) > (from + to) / 2) tiltEnd = outline.Edges[i].Tilt;
            else tiltStart = outline.Edges[i].Tilt;
        }
        // Over all and in common of both its faces: a bevel makes one of them the longer, or the wider.
        double longPoint = to - from, width = across;
        double commonFrom = Math.Max(leftFrom, rightFrom), commonTo = Math.Min(leftTo, rightTo);
        if (depth > 0 && outline.Edges.Any(e => e.Tilt != 0) && outline.AtDepth(depth).Outline is { } deep)
        {
            var below = deep.Flattened(0.01);
            var (deepFrom, deepTo) = Extent(below, along);
            longPoint = Math.Max(to, deepTo) - Math.Min(from, deepFrom);
            var inner = Sides.Of(below, along);
            width = Math.Max(high, inner.High) - Math.Min(low, inner.Low);
            commonFrom = Math.Max(commonFrom, Math.Max(inner.Left.From, inner.Right.From));
            commonTo = Math.Min(commonTo, Math.Min(inner.Left.To, inner.Right.To));
        }
        double shortPoint = Math.Max(0, commonTo - commonFrom);
        double middle = (low + high) / 2;
        Vec2 Point(double t) => along * t + left * middle;
        return new MemberShape(
            new Segment(Point((leftFrom + rightFrom) / 2), Point((leftTo + rightTo) / 2)), width, longPoint, shortPoint,
            new EndCut(Clean(Math.Atan2(rightFrom - leftFrom, across - 2 * hair)), tiltStart, IsShaped(flat, along, low, high, t => t.From, leftFrom, rightFrom)),
            new EndCut(Clean(Math.Atan2(leftTo - rightTo, across - 2 * hair)), tiltEnd, IsShaped(flat, along, low, high, t => t.To, leftTo, rightTo)), rip);
    }

    /// <summary>One face of a member: how far it lies to the left of the origin, and where its two long sides begin and end along its run.</summary>
    private readonly record struct Sides(double Low, double High, (double From, double To) Left, (double From, double To) Right)
    {
        public static Sides Of(Outline flat, Vec2 along)
        {
            double low = double.PositiveInfinity, high = double.NegativeInfinity;
            foreach (var c in flat.Corners) (low, high) = (Math.Min(low, c.Dot(along.Left)), Math.Max(high, c.Dot(along.Left)));
            double hair = Hair(high - low);
            return new(low, high, Crossing(flat, along, high - hair), Crossing(flat, along, low + hair));
        }
    }

    private static double Hair(double across) => 1e-6 * Math.Max(1, across / 100);

    private static double Clean(double angle) => Math.Abs(angle) < 1e-7 ? 0 : angle;

    private static bool IsShaped(Outline flat, Vec2 along, double low, double high, Func<(double From, double To), double> end, double atLeft, double atRight)
    {
        foreach (double share in (ReadOnlySpan<double>)[0.1, 0.25, 0.5, 0.75, 0.9])
            if (Math.Abs(end(Crossing(flat, along, low + share * (high - low))) - (atRight + share * (atLeft - atRight))) > StraightWithin) return true;
        return false;
    }

    private static (double From, double To) Extent(Outline flat, Vec2 along)
    {
        double from = double.PositiveInfinity, to = double.NegativeInfinity;
        foreach (var c in flat.Corners) (from, to) = (Math.Min(from, c.Dot(along)), Math.Max(to, c.Dot(along)));
        return (from, to);
    }

    // Where a line along the run, this far to the left of the origin, enters and leaves.
    private static (double From, double To) Crossing(Outline flat, Vec2 along, double left)
    {
        double from = double.PositiveInfinity, to = double.NegativeInfinity;
        var side = along.Left;
        for (int i = 0; i < flat.Count; i++)
        {
            var s = flat.Segment(i);
            double a = s.From.Dot(side) - left, b = s.To.Dot(side) - left;
            if (a > 0 == b > 0) continue;
            double t = (s.From + s.Chord * (a / (a - b))).Dot(along);
            (from, to) = (Math.Min(from, t), Math.Max(to, t));
        }
        return from <= to ? (from, to) : (0, 0);
    }
}
