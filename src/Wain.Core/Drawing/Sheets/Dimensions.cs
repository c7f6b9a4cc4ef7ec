using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>Single dimensions after ISO 129-1: narrow lines, closed arrowheads, the value above its line and readable from below or from the right.</summary>
public static class Dimensions
{
    private const double Overshoot = 2, Clear = 0.8;

    /// <summary>A length between two points, measured along the line from one to the other.</summary>
    /// <param name="from">Paper mm.</param>
    /// <param name="to">Paper mm.</param>
    /// <param name="offset">Of the dimension line from the points, to the left of the direction from-to; negative to the right.</param>
    public static DimensionLayout Linear(Vec2 from, Vec2 to, double offset, string label, double height = TextMark.Small)
    {
        var along = (to - from).Unit;
        var out_ = along.Left * Math.Sign(offset == 0 ? 1 : offset);
        double length = (to - from).Length, away = Math.Abs(offset);
        Vec2 a = from + out_ * away, b = to + out_ * away;
        var marks = ImmutableArray.CreateBuilder<Mark>();
        if (away > 0)
        {
            marks.Add(Arrows.Line(from + out_ * Clear, a + out_ * Overshoot));
            marks.Add(Arrows.Line(to + out_ * Clear, b + out_ * Overshoot));
        }

        double width = Lettering.Width(label, height);
        bool arrowsInside = length > 2.5 * Arrows.Length;
        bool textInside = length > width + 2 * Clear;
        double angle = Readable(along);
        var reading = Vec2.FromAngle(angle);
        // Without room between them the arrows stand outside and point inward, and the text on the line's extension.
        double before = arrowsInside ? 0 : Arrows.Length * 2, after = arrowsInside ? 0 : Arrows.Length * 2;
        var middle = (a + b) * 0.5;
        if (!textInside)
        {
            double reach = Math.Max(after, Arrows.Length * (arrowsInside ? 0 : 2)) + width + 2 * Clear;
            middle = b + along * (reach - width / 2 - Clear);
            after = reach;
        }
        marks.Add(Arrows.Line(a - along * before, b + along * after));
        marks.Add(Arrows.Head(a, arrowsInside ? along * -1 : along));
        marks.Add(Arrows.Head(b, arrowsInside ? along : along * -1));
        var text = new TextMark(middle + reading.Left * (height * 0.4), label, height, Anchor.Middle, angle);
        return Finish(marks, text);
    }

    /// <summary>The angle at a corner, from one direction to the other (turning left).</summary>
    /// <param name="vertex">Paper mm.</param>
    /// <param name="from">Direction of the first leg, radians.</param>
    /// <param name="to">Direction of the second, radians, greater than <paramref name="from"/>.</param>
    /// <param name="radius">Of the dimension arc, mm on paper.</param>
    public static DimensionLayout Angle(Vec2 vertex, double from, double to, double radius, string label, double height = TextMark.Small)
    {
        double arc = (to - from) * radius, middle = (from + to) / 2, width = Lettering.Width(label, height);
        bool inside = arc > 2.5 * Arrows.Length;
        var marks = ImmutableArray.CreateBuilder<Mark>();
        foreach (double leg in (double[])[from, to]) marks.Add(Arrows.Line(vertex, vertex + Vec2.FromAngle(leg) * (radius + Overshoot)));
        double spill = inside ? 0 : 2 * Arrows.Length / radius;
        marks.Add(new PathMark(Contour.Arc(vertex, radius, from - spill, to + spill), Pen.Narrow));
        double turn = inside ? Math.PI / 2 : -Math.PI / 2;
        // The head follows the chord under it, not the tangent at its tip.
        double lean = Arrows.Length / radius / 2 * (inside ? 1 : -1);
        marks.Add(Arrows.Head(vertex + Vec2.FromAngle(from) * radius, Vec2.FromAngle(from - turn + lean)));
        marks.Add(Arrows.Head(vertex + Vec2.FromAngle(to) * radius, Vec2.FromAngle(to + turn - lean)));
        // The text is level and outside the arc, far enough that its box is clear of it whatever the direction.
        var outward = Vec2.FromAngle(middle);
        double reach = Math.Abs(outward.X) * width / 2 + Math.Abs(outward.Y) * height / 2;
        var centre = vertex + outward * (radius + Clear + 0.4 + reach);
        var text = new TextMark(centre - new Vec2(0, height / 2), label, height, Anchor.Middle);
        marks.Add(text.Backing);
        return Finish(marks, text);
    }

    /// <summary>A radius: an arrow on the arc from inside, the value on a level shelf.</summary>
    /// <param name="centre">Paper mm.</param>
    /// <param name="radius">mm on paper.</param>
    /// <param name="angle">Where on the arc, radians.</param>
    /// <param name="label">Without the R, which is written before it.</param>
    public static DimensionLayout Radius(Vec2 centre, double radius, double angle, string label, double height = TextMark.Small)
    {
        string text = "R " + label;
        var tip = centre + Vec2.FromAngle(angle) * radius;
        // From outside the arc, because corners of panels are small on paper.
        var elbow = tip + Vec2.FromAngle(angle) * 6;
        bool right = Math.Cos(angle) >= 0;
        double width = Lettering.Width(text, height) + Clear;
        var end = elbow + new Vec2(right ? width : -width, 0);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        marks.Add(Arrows.Line(tip, elbow, end));
        marks.Add(Arrows.Head(tip, tip - elbow));
        return Finish(marks, new TextMark((right ? elbow : end) + new Vec2(right ? Clear : 0, height * 0.4), text, height));
    }

    private static DimensionLayout Finish(ImmutableArray<Mark>.Builder marks, TextMark text)
    {
        marks.Add(text);
        var all = marks.ToImmutable();
        return new(all, [new(text.Text, text.Bounds)], all.Aggregate(Box.Empty, (b, m) => b.Union(m.Bounds)));
    }

    /// <summary>The direction of the text along a line: never upside down, and upright text reads from the right.</summary>
    private static double Readable(Vec2 along)
    {
        double angle = Math.Atan2(along.Y, along.X);
        if (angle > Math.PI / 2 + 1e-9) angle -= Math.PI;
        if (angle <= -Math.PI / 2 + 1e-9) angle += Math.PI;
        return angle;
    }
}
