using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Engineering;

/// <summary>A step that must come before another, since the other closes the way to it; with what is told if it can't.</summary>
internal sealed record Reach(string Before, string After, FindingInfo Info, string Message, string Hint, Span At, string Subject)
{
    public ImmutableArray<Fix> Fixes { get; init; } = [];

    public void Tell(Ledger ledger) => ledger.Tell(Info, Message, At, Subject, Hint, fixes: Fixes);
}

/// <summary>
/// What hands and tools must still get at: heads of screws by a driver, corners that are filled and taped, faces that are coated. Panels of another lift are taken as away, since
/// what a lift carries is set on last.
/// </summary>
internal sealed class WorkReach
{
    private readonly Ledger _ledger;
    private readonly List<Body> _bodies = [];
    private readonly BoxTree _tree;
    private readonly HashSet<string> _fits = new(StringComparer.Ordinal);
    private readonly double _driver, _hand;

    /// <param name="steps">Of panels and joints.</param>
    public WorkReach(Ledger ledger, List<WorkStep> steps)
    {
        foreach (var step in steps) if (step.Stage == Stage.Fit) _fits.Add(step.Key);
        _ledger = ledger;
        _driver = ledger.Default("driver_room") * 1000;
        _hand = ledger.Default("hand_room") * 1000;
        foreach (var body in ledger.Input.Clearance.Bodies) if (body.Kind == BodyKind.Panel) _bodies.Add(body);
        var boxes = new Box3[_bodies.Count];
        for (int i = 0; i < boxes.Length; i++) boxes[i] = _bodies[i].Around;
        _tree = new BoxTree(boxes);
    }

    /// <summary>The step that fits a joint; null if nothing is fitted there.</summary>
    public string? FitOf(PlacedJoint joint) => _fits.Contains(joint.Name + ".fit") ? joint.Name + ".fit" : null;

    /// <summary>Panels that cover a coated face of a panel so closely that no hand with a brush comes between, in the order of their names.</summary>
    public List<PlacedPanel> Covering(PlacedPanel panel)
    {
        var found = new List<PlacedPanel>();
        var layers = panel.Stack.Layers;
        if (layers.IsEmpty) return found;
        bool outside = layers[0].Kind == LayerKind.Coating, inside = layers[^1].Kind == LayerKind.Coating;
        foreach (var finish in PanelFacts.All(panel, "finish"))
        {
            string? face = finish.Word("face");
            outside |= face != "inside";
            inside |= face == "inside";
        }
        if (outside) Cover(panel, panel.Face.N, 0, found);
        if (inside) Cover(panel, -panel.Face.N, panel.Thickness, found);
        found.Sort((a, b) => string.CompareOrdinal(a.Name, b.Name));
        return found;
    }

    private void Cover(PlacedPanel panel, Vec3 away, double depth, List<PlacedPanel> found)
    {
        const int side = 5;
        var box = panel.Outline.Bounds;
        var hits = new Dictionary<PlacedPanel, int>(ReferenceEqualityComparer.Instance);
        int points = 0;
        for (int i = 0; i < side * side; i++)
        {
            var local = new Vec2(box.Min.X + box.Width * (i % side + 0.5) / side, box.Min.Y + box.Height * (i / side + 0.5) / side);
            if (!panel.Outline.Contains(local)) continue;
            points++;
            var from = panel.Face.ToWorld(local, depth) + away * 0.5;
            foreach (var other in Hit(from, away * _hand, panel.Lift)) if (!ReferenceEquals(other, panel)) hits[other] = hits.GetValueOrDefault(other) + 1;
        }
        // A neighbour that stands against the face with its edge covers a strip of it; a third of the face is no edge.
        foreach (var (other, count) in hits) if (3 * count >= points && !found.Contains(other)) found.Add(other);
    }

    /// <summary>What fitting must wait for so that each screw can be driven and each corner filled. What can't be driven in any order is told at once.</summary>
    public List<Reach> OfJoints(List<WorkStep> steps)
    {
        var edges = new List<Reach>();
        var corners = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        foreach (var step in steps)
        {
            if (step.Stage is not (Stage.Fillet or Stage.Tape)) continue;
            if (!corners.TryGetValue(step.Subject, out var list)) corners[step.Subject] = list = [];
            list.Add(step.Key);
        }
        foreach (var joint in _ledger.Structure.Joints)
        {
            if (FitOf(joint) is not { } fit) continue;
            Screws(joint, fit, edges);
            if (corners.TryGetValue(joint.Name, out var filled)) Corner(joint, filled, edges);
        }
        return edges;
    }

    private void Screws(PlacedJoint joint, string fit, List<Reach> edges)
    {
        var told = new HashSet<string>(StringComparer.Ordinal);
        foreach (var fact in joint.Fact.All("screws"))
        {
            if (_ledger.Of(fact, "screw") is not { } screw || screw.Fact.Find("kind")?.Word("kind") == "pocket_screw" || ScrewPath.Of(joint, fact) is not { } path) continue;
            string side = ScrewPath.From(joint, fact) is { } from ? $"driven from {from}" : $"driven through {path.Through.Name}";
            if (Within(joint, path))
            {
                if (!joint.Mirrored) _ledger.Tell(EngineeringFindings.ScrewSideClosed, $"The screws of joint {joint.Name} are {side}, from within {path.Through.Name}: both its skins are on by then.", fact.Span, joint.Name, $"Drive them the other way, through {path.Into.Name}.", fixes: OtherWay(joint, fact, path));
                continue;
            }
            foreach (var other in Around(joint, path.Driver * path.Passes, path.Driver * _driver))
            {
                string message = $"The screws of joint {joint.Name} are {side}, and {other.Name} closes that side by then: a driver needs {_ledger.Say.Length(_driver)}.";
                string hint = "Drive them the other way, or have them driven before it is fitted.";
                if (ReferenceEquals(other, path.Through) || ReferenceEquals(other, path.Into))
                {
                    if (!joint.Mirrored && told.Add(other.Name)) _ledger.Tell(EngineeringFindings.ScrewSideClosed, message, fact.Span, joint.Name, hint, fixes: OtherWay(joint, fact, path));
                    continue;
                }
                Before(fit, other, joint, edges, EngineeringFindings.ScrewSideClosed, message, hint, fact.Span, OtherWay(joint, fact, path));
            }
        }
    }

    /// <summary>Driving from the opposite side, where that passes the other panel and nothing stands in the driver's way there.</summary>
    private ImmutableArray<Fix> OtherWay(PlacedJoint joint, BoundFact fact, ScrewPath path)
    {
        string side = (path with { Driver = path.Driver * -1 }).Side;
        return joint.Mirrored || !fact.Has("from") || ScrewPath.Of(joint, side) is not { } other || ReferenceEquals(other.Through, path.Through) || Within(joint, other) || Around(joint, other.Driver * other.Passes, other.Driver * _driver).Count > 0
            ? [] : [Fixing.Write(_ledger.Spec, fact, "from", side)];
    }

    /// <summary>True if the screws are driven from between the skins of a panel, where nobody gets once both are on.</summary>
    private static bool Within(PlacedJoint joint, ScrewPath path) =>
        !ReferenceEquals(path.Through, joint.First.IsFace ? joint.First.Panel : joint.Second.IsFace ? joint.Second.Panel : joint.Through) && Skins(path.Through) > 1;

    private static int Skins(PlacedPanel panel)
    {
        int count = 0;
        foreach (var layer in panel.Stack.Layers) if (layer.Kind == LayerKind.Sheet) count++;
        return count;
    }

    private void Corner(PlacedJoint joint, List<string> filled, List<Reach> edges)
    {
        var edge = joint.First.IsFace ? joint.Second : joint.First;
        if (edge.IsFace) return;
        var panel = edge.Panel;
        var along = (joint.To - joint.From).Unit;
        var into = panel.Face.ToWorld(panel.Outline.Centroid(), panel.Thickness / 2) - (joint.From + joint.To) / 2;
        into -= along * into.Dot(along);
        if (into.Length < 1) return;
        into = into.Unit;
        var start = -panel.Face.N * (panel.Thickness / 2 + 1) + into;
        foreach (var other in Around(joint, start, (into - panel.Face.N).Unit * _hand))
        {
            if (ReferenceEquals(other, joint.First.Panel) || ReferenceEquals(other, joint.Second.Panel)) continue;
            foreach (string step in filled)
                Before(step, other, joint, edges, EngineeringFindings.FaceUnreachable, $"{step}: {other.Name} closes the corner by then, and a hand needs {_ledger.Say.Length(_hand)}.", "Fill and tape it before that panel is fitted, or do without.", joint.Fact.HeadSpan);
        }
    }

    /// <summary>The step comes before whatever fits the panel in its way.</summary>
    private void Before(string step, PlacedPanel other, PlacedJoint joint, List<Reach> edges, FindingInfo info, string message, string hint, Span at, ImmutableArray<Fix> fixes = default)
    {
        foreach (var its in _ledger.JointsOf(other))
            if (!ReferenceEquals(its, joint) && FitOf(its) is { } fit) edges.Add(new Reach(step, fit, info, message, hint, at, step) { Fixes = fixes.IsDefault ? [] : fixes });
    }

    /// <summary>Panels that stand within a length of places along a joint, each once.</summary>
    private List<PlacedPanel> Around(PlacedJoint joint, Vec3 start, Vec3 reach)
    {
        var found = new List<PlacedPanel>();
        foreach (double t in (ReadOnlySpan<double>)[0.1, 0.3, 0.5, 0.7, 0.9])
            foreach (var other in Hit(joint.From + (joint.To - joint.From) * t + start + reach * (1 / reach.Length), reach, joint.First.Panel.Lift)) if (!found.Contains(other)) found.Add(other);
        return found;
    }

    private List<PlacedPanel> Hit(Vec3 from, Vec3 reach, string? lift)
    {
        var found = new List<PlacedPanel>();
        foreach (int i in _tree.Touching(new Box3(from, from).Swept(reach)))
        {
            var panel = _bodies[i].Panel;
            if (panel.Lift != lift) continue;
            foreach (var part in _bodies[i].Parts)
            {
                if (!Crosses(part, from, reach)) continue;
                found.Add(panel);
                break;
            }
        }
        return found;
    }

    /// <summary>True if a straight way runs through a convex solid for more than a touch.</summary>
    private static bool Crosses(ConvexPolyhedron part, Vec3 from, Vec3 reach)
    {
        double enter = 0, leave = 1;
        foreach (var face in part.Faces)
        {
            double start = face.Plane.SignedDistance(from), change = face.Plane.Normal.Dot(reach);
            if (Math.Abs(change) < 1e-9)
            {
                if (start > 0) return false;
                continue;
            }
            double at = -start / change;
            if (change > 0) leave = Math.Min(leave, at);
            else enter = Math.Max(enter, at);
        }
        return (leave - enter) * reach.Length > 0.1;
    }
}
