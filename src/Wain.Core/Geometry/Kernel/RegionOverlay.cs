using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>
/// Union, intersection and difference of areas. Edges are first cut at every place where they meet, then each piece is kept if the areas differ on its two
/// sides, then the kept pieces are linked into loops. Corners nearer than 8 nm are one corner and an edge that passes one within 1.5 nm is cut there, so that
/// shared edges are shared to the bit: a boundary moves by a few nanometres at most, far below a micrometre.
/// </summary>
internal static class RegionOverlay
{
    // 2^-20 mm = 1 nm; a power of two, so that rounding to it is exact in a double.
    private const double Grid = 1.0 / (1 << 20);

    // Every corner on the grid, none nearer to another than eight steps: edges that leave a corner almost together can't close on each other step by step.
    private sealed class Corners
    {
        private const double Apart = 8 * Grid;
        private readonly Dictionary<(long, long), List<Vec2>> _cells = [];

        public Vec2 At(Vec2 p)
        {
            var (x, y) = ((long)Math.Floor(p.X / Apart), (long)Math.Floor(p.Y / Apart));
            Vec2? nearest = null;
            for (var i = x - 1; i <= x + 1; i++)
                for (var j = y - 1; j <= y + 1; j++)
                    if (_cells.TryGetValue((i, j), out var known))
                        foreach (var q in known)
                            if (q.DistanceTo(p) <= (nearest?.DistanceTo(p) ?? Apart)) nearest = q;
            if (nearest is { } found) return found;
            var snapped = new Vec2(Math.Round(p.X / Grid) * Grid, Math.Round(p.Y / Grid) * Grid);
            var key = ((long)Math.Floor(snapped.X / Apart), (long)Math.Floor(snapped.Y / Apart));
            if (!_cells.TryGetValue(key, out var cell)) _cells[key] = cell = [];
            cell.Add(snapped);
            return snapped;
        }
    }

    private readonly record struct Piece(Vec2 From, Vec2 To)
    {
        public Piece Forward => From.X < To.X || From.X == To.X && From.Y < To.Y ? this : new(To, From);
    }

    public static Region Combine(Region a, Region b, Func<bool, bool, bool> keep, double sagitta)
    {
        var (edges, corners) = (new List<Piece>(), new Corners());
        var ofA = Edges(a, sagitta, edges, corners);
        var ofB = Edges(b, sagitta, edges, corners);
        var cuts = CutAtMeetings(edges, ofA + ofB, corners);
        // Each undirected piece with the number of times that it bounds either area: an even number bounds nothing.
        var counts = new Dictionary<Piece, (int A, int B)>();
        foreach (var (piece, source) in cuts)
        {
            var (na, nb) = counts.GetValueOrDefault(piece.Forward);
            counts[piece.Forward] = source < ofA ? (na + 1, nb) : (na, nb + 1);
        }
        var pieces = counts.OrderBy(c => c.Key.From.X).ThenBy(c => c.Key.From.Y).ThenBy(c => c.Key.To.X).ThenBy(c => c.Key.To.Y).ToArray();
        return Link(Kept(pieces, keep));
    }

    private static int Edges(Region region, double sagitta, List<Piece> edges, Corners corners)
    {
        var before = edges.Count;
        foreach (var loop in region.Loops)
        {
            var flat = loop.Flattened(sagitta);
            for (var i = 0; i < flat.Count; i++)
            {
                var piece = new Piece(corners.At(flat.Edges[i].Start), corners.At(flat.Edges[flat.Next(i)].Start));
                if (piece.From != piece.To) edges.Add(piece);
            }
        }
        return edges.Count - before;
    }

    // Cutting moves an edge by up to a grid step, so that it may meet others that it passed before: repeat until nothing is cut.
    private static List<(Piece Piece, int Source)> CutAtMeetings(List<Piece> edges, int count, Corners corners)
    {
        var open = Enumerable.Range(0, count).Select(i => (Piece: edges[i], Source: i)).ToList();
        for (var round = 0; round < 32; round++)
        {
            var points = new HashSet<Vec2>[open.Count];
            var any = false;
            var order = Enumerable.Range(0, open.Count).OrderBy(i => open[i].Piece.Forward.From.X).ToArray();
            for (var k = 0; k < order.Length; k++)
            {
                var p = open[order[k]].Piece;
                var right = p.Forward.To.X + 2 * Grid;
                for (var l = k + 1; l < order.Length && open[order[l]].Piece.Forward.From.X <= right; l++)
                {
                    var q = open[order[l]].Piece;
                    if (Math.Max(p.From.Y, p.To.Y) + 2 * Grid < Math.Min(q.From.Y, q.To.Y) || Math.Max(q.From.Y, q.To.Y) + 2 * Grid < Math.Min(p.From.Y, p.To.Y)) continue;
                    any |= On(order[k], p, q.From) | On(order[k], p, q.To) | On(order[l], q, p.From) | On(order[l], q, p.To);
                    if (Cross(p, q) is { } crossing && corners.At(crossing) is var at) any |= Add(order[k], p, at) | Add(order[l], q, at);
                }
            }
            if (!any) return open;
            var next = new List<(Piece, int)>(open.Count * 2);
            for (var i = 0; i < open.Count; i++)
            {
                var (piece, source) = open[i];
                if (points[i] is null) { next.Add(open[i]); continue; }
                var at = piece.From;
                foreach (var p in points[i].OrderBy(p => (p - piece.From).Dot(piece.To - piece.From)).Append(piece.To))
                {
                    if (p != at) next.Add((new(at, p), source));
                    at = p;
                }
            }
            open = next;

            bool Add(int i, Piece piece, Vec2 at) => at != piece.From && at != piece.To && (points[i] ??= []).Add(at);

            bool On(int i, Piece piece, Vec2 at)
            {
                var d = piece.To - piece.From;
                var t = (at - piece.From).Dot(d);
                return t > 0 && t < d.LengthSquared && Math.Abs(d.Cross(at - piece.From)) <= 1.5 * Grid * d.Length && Add(i, piece, at);
            }
        }
        return open;
    }

    // A crossing inside both pieces.
    private static Vec2? Cross(Piece p, Piece q)
    {
        var (d, e, w) = (p.To - p.From, q.To - q.From, q.From - p.From);
        var cross = d.Cross(e);
        if (cross == 0) return null;
        var (t, u) = (w.Cross(e) / cross, w.Cross(d) / cross);
        return t is > 0 and < 1 && u is > 0 and < 1 ? p.From + d * t : null;
    }

    // The pieces that bound the result, each with the result on its left.
    private static List<Piece> Kept(KeyValuePair<Piece, (int A, int B)>[] pieces, Func<bool, bool, bool> keep)
    {
        var kept = new List<Piece>();
        // Buckets along both axes keep the count of what lies below (or left of) a piece from looking at all pieces.
        var (below, beside) = (new Strips(pieces, horizontal: true), new Strips(pieces, horizontal: false));
        foreach (var (piece, count) in pieces)
        {
            var d = piece.To - piece.From;
            var flat = Math.Abs(d.X) >= Math.Abs(d.Y);
            var (inA, inB) = (flat ? below : beside).Under(piece);
            var (overA, overB) = (inA ^ (count.A & 1) != 0, inB ^ (count.B & 1) != 0);
            var (under, over) = (keep(inA, inB), keep(overA, overB));
            if (under == over) continue;
            // Forward pieces run to +x: what lies above is on the left. A steep one is looked at from its left side in x, which is the left when it runs up.
            var overIsLeft = flat || d.Y < 0;
            kept.Add(over == overIsLeft ? piece : new(piece.To, piece.From));
        }
        return kept;
    }

    private sealed class Strips
    {
        private readonly bool _horizontal;
        private readonly double _min, _width;
        private readonly List<KeyValuePair<Piece, (int A, int B)>>[] _strips;

        public Strips(KeyValuePair<Piece, (int A, int B)>[] pieces, bool horizontal)
        {
            _horizontal = horizontal;
            _strips = [.. Enumerable.Range(0, Math.Max(1, pieces.Length)).Select(_ => new List<KeyValuePair<Piece, (int A, int B)>>())];
            if (pieces.Length == 0) return;
            _min = pieces.Min(p => Math.Min(Along(p.Key.From), Along(p.Key.To)));
            _width = Math.Max(Grid, (pieces.Max(p => Math.Max(Along(p.Key.From), Along(p.Key.To))) - _min) / _strips.Length);
            foreach (var piece in pieces)
            {
                var (a, b) = (Along(piece.Key.From), Along(piece.Key.To));
                for (var i = Strip(Math.Min(a, b)); i <= Strip(Math.Max(a, b)); i++) _strips[i].Add(piece);
            }
        }

        private double Along(Vec2 p) => _horizontal ? p.X : p.Y;
        private double Across(Vec2 p) => _horizontal ? p.Y : p.X;
        private int Strip(double along) => Math.Clamp((int)((along - _min) / _width), 0, _strips.Length - 1);

        /// <summary>Whether each area lies just under a piece's middle, by counting the boundaries further under.</summary>
        public (bool A, bool B) Under(Piece piece)
        {
            var middle = piece.From.Lerp(piece.To, 0.5);
            var (along, across) = (Along(middle), Across(middle));
            int a = 0, b = 0;
            foreach (var (other, count) in _strips[Strip(along)])
            {
                if (other == piece) continue;
                var (p, q) = (Along(other.From), Along(other.To));
                if (p > along == q > along) continue;
                if (Across(other.From) + (Across(other.To) - Across(other.From)) * ((along - p) / (q - p)) >= across) continue;
                (a, b) = (a + count.A, b + count.B);
            }
            return ((a & 1) != 0, (b & 1) != 0);
        }
    }

    private static Region Link(List<Piece> pieces)
    {
        var leaving = new Dictionary<Vec2, List<int>>();
        for (var i = 0; i < pieces.Count; i++)
        {
            if (!leaving.TryGetValue(pieces[i].From, out var list)) leaving[pieces[i].From] = list = [];
            list.Add(i);
        }
        var used = new bool[pieces.Count];
        var loops = new List<Outline>();
        for (var first = 0; first < pieces.Count; first++)
        {
            if (used[first]) continue;
            var corners = new List<Vec2>();
            for (var at = first; at >= 0 && !used[at]; at = Next(pieces[at]))
            {
                used[at] = true;
                // A place met twice closes a loop of its own: a hole that touches its outline at a corner is still a hole.
                var met = corners.IndexOf(pieces[at].From);
                if (met >= 0)
                {
                    if (Straightened(corners[met..]) is { } inner) loops.Add(inner);
                    corners.RemoveRange(met, corners.Count - met);
                }
                corners.Add(pieces[at].From);
            }
            if (Straightened(corners) is { } loop) loops.Add(loop);
        }
        var outers = loops.Where(l => l.SignedArea() > 0).ToList();
        var holes = outers.Select(_ => ImmutableArray.CreateBuilder<Outline>()).ToArray();
        foreach (var hole in loops.Where(l => l.SignedArea() < 0))
        {
            // The smallest outline round it. A point well inside the hole decides: its edge may lie along the outline's own.
            var (p, area) = (Inside(hole), -hole.SignedArea());
            var owner = Enumerable.Range(0, outers.Count).Where(i => outers[i].SignedArea() > area && outers[i].Contains(p, 0)).OrderBy(i => outers[i].Area()).DefaultIfEmpty(-1).First();
            if (owner >= 0) holes[owner].Add(hole.Reversed);
        }
        return new([.. outers.Select((o, i) => new RegionPart(o, holes[i].ToImmutable()))]);

        // Where loops touch at a corner the sharpest left turn keeps them apart.
        int Next(Piece piece)
        {
            if (!leaving.TryGetValue(piece.To, out var list)) return -1;
            var back = piece.From - piece.To;
            var (best, angle) = (-1, double.PositiveInfinity);
            foreach (var i in list)
            {
                var d = pieces[i].To - pieces[i].From;
                // Clockwise from the way back: the least angle hugs the area on the left.
                var turn = Math.Atan2(d.Cross(back), d.Dot(back));
                if (turn <= 0) turn += 2 * Math.PI;
                if (turn < angle) (best, angle) = (i, turn);
            }
            return best;
        }
    }

    // The middle of the widest stretch inside, on the level half-way up the tallest band between corners.
    private static Vec2 Inside(Outline loop)
    {
        var levels = loop.Corners.Select(c => c.Y).Order().ToArray();
        var k = Enumerable.Range(1, levels.Length - 1).MaxBy(i => levels[i] - levels[i - 1]);
        var y = (levels[k - 1] + levels[k]) / 2;
        var xs = loop.Segments.Where(s => s.From.Y > y != s.To.Y > y).Select(s => s.From.X + (y - s.From.Y) / (s.To.Y - s.From.Y) * (s.To.X - s.From.X)).Order().ToArray();
        var widest = Enumerable.Range(0, xs.Length / 2).MaxBy(i => xs[2 * i + 1] - xs[2 * i]);
        return new((xs[2 * widest] + xs[2 * widest + 1]) / 2, y);
    }

    // Without corners in the middle of a straight run; null when nothing is left. Each is judged against the neighbours that it has by then: of two corners
    // a hair apart, each is straight with the other, and only one may go.
    private static Outline? Straightened(List<Vec2> corners)
    {
        var kept = new List<Vec2>(corners);
        for (var i = kept.Count - 1; i >= 0 && kept.Count >= 3; i--)
        {
            var (before, here, after) = (kept[(i + kept.Count - 1) % kept.Count], kept[i], kept[(i + 1) % kept.Count]);
            var (a, b) = (here - before, after - here);
            if (Math.Abs(a.Cross(b)) <= 2 * Grid * Math.Max(a.Length, b.Length) && a.Dot(b) >= 0) kept.RemoveAt(i);
        }
        return kept.Count < 3 ? null : Outline.Polygon(kept);
    }
}
