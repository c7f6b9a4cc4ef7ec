using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>Names of the parts of a view: within the part where the name fits on what is seen of it, else as a note with a leader to it.</summary>
public static class Labelling
{
    private const int Grid = 14;
    private const double Air = 0.8;

    /// <param name="painted">In paint order, paper mm.</param>
    /// <param name="layOut">Lays the notes out. Where a leader would strike a name, the name moves, or becomes a note itself.</param>
    /// <param name="named">Parts that have their name elsewhere.</param>
    /// <returns>Names to draw in place, and the notes as laid out. Parts of which nothing is seen get neither.</returns>
    public static (ImmutableArray<TextMark> Names, DimensionLayout Notes) Place(IReadOnlyList<SeenFace> painted, Func<IReadOnlyCollection<Note>, DimensionLayout> layOut, double height = TextMark.Small, IReadOnlySet<string>? named = null)
    {
        var parts = painted.Select((f, i) => (Face: f, Order: i)).Where(p => !p.Face.EdgeOn && p.Face.Face.Name.Length > 0 && named?.Contains(p.Face.Face.Name) != true)
            .GroupBy(p => p.Face.Face.Name, StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => new Part(g.Key, [.. g.SelectMany(p => Spots(painted, p.Order)).OrderByDescending(s => s.Clearance)])).Where(p => p.Spots.Length > 0).ToList();
        var inside = parts.Where(p => p.Fits(height, []) is not null).ToList();
        while (true)
        {
            var notes = layOut([.. parts.Except(inside).Select(p => new Note(p.Seen, [p.Name]))]);
            var leaders = notes.Marks.OfType<PathMark>().Where(m => m.Tone is null).SelectMany(m => m.Contours).SelectMany(Straight).ToArray();
            var places = inside.Select(p => (Part: p, At: p.Fits(height, leaders))).ToList();
            // Each round sends at least one more name to the margin, so the rounds end.
            if (places.All(p => p.At is not null)) return ([.. places.Select(p => new TextMark(p.At!.Value - new Vec2(0, height / 2), p.Part.Name, height, Anchor.Middle))], notes);
            inside = [.. places.Where(p => p.At is not null).Select(p => p.Part)];
        }
    }

    /// <summary>A place where a part is seen, how far it is from the next line, and the lines near it.</summary>
    private sealed record Spot(Vec2 At, double Clearance, (Vec2 A, Vec2 B)[] Lines);

    /// <param name="Spots">The roomiest first.</param>
    private sealed record Part(string Name, ImmutableArray<Spot> Spots)
    {
        public Vec2 Seen => Spots[0].At;

        /// <summary>The middle of the roomiest place for the name that no line runs through; null if there is none.</summary>
        public Vec2? Fits(double height, (Vec2 A, Vec2 B)[] leaders)
        {
            double width = Lettering.Width(Name, height) + 2 * Air, tall = height * (1 + Lettering.Descent) + 2 * Air;
            foreach (var spot in Spots)
            {
                var box = new Box(spot.At.X - width / 2, spot.At.Y - tall / 2, spot.At.X + width / 2, spot.At.Y + tall / 2);
                if (!box.IsCrossedBy(spot.Lines) && !box.IsCrossedBy(leaders)) return spot.At;
            }
            return null;
        }
    }

    /// <summary>Asked of every named face, with thousands painted after it: so plain loops, and nothing made for a place that is hidden.</summary>
    private static List<Spot> Spots(IReadOnlyList<SeenFace> painted, int order)
    {
        var face = painted[order];
        var over = new List<SeenFace>();
        for (int i = order + 1; i < painted.Count; i++)
        {
            if (painted[i].Bounds.Overlaps(face.Bounds)) over.Add(painted[i]);
        }
        var found = new List<Spot>();
        // Its own sides stand between a place in it and all that is outside its bounds.
        (Vec2 A, Vec2 B)[]? lines = null;
        foreach (var p in Candidates(face))
        {
            if (!face.Covers(p) || IsCovered(over, p)) continue;
            lines ??= [.. over.Prepend(face).SelectMany(f => f.Sides).Where(s => Box.Of(s.A, s.B).Meets(face.Bounds)).Distinct()];
            found.Add(new Spot(p, Clearance(p, lines), lines));
        }
        return found;
    }

    private static bool IsCovered(List<SeenFace> over, Vec2 p)
    {
        foreach (var face in over) if (face.Covers(p)) return true;
        return false;
    }

    private static IEnumerable<(Vec2 A, Vec2 B)> Straight(Contour contour) => contour.Flatten() is var points ? points.Zip(points.Skip(1)) : [];

    /// <summary>A grid over the face, its centre first, so that a plain panel carries its name in the middle.</summary>
    private static IEnumerable<Vec2> Candidates(SeenFace face)
    {
        var b = face.Bounds;
        yield return b.Centre;
        for (int row = 0; row < Grid; row++)
        {
            for (int column = 0; column < Grid; column++)
            {
                yield return new(b.Left + b.Width * (column + 0.5) / Grid, b.Bottom + b.Height * (row + 0.5) / Grid);
            }
        }
    }

    /// <summary>To the nearest line. Asked for some hundred places of each face, so it is kept to plain arithmetic.</summary>
    private static double Clearance(Vec2 p, (Vec2 A, Vec2 B)[] lines)
    {
        double least = double.PositiveInfinity;
        foreach (var (a, b) in lines)
        {
            Vec2 along = b - a, to = p - a;
            double square = along.LengthSquared;
            double t = square == 0 ? 0 : Math.Clamp(to.Dot(along) / square, 0, 1);
            least = Math.Min(least, (to - along * t).LengthSquared);
        }
        return Math.Sqrt(least);
    }
}
