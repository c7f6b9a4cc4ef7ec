using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Wain.Core.Framing;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing.Panels;

/// <summary>Texts within a view: each where no other stands, with white under it; what finds no room becomes a note in the margin.</summary>
/// <param name="within">Paper mm.</param>
/// <param name="members">What a mark that stands beside its member keeps clear of as well, paper mm.</param>
/// <param name="outlines">Outlines that no member's mark may touch, paper mm.</param>
internal sealed class LabelSpace(Box within, IEnumerable<Contour> members, (Vec2 A, Vec2 B)[] outlines)
{
    private readonly (Vec2 A, Vec2 B)[] _drawn = [.. members.SelectMany(m => m.Flatten() is var p ? p.Zip(p.Skip(1)) : []), .. outlines];
    private readonly List<(Vec2 A, Vec2 B)> _leaders = [];
    private readonly List<Box> _taken = [];
    private readonly ImmutableArray<Mark>.Builder _marks = ImmutableArray.CreateBuilder<Mark>();
    private readonly ImmutableArray<LabelBox>.Builder _labels = ImmutableArray.CreateBuilder<LabelBox>();
    private readonly List<Note> _notes = [];

    private readonly ImmutableArray<Mark>.Builder _backings = ImmutableArray.CreateBuilder<Mark>();

    public ImmutableArray<Mark> Marks => _marks.ToImmutable();

    /// <summary>White under the texts: drawn over what may be broken and under what may not.</summary>
    public ImmutableArray<Mark> Backings => _backings.ToImmutable();

    public ImmutableArray<LabelBox> Labels => _labels.ToImmutable();

    public IReadOnlyList<Note> Notes => _notes;

    /// <summary>Where texts stand.</summary>
    public IReadOnlyList<Box> Taken => _taken;

    /// <summary>Asked of thousands of places a sheet, as are those below: so plain loops.</summary>
    public bool IsFree(Box box)
    {
        if (!within.Contains(box)) return false;
        foreach (var taken in _taken) if (taken.Overlaps(box)) return false;
        return !box.IsCrossedBy(CollectionsMarshal.AsSpan(_leaders));
    }

    public void Keep(Box box) => _taken.Add(box);

    public void Note(Vec2 target, params ReadOnlySpan<string> lines) => _notes.Add(new(target, [.. lines]));

    /// <summary>A letter in a circle, as near to the place as can be along a direction.</summary>
    public void Tag(string tag, Vec2 from, Vec2 direction, Vec2 along)
    {
        for (int i = 0; i < 60; i++)
        {
            var centre = from + direction * (Radius + 1.2) + along * ((i % 2 == 0 ? 1 : -1) * (i + 1) / 2 * 2.0);
            var box = Around(centre);
            if (!IsFree(box) && i < 59) continue;
            if (i == 59)
            {
                _notes.Add(new(from, [tag], LineEnd.Arrow));
                return;
            }
            _taken.Add(box);
            Circle(tag, centre);
            return;
        }
    }

    private const double Radius = 2.9;

    private static Box Around(Vec2 centre) => new(centre.X - Radius, centre.Y - Radius, centre.X + Radius, centre.Y + Radius);

    private void Circle(string tag, Vec2 centre)
    {
        _marks.Add(new PathMark(Contour.Circle(centre, Radius), Pen.Edge, 1));
        var text = new TextMark(centre - new Vec2(0, TextMark.Small / 2), tag, Anchor: Anchor.Middle, Bold: true);
        _marks.Add(text);
        _labels.Add(new(tag, text.Bounds));
    }

    /// <summary>Level lines in the middle of an area if they fit there, else a note.</summary>
    public void Area(Box area, params ReadOnlySpan<string> lines)
    {
        double step = TextMark.Small * Lettering.Leading, height = (lines.Length - 1) * step + TextMark.Small;
        double width = 0;
        foreach (string line in lines) width = Math.Max(width, Lettering.Width(line, TextMark.Small));
        foreach (double up in (ReadOnlySpan<double>)[0.5, 0.7, 0.3, 0.85, 0.15])
        {
            foreach (double across in (ReadOnlySpan<double>)[0.5, 0.3, 0.7])
            {
                var centre = new Vec2(area.Left + area.Width * across, area.Bottom + area.Height * up);
                var box = new Box(centre.X - width / 2, centre.Y - height / 2, centre.X + width / 2, centre.Y + height / 2).Grow(0.9);
                if (!area.Contains(box) || !IsFree(box) || box.IsCrossedBy(outlines)) continue;
                _taken.Add(box);
                double y = centre.Y + height / 2 - TextMark.Small;
                foreach (string line in lines)
                {
                    Write(new TextMark(new(centre.X, y), line, Anchor: Anchor.Middle));
                    y -= step;
                }
                return;
            }
        }
        Note(area.Centre, lines);
    }

    /// <summary>The mark of a member along it or beside it, or its number in the list of the frame, or a note to it.</summary>
    public void Member(Member member, View view, IReadOnlyDictionary<string, string> numbers) => Along(member.Key, member.CentreLine, view, numbers.GetValueOrDefault(member.Key));

    /// <summary>A name along a line of the model, beside it, or as a note to it.</summary>
    /// <param name="number">What may stand for the name where that has no room; null for nothing.</param>
    public void Along(string name, Segment model, View view, string? number = null)
    {
        var line = new Segment(view.ToPaper(model.From), view.ToPaper(model.To));
        double angle = line.Chord.Angle;
        if (angle > Math.PI / 2 + 1e-9) angle -= Math.PI;
        if (angle <= -Math.PI / 2 + 1e-9) angle += Math.PI;
        var across = Vec2.FromAngle(angle).Left * (TextMark.Small / 2);
        double width = Lettering.Width(name, TextMark.Small);
        if (width + 1.5 <= line.Length)
        {
            // A member that is narrower on paper than its mark lets it stand a little to one side, clear of the outline.
            foreach (double aside in (ReadOnlySpan<double>)[0, 0.6, -0.6, 1.2, -1.2, 1.8, -1.8])
            {
                foreach (double t in (ReadOnlySpan<double>)[0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75, 0.2, 0.8, 0.16, 0.84, 0.12, 0.88])
                {
                    if (Math.Min(t, 1 - t) * line.Length < width / 2 + 0.5) continue;
                    var text = new TextMark(line.At(t) - across + Vec2.FromAngle(angle).Left * aside, name, Anchor: Anchor.Middle, Angle: angle);
                    if (!IsFree(text.Bounds.Grow(0.3)) || Strikes(text)) continue;
                    _taken.Add(text.Bounds.Grow(0.3));
                    Write(text);
                    return;
                }
            }
        }
        if (Beside(name, line, circled: false)) return;
        // A circle may cover lines of members, which are told by the dot of its leader; better than a leader across the frame.
        if (number is not null && (Beside(number, line, circled: true) || Beside(number, line, circled: true, clear: false))) return;
        // The leader ends where the member is free of marks.
        // It ends near the margin that the note will stand in.
        bool left = line.At(0.5).X < within.Centre.X;
        foreach (double share in (ReadOnlySpan<double>)[0.8, 0.9, 0.65, 0.5, 0.3, 0.15])
        {
            double t = line.From.X > line.To.X == left ? share : 1 - share;
            var at = line.At(t);
            if (_taken.Exists(b => b.Contains(at)) && share != 0.15) continue;
            Note(at, name);
            return;
        }
    }

    private const double FarthestBeside = 24, Reach = 1.2;

    /// <summary>The mark in the open beside its member, joined to it by a short level or upright leader; false if there is no such place.</summary>
    private bool Beside(string name, Segment line, bool circled, bool clear = true)
    {
        double width = circled ? 2 * Radius : Lettering.Width(name, TextMark.Small), tall = circled ? width : TextMark.Small * (1 + Lettering.Descent);
        bool upright = Math.Abs(line.Chord.Y) > Math.Abs(line.Chord.X);
        var reachable = Box.Of(line.From, line.To).Grow(FarthestBeside + Reach + width + tall);
        (Vec2 A, Vec2 B)[] near = [.. (clear ? _drawn : outlines).Where(s => Box.Of(s.A, s.B).Meets(reachable))];
        for (double away = 2; away <= FarthestBeside; away += 1)
            for (int step = 0; step <= 16; step++)
                foreach (int side in (ReadOnlySpan<int>)[1, -1])
                {
                    // From the middle outwards.
                    double t = 0.5 + (step % 2 == 0 ? 1 : -1) * ((step + 1) / 2) * 0.05;
                    Vec2 at = line.At(t), end = at + (upright ? new Vec2(side * away, 0) : new Vec2(0, side * away));
                    // Its name stands past the end of the leader: in the middle of its height, or over or under it.
                    var corner = upright ? end + new Vec2(side > 0 ? Reach : -Reach - width, -TextMark.Small / 2) : end + new Vec2(-width / 2, side > 0 ? Reach + Lettering.Descent * TextMark.Small : -Reach - TextMark.Small);
                    var centre = end + (upright ? new Vec2(side * Radius, 0) : new Vec2(0, side * Radius));
                    var box = (circled ? Around(centre) : new Box(corner.X, corner.Y - Lettering.Descent * TextMark.Small, corner.X + width, corner.Y - Lettering.Descent * TextMark.Small + tall)).Grow(0.5);
                    if (!IsFree(box) || box.IsCrossedBy(near) || IsStruck(at, end)) continue;
                    _taken.Add(box);
                    _leaders.Add((at, end));
                    _marks.Add(Arrows.Line(at, end));
                    _marks.AddRange(Arrows.End(LineEnd.Dot, at, at - end));
                    if (circled) Circle(name, centre);
                    else Write(new TextMark(corner + new Vec2(width / 2, 0), name, Anchor: Anchor.Middle));
                    return true;
                }
        return false;
    }

    /// <summary>True if a leader would run through a text or over another leader.</summary>
    private bool IsStruck(Vec2 at, Vec2 end)
    {
        foreach (var taken in _taken) if (taken.Crosses(at, end)) return true;
        foreach (var (a, b) in _leaders) if (Drawing.Notes.Cross(a, b, at, end)) return true;
        return false;
    }

    private bool Strikes(TextMark text)
    {
        var around = Around(text, 0.1);
        for (int i = 0; i < around.Length; i++)
            foreach (var (a, b) in outlines) if (Drawing.Notes.Cross(around[i], around[(i + 1) % around.Length], a, b)) return true;
        return false;
    }

    /// <summary>The corners of the text's own rectangle, which lies as the text does.</summary>
    private static Vec2[] Around(TextMark text, double air)
    {
        double half = text.Width / 2 + air;
        Vec2 along = Vec2.FromAngle(text.Angle), up = along.Left;
        double low = -Lettering.Descent * text.Height - air, high = text.Height + air;
        return [text.At - along * half + up * low, text.At + along * half + up * low, text.At + along * half + up * high, text.At - along * half + up * high];
    }

    private void Write(TextMark text)
    {
        _backings.Add(new PathMark(Contour.Polygon(Around(text, 0.3)), null, 1));
        _marks.Add(text);
        _labels.Add(new(text.Text, text.Bounds));
    }
}
