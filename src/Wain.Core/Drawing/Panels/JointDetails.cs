using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Drawing.Panels;

/// <summary>Fillets, tape, screws and seals of a joint in its section (the plane's mm).</summary>
internal sealed class JointDetails
{
    private static readonly Pen TapePen = new(LineType.Dashed, 0.7), ScrewPen = new(LineType.Continuous, 0.25);

    private readonly DrawingOptions _options;
    private readonly List<(Func<View, Mark> Draw, Vec2 Spot, string Text, Box Bounds)> _parts = [];

    public JointDetails(Spec spec, DrawingOptions options, PlacedJoint joint, CutPlane plane, double reach, PanelCut first, PanelCut second)
    {
        _options = options;
        // Of two edges the one that stops at the other is the one that things are driven into.
        bool ofFirst = !joint.First.IsFace && (joint.Second.IsFace || !ReferenceEquals(joint.Through, joint.First.Panel));
        var (edge, other, own, across) = ofFirst ? (joint.First, joint.Second, first, second) : (joint.Second, joint.First, second, first);
        if (edge.IsFace)
        {
            Seal(spec, joint, first, second);
            return;
        }
        if (own.Span(edge.Panel.Thickness / 2) is not { } span) return;
        bool low = Math.Abs(span.Low) <= Math.Abs(span.High);
        double End(double depth) => own.Span(depth) is { } s ? low ? s.Low : s.High : 0;
        var into = plane.Direction(own.Run) * (low ? 1 : -1);
        Vec2 outside = own.Point(End(0), 0), inside = own.Point(End(edge.Panel.Thickness), edge.Panel.Thickness);
        var inward = -own.Normal;
        // Along the other panel: on the inside of the first, and away from it.
        Vec2 Away(Vec2 side) => plane.Direction(across.Run) is var r && r.Dot(side) >= 0 ? r : -r;
        var awayInside = other.IsFace ? Away(inward) : Into(other, across, plane);
        var awayOutside = other.IsFace ? Away(-inward) : awayInside;
        Fillets(spec, joint, inside, outside, into, awayInside, awayOutside, reach, other.IsFace);
        Tapes(spec, joint, outside, into, other.IsFace ? awayOutside : awayInside, reach);
        if (joint.Kind != JointKind.Mitre) Screws(spec, joint, edge.Panel, own.Point(End(edge.Panel.Thickness / 2), Middle(edge.Panel)), into, across.Normal, other.Panel.Thickness);
        foreach (var fact in joint.Fact.All("seal")) Add(Circle((outside + inside) / 2, Math.Max(3, joint.Gap / 2)), (outside + inside) / 2, Named("seal", Thing(spec, fact, "seal")));
        if (joint.Fact.Find("gusset") is { } gusset)
        {
            // In the corner where the other panel goes on far enough to carry its leg: inside, if it does on both.
            double leg = Legs(spec, gusset)?.Other ?? 0;
            bool under = !across.Reaches(inside + awayInside * leg) && across.Reaches(outside + awayOutside * leg);
            Gusset(spec, gusset, under ? outside : inside, into, under ? awayOutside : awayInside);
        }
        if (!other.IsFace) Edging(spec, joint, outside, (into, own.Normal), (awayOutside, across.Normal));
        // A panel that goes on past the corner has the edging in the corner; over one that ends there it runs straight on.
        else if (across.Reaches(outside + awayOutside * 3)) Edging(spec, joint, outside, (into, own.Normal), (awayOutside, across.Normal * Math.Sign(across.Normal.Dot(into))));
        else Edging(spec, joint, outside, (into, own.Normal), (-into, own.Normal));
        foreach (var fact in joint.Fact.All("sealant")) Add(Circle(outside, 2.5), outside, "bead of " + Thing(spec, fact, "sealant"));
    }

    public Box Bounds => _parts.Aggregate(Box.Empty, (b, p) => b.Union(p.Bounds));

    public IEnumerable<Mark> Marks(View view) => _parts.Select(p => p.Draw(view));

    public IEnumerable<Note> Notes(View view) => _parts.Where(p => p.Text.Length > 0).Select(p => new Note(view.ToPaper(p.Spot), [.. Lettering.Wrap(p.Text, TextMark.Small, 36)], LineEnd.Dot));

    // "glass tape" says already that it is tape.
    private static string Named(string kind, string name) => name.Contains(kind, StringComparison.OrdinalIgnoreCase) ? name : $"{kind} {name}";

    private static string Thing(Spec spec, BoundFact fact, string slot) => fact.Has(slot) && spec.Evaluator.Thing(fact, slot) is { Name: { } name } ? SheetWords.Spoken(name) : "";

    private static Vec2 Into(JointSide side, PanelCut cut, CutPlane plane) =>
        cut.Span(side.Panel.Thickness / 2) is { } s && Math.Abs(s.Low) > Math.Abs(s.High) ? -plane.Direction(cut.Run) : plane.Direction(cut.Run);

    /// <summary>Depth of the middle of the frame, which is what a screw holds in; of the panel where it has none.</summary>
    private static double Middle(PlacedPanel panel) => panel.Stack.Frame is { } frame ? panel.Stack.DepthOf(frame) + frame.Thickness / 2 : panel.Thickness / 2;

    private void Add(PathMark mark, Vec2 spot, string text) => _parts.Add((view => mark.Map(view), spot, text, mark.Bounds));

    private static PathMark Circle(Vec2 at, double radius) => new(Contour.Circle(at, radius), Pen.Edge, 0.75);

    private void Fillets(Spec spec, PlacedJoint joint, Vec2 inside, Vec2 outside, Vec2 into, Vec2 awayInside, Vec2 awayOutside, double reach, bool onFace)
    {
        foreach (var fact in joint.Fact.All("fillet"))
        {
            if (spec.Evaluator.Length(fact, "radius") is not { } radius) continue;
            string text = $"fillet of {Thing(spec, fact, "paste")}, R {_options.WithUnit(radius)}";
            Fillet(inside, into, awayInside, radius, text);
            if (fact.Has("tape")) Tape(inside, into, awayInside, radius, TapeHalf(spec, fact), reach, Named("tape", Thing(spec, fact, "tape")));
            if (!onFace || !fact.Says("both sides")) continue;
            Fillet(outside, into, awayOutside, radius, "");
        }
    }

    /// <summary>The cove between two directions from a corner: an arc that touches both.</summary>
    private void Fillet(Vec2 corner, Vec2 a, Vec2 b, double radius, string text)
    {
        double angle = Math.Acos(Math.Clamp(a.Dot(b), -1, 1));
        if (angle < 0.05 || angle > Math.PI - 0.05) return;
        double leg = radius / Math.Tan(angle / 2);
        Vec2 p = corner + a * leg, q = corner + b * leg;
        var arc = Arc(p, q, a, b);
        var mark = new PathMark(new Contour([new(corner, p), arc, new(q, corner)], true), Pen.Edge, 0.75);
        Add(mark, corner.Lerp(arc.At(0.5), 0.6), text);
    }

    /// <summary>From p to q, touching the two legs: it bows toward the corner.</summary>
    private static Segment Arc(Vec2 p, Vec2 q, Vec2 a, Vec2 b) => new(p, q, -(Math.PI - Math.Acos(Math.Clamp(a.Dot(b), -1, 1))) * Math.Sign(b.Cross(a)) is var sweep && IsToward(new(p, q, sweep), p, q, a, b) ? sweep : -sweep);

    private static bool IsToward(Segment arc, Vec2 p, Vec2 q, Vec2 a, Vec2 b) => (arc.At(0.5) - (p + q) / 2).Dot(a + b) < 0;

    private static double TapeHalf(Spec spec, BoundFact fact) =>
        spec.Evaluator.Thing(fact, "tape")?.Find("width") is { } width && spec.Evaluator.Length(width, "value") is { } mm ? mm / 2 : 25;

    /// <summary>Tape over a fillet: along one leg, round the cove, along the other. Drawn a little off the work so that it is seen.</summary>
    private void Tape(Vec2 corner, Vec2 a, Vec2 b, double radius, double half, double reach, string text)
    {
        double angle = Math.Acos(Math.Clamp(a.Dot(b), -1, 1));
        if (angle < 0.05 || angle > Math.PI - 0.05) return;
        double leg = radius / Math.Tan(angle / 2), end = Math.Min(Math.Max(half, leg + 3), reach * 0.95);
        var off = (a + b).Unit * 0.8 / Math.Max(0.3, Math.Sin(angle / 2));
        Vec2 p = corner + a * leg + off, q = corner + b * leg + off, start = corner + a * end + off, stop = corner + b * end + off;
        Add(new PathMark(new Contour([new(start, p), Arc(p, q, a, b), new(q, stop)], false), TapePen), corner.Lerp(start, 0.9), text);
    }

    /// <summary>Tape over the seam on the outside.</summary>
    private void Tapes(Spec spec, PlacedJoint joint, Vec2 corner, Vec2 a, Vec2 b, double reach)
    {
        foreach (var fact in joint.Fact.All("taped"))
        {
            double end = Math.Min(TapeHalf(spec, fact), reach * 0.95);
            var inner = a + b;
            var off = inner.Length < 1e-3 ? Vec2.Zero : -inner.Unit * 0.8;
            Add(new PathMark(Contour.Open(corner + a * end + off, corner + off, corner + b * end + off), TapePen), corner + a * (end * 0.8) + off, Named("tape", Thing(spec, fact, "tape")));
        }
    }

    /// <summary>A gusset in its corner, a leg along each panel. It stands here and there along the joint, so nothing of the section hides behind it.</summary>
    private void Gusset(Spec spec, BoundFact fact, Vec2 corner, Vec2 a, Vec2 b)
    {
        if (Legs(spec, fact) is not var (leg, other) || Math.Abs(a.Cross(b)) < 0.05) return;
        string count = fact.Has("count") ? $", {spec.Evaluator.Number(fact, "count"):0} in all" : "";
        Add(new PathMark(Contour.Polygon(corner, corner + a * leg, corner + b * other), Pen.Edge), corner + a * (leg * 0.45) + b * (other * 0.45), $"gusset of {Thing(spec, fact, "material")}, {_options.WithUnit(leg)} by {_options.WithUnit(other)}{count}");
    }

    /// <summary>The legs of a joint's gussets (mm); null if it has none.</summary>
    public static (double Leg, double Other)? Legs(Spec spec, BoundFact? fact) =>
        fact is not null && spec.Evaluator.Length(fact, "leg") is { } leg && spec.Evaluator.Length(fact, "other") is { } other ? (leg, other) : null;

    /// <summary>Edging over the seam, half of its width on each side.</summary>
    /// <param name="a">Along one panel from the seam, and out of its face.</param>
    private void Edging(Spec spec, PlacedJoint joint, Vec2 corner, (Vec2 Along, Vec2 Out) a, (Vec2 Along, Vec2 Out) b)
    {
        foreach (var fact in joint.Fact.All("trim"))
        {
            if (spec.Evaluator.Thing(fact, "trim")?.Find("section") is not { } section || spec.Evaluator.Length(section, "thickness") is not { } thick || spec.Evaluator.Length(section, "width") is not { } wide) continue;
            Vec2 p = corner + a.Along * (wide / 2), q = corner + b.Along * (wide / 2), bend = (a.Out + b.Out) / Math.Max(0.2, 1 + a.Out.Dot(b.Out)) * thick;
            Add(new PathMark(Contour.Polygon(p, corner, q, q + b.Out * thick, corner + bend, p + a.Out * thick), Pen.Edge, 0.75), p.Lerp(p + a.Out * thick, 0.5), $"{Thing(spec, fact, "trim")}, {_options.WithUnit(thick)} by {_options.WithUnit(wide)}");
        }
    }

    /// <summary>A screw through the other panel into the edge, head on the far face; or through the rail along the edge into the other. At its true length.</summary>
    /// <param name="entry">In the middle of the edge.</param>
    /// <param name="inward">From there into the panel whose edge it is.</param>
    private void Screws(Spec spec, PlacedJoint joint, PlacedPanel edge, Vec2 entry, Vec2 inward, Vec2 normal, double thickness)
    {
        foreach (var fact in joint.Fact.All("screws"))
        {
            if (!fact.Has("screw") || spec.Evaluator.Thing(fact, "screw") is not { } screw) continue;
            double? Of(string keyword) => screw.Find(keyword) is { } f && f.Shape.Slots.FirstOrDefault() is { } slot ? spec.Evaluator.Length(f, slot.Name) : null;
            if (Of("length") is not { } length) continue;
            double radius = (Of("diameter") ?? 4) / 2, head = (Of("head") ?? 4 * radius) / 2;
            var path = ScrewPath.Of(joint, fact);
            bool fromEdge = path is not null && ReferenceEquals(path.Through, edge);
            var into = fromEdge ? -inward : inward;
            var start = entry - into * (fromEdge ? path!.Passes : thickness / Math.Max(0.2, Math.Abs(into.Dot(normal))));
            var (tip, side) = (start + into * length, into.Left);
            // A countersunk head tapers over about its own radius; the point over three diameters (common practice).
            Vec2 neck = start + into * (head - radius), point = tip - into * (6 * radius);
            Add(new PathMark(Contour.Polygon(start + side * head, neck + side * radius, point + side * radius, tip, point - side * radius, neck - side * radius, start - side * head), ScrewPen, 1), start + into * (length * 0.3), $"{Thing(spec, fact, "screw")}, {_options.WithUnit(length)}");
            Add(new PathMark(Contour.Line(start - into * 4, tip + into * 4), new(LineType.LongDashDot, 0.18)), start, "");
        }
    }

    /// <summary>Between two faces that keep a gap.</summary>
    private void Seal(Spec spec, PlacedJoint joint, PanelCut first, PanelCut second)
    {
        double[] Depths(JointSide s) => [0, s.Panel.Thickness];
        var pairs = Depths(joint.First).SelectMany(a => Depths(joint.Second).Select(b => (A: first.Point(0, a), B: second.Point(0, b)))).ToList();
        var normal = first.Normal;
        var (p, q) = pairs.MinBy(pair => Math.Abs((pair.A - pair.B).Dot(normal)));
        double gap = Math.Abs((p - q).Dot(normal));
        var middle = p + normal * ((q - p).Dot(normal) / 2);
        foreach (var fact in joint.Fact.All("seal")) Add(Circle(middle, Math.Max(2, gap / 2)), middle, $"{Named("seal", Thing(spec, fact, "seal"))} in a gap of {_options.WithUnit(gap)}");
    }
}
