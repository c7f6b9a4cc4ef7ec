using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Framing;

/// <summary>A hole that members stand round, in the axes of the layout.</summary>
/// <param name="Trimmers">Members on each side that run along the studs.</param>
internal sealed record FramedHole(string Name, Box2 Box, int Trimmers, StickMaterial? Stick, double? Lintel, bool IsZone);

/// <summary>A member as an area, before it becomes one. In the axes of the layout.</summary>
/// <param name="Full">The width that it should have (mm).</param>
internal sealed record LaidMember(Outline Outline, Vec2 Along, MemberRole Role, string Key, double Full, StickMaterial Stick, string? Around = null, bool FillsBay = false);

/// <summary>
/// Lays studs, blocking and the members round openings into the clear space of a frame. Each member takes its area out of what is still free, in a fixed
/// order, so no two can overlap and what remains is the cavities.
/// </summary>
internal sealed class Layout
{
    // Thinner than this is not a stick any more (mm): it is left to the bay beside it.
    private const double LeastRip = 3;

    private readonly List<Outline> _free;
    private readonly double _width;
    private readonly StickMaterial _stick;
    private readonly Func<Vec2, string> _sideWord;

    public Layout(Outline clear, StickMaterial stick, double width, Func<Vec2, string> sideWord)
    {
        _free = [clear];
        (_stick, _width, _sideWord) = (stick, width, sideWord);
    }

    public List<LaidMember> Members { get; } = [];

    public List<FrameProblem> Problems { get; } = [];

    public IReadOnlyList<Outline> Free => _free;

    /// <summary>
    /// Members round each hole, and the holes themselves. The outermost on each side run on to the next member above and below (kings); further ones stop under
    /// the header, which sits on them; the sill stands between the innermost. Where rails are nearer than a member is wide, they do its work.
    /// </summary>
    public void Frame(IReadOnlyList<FramedHole> holes, StickMaterial? headerStick, double headerWidth, int headerCount)
    {
        foreach (var hole in holes)
        {
            var others = holes.Where(h => !ReferenceEquals(h, hole)).Select(h => h.Box.Sides()).ToList();
            FrameOne(hole, others, headerStick, headerWidth, hole.IsZone ? 1 : headerCount);
        }
    }

    private void FrameOne(FramedHole hole, List<HalfPlane[]> others, StickMaterial? headerStick, double headerWidth, int headerCount)
    {
        var stick = hole.Stick ?? _stick;
        double w = _width, jacks = (hole.Trimmers - 1) * w;
        var (min, max) = (hole.Box.Min, hole.Box.Max);
        void Upright(double edge, int side, string suffix, bool told)
        {
            HalfPlane[] column = [new(new(Math.Min(edge, edge + side * w), 0), new(1, 0)), new(new(Math.Max(edge, edge + side * w), 0), new(-1, 0))];
            Place(column, new(0, 1), hole, new(side, 0), suffix, w, stick, others, o => Beside(o, hole.Box), told);
        }
        void Across(double low, double high, double reach, int side, string suffix, StickMaterial of)
        {
            var box = new Box2(new(min.X - reach, low), new(max.X + reach, high));
            Place(box.Sides(), new(1, 0), hole, new(0, side), suffix, high - low, of, others, _ => true, true);
        }
        Upright(min.X - jacks, -1, "", true);
        Upright(max.X + jacks, 1, "", true);
        double top = max.Y, tall = hole.Lintel ?? (headerStick is null ? w : headerWidth);
        for (int k = 0; k < headerCount; k++, top += tall) Across(top, top + tall, jacks, 1, k == 0 ? "" : $"_{k + 1}", headerStick ?? stick);
        Across(min.Y - w, min.Y, 0, -1, "", stick);
        Take(hole.Box.Sides(), [], _ => true);
        for (int k = 0; k < hole.Trimmers - 1; k++)
        {
            Upright(min.X - k * w, -1, $"_{k + 2}", false);
            Upright(max.X + k * w, 1, $"_{k + 2}", false);
        }
    }

    private MemberRole RoleBeside(Vec2 direction) => _sideWord(direction) switch { "top" => MemberRole.Header, "bottom" => MemberRole.Sill, _ => MemberRole.Trimmer };

    private string Label(Vec2 direction) => _sideWord(direction) switch { "top" => "header", "bottom" => "sill", var hand => $"trimmer_{hand}" };

    private static bool Beside(Outline piece, Box2 hole) => piece.Bounds.Min.Y < hole.Max.Y - Tolerance.Length && piece.Bounds.Max.Y > hole.Min.Y + Tolerance.Length;

    private static HalfPlane[] Column(Box2 box) => [new(new(box.Min.X, 0), new(1, 0)), new(new(box.Max.X, 0), new(-1, 0))];

    // Puts a member on one side of a hole into whatever is free within the cuts; tells when it came out narrower than it should.
    private void Place(HalfPlane[] cuts, Vec2 along, FramedHole hole, Vec2 side, string suffix, double full, StickMaterial stick, List<HalfPlane[]> others, Func<Outline, bool> wanted, bool told)
    {
        double Span(Outline o) => Extent(o, along.Left);
        var taken = Take(cuts, others, piece => wanted(piece) && Span(piece) >= LeastRip);
        // No member at all: the hole stands right against a rail or another member, which then does its work.
        if (told && taken.Count > 0 && taken.Max(Span) is var width && width < full - 0.01) Problems.Add(new(FrameProblemKind.NoRoomForMember, hole.Name, width, full, taken[0].Centroid(), _sideWord(side)));
        Add(taken, along, RoleBeside(side), $"{hole.Name}.{Label(side)}{suffix}", full, stick, hole.Name);
    }

    private void Add(List<Outline> pieces, Vec2 along, MemberRole role, string key, double full, StickMaterial stick, string? around)
    {
        pieces.Sort((a, b) => a.Centroid().Dot(along).CompareTo(b.Centroid().Dot(along)));
        for (int k = 0; k < pieces.Count; k++) Members.Add(new(pieces[k], along, role, pieces.Count == 1 ? key : $"{key}{Text.Letters.Of(k)}", full, stick, around));
    }

    /// <summary>One stud about a line. Pieces above and below a hole are cripples. A stud that would run into a member that is there already gives way to it.</summary>
    public void Stud(double centre, string key, IReadOnlyList<FramedHole> holes)
    {
        var strip = new Box2(new(centre - _width / 2, 0), new(centre + _width / 2, 0));
        var taken = Take(Column(strip), [], piece => piece.Bounds.Width >= _width - 0.01 && Shortest(piece, new(0, 1)) >= _width / 2 - 0.01);
        taken.Sort((a, b) => a.Centroid().Y.CompareTo(b.Centroid().Y));
        bool cut = holes.Any(h => !h.IsZone && h.Box.Min.X < strip.Max.X - Tolerance.Length && h.Box.Max.X > strip.Min.X + Tolerance.Length);
        for (int k = 0; k < taken.Count; k++)
            Members.Add(new(taken[k], new(0, 1), cut ? MemberRole.Cripple : MemberRole.Stud, taken.Count == 1 ? key : $"{key}{Text.Letters.Of(k)}", _width, _stick));
    }

    /// <summary>A member along any box, such as blocking: into every free bay that it passes.</summary>
    public void Block(Box2 box, Vec2 along, string key)
    {
        var across = along.Left;
        var taken = Take(box.Sides(), [], piece => Extent(piece, across) >= _width - 0.01 && Shortest(piece, along) >= _width / 2 - 0.01);
        Add(taken, along, MemberRole.Blocking, key, _width, _stick, null);
    }

    /// <summary>Bays narrower than the least become members: what is too narrow to foam well is filled with wood.</summary>
    public void FillNarrow(double least)
    {
        int filled = 0;
        for (int i = _free.Count - 1; i >= 0; i--)
        {
            var bounds = _free[i].Bounds;
            double narrow = Math.Min(bounds.Width, bounds.Height);
            if (narrow >= least - 0.01) continue;
            var along = bounds.Width <= bounds.Height ? new Vec2(0, 1) : new Vec2(1, 0);
            var bay = _free[i];
            _free.RemoveAt(i);
            if (narrow < LeastRip) { Slivers.Add(bay); continue; }
            Members.Add(new(bay, along, MemberRole.Blocking, $"filler{++filled}", narrow, _stick, null, true));
            Problems.Add(new(FrameProblemKind.BayFilled, $"filler{filled}", narrow, least, bay.Centroid()));
        }
    }

    /// <summary>
    /// Members along the sides of a zone that is no rectangle, between it and the members that are set square round it; what they leave is free again. A space
    /// no wider than a stick is filled with it.
    /// </summary>
    public void Beside(string zone, Outline region, IEnumerable<Outline> spaces)
    {
        int count = 0;
        foreach (var space in spaces)
        {
            var own = Enumerable.Range(0, space.Count).Where(i => region.DistanceToEdges(space.Segment(i).At(0.5)) < 0.05).ToHashSet();
            var sides = Perimeter.Build(space, i => own.Contains(i) ? _width : 0, _ => 1, true);
            if (own.Count > 0 && sides.Clear is { } clear)
            {
                foreach (var piece in sides.Pieces) Side(piece.Outline, piece.Along);
                _free.Add(clear);
            }
            else if (own.Count > 0 && own.Select(i => space.Segment(i)).MaxBy(s => s.Length).Chord.Unit is var along && Extent(space, along.Left) is >= LeastRip and var across && across <= _width + 0.01) Side(space, along);
            else _free.Add(space);
        }

        void Side(Outline piece, Vec2 along) => Members.Add(new(piece, along, RoleBeside(along.Right), $"{zone}.side{++count}", _width, _stick, zone));
    }

    /// <summary>Gaps too thin for any stick; they stay empty.</summary>
    public List<Outline> Slivers { get; } = [];

    // Takes the wanted pieces within the cuts out of the free space, but for what lies in the holes to keep clear of. A bay of which nothing is wanted stays whole.
    private List<Outline> Take(HalfPlane[] cuts, List<HalfPlane[]> clearOf, Func<Outline, bool> wanted)
    {
        var taken = new List<Outline>();
        for (int i = _free.Count - 1; i >= 0; i--)
        {
            var (inside, outside) = _free[i].Split(cuts);
            if (inside.IsEmpty) continue;
            var pieces = inside.ToList();
            var rest = new List<Outline>(outside);
            foreach (var hole in clearOf)
            {
                if (pieces.TrueForAll(p => Clipping.Misses(p, hole))) continue;
                var split = pieces.Select(p => p.Split(hole)).ToList();
                rest.AddRange(split.SelectMany(s => s.Inside));
                pieces = [.. split.SelectMany(s => s.Outside)];
            }
            if (!pieces.Exists(p => wanted(p))) continue;
            _free.RemoveAt(i);
            _free.AddRange(rest);
            foreach (var piece in pieces) (wanted(piece) ? taken : _free).Add(piece);
        }
        return taken;
    }

    internal static double Extent(Outline outline, Vec2 direction)
    {
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        foreach (var s in outline.Flattened(0.01).Corners)
        {
            double at = s.Dot(direction);
            (low, high) = (Math.Min(low, at), Math.Max(high, at));
        }
        return high - low;
    }

    // Length that both long sides of a piece have in common.
    private static double Shortest(Outline piece, Vec2 along) => MemberShape.Of(piece, along).ShortPoint;
}
