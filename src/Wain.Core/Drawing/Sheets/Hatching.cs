using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>Hatching of cut areas.</summary>
public static class Hatching
{
    /// <summary>Parallel narrow lines over an area, cut at its edges and at its holes (even-odd rule).</summary>
    /// <param name="area">Closed contours, paper mm.</param>
    /// <param name="angle">Radians; 45 degrees as a rule, turned for the next part so that the two are told apart.</param>
    /// <param name="spacing">mm on paper.</param>
    public static PathMark Lines(IEnumerable<Contour> area, double angle, double spacing, Pen? pen = null)
    {
        if (!(spacing > 0)) throw new ArgumentOutOfRangeException(nameof(spacing), spacing, "Hatching needs a spacing.");
        // In axes along the hatching each line is level, and the crossings on it pair up from left to right.
        var along = Vec2.FromAngle(angle);
        Vec2 Turn(Vec2 p) => new(p.Dot(along), along.Cross(p));
        Vec2 Back(double x, double y) => along * x + along.Left * y;

        var edges = area.SelectMany(contour =>
        {
            var points = contour.Flatten().Select(Turn).ToList();
            return points.Zip(points.Skip(1));
        }).ToList();
        var lines = ImmutableArray.CreateBuilder<Contour>();
        if (edges.Count > 0)
        {
            double low = edges.Min(e => e.First.Y), high = edges.Max(e => e.First.Y);
            for (double row = Math.Floor(low / spacing) + 0.5; row * spacing < high; row++)
            {
                double y = row * spacing;
                var crossings = edges.Where(e => e.First.Y > y != e.Second.Y > y)
                    .Select(e => e.First.X + (y - e.First.Y) / (e.Second.Y - e.First.Y) * (e.Second.X - e.First.X)).Order().ToList();
                for (int i = 0; i + 1 < crossings.Count; i += 2) lines.Add(Contour.Line(Back(crossings[i], y), Back(crossings[i + 1], y)));
            }
        }
        return new(lines.ToImmutable(), pen ?? Pen.Narrow);
    }
}
