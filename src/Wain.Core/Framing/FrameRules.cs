using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Framing;

/// <summary>A member along the panel between the studs: its centre line up from the panel's lowest point, and from where to where along it (mm; null: all).</summary>
public sealed record BlockingRule(double Up, double? From, double? To, BoundFact Fact);

/// <summary>What a spec says of a panel's frame (mm). Left and right, along and from are as seen from outside on the panel that the facts were written for.</summary>
/// <param name="From">The end that spacing begins at, along the row of studs: true for left or bottom.</param>
/// <param name="Turned">Studs run along the panel instead of up it.</param>
/// <param name="LeastBay">Bays narrower than this are filled solid.</param>
/// <param name="Margins">By the word that names the edge.</param>
public sealed record FrameRules(
    BoundFact? Fact, double? Every, int? Count, bool OnCentre, bool From, bool Turned, bool RailsThrough, double? LeastBay,
    ImmutableArray<double> ExtraStuds, ImmutableArray<BlockingRule> Blocking, ImmutableArray<string> Doubles, ImmutableArray<(string Edge, double Value)> Margins,
    StickMaterial? Header, int HeaderCount, Material? Screw, int ScrewCount, Material? Glue, bool FaceDownInside)
{
    /// <summary>Rails and stiles alone: what a panel has that says nothing of its frame.</summary>
    public static readonly FrameRules Plain = new(null, null, null, false, true, false, true, null, [], [], [], [], null, 1, null, 0, null, false);

    /// <summary>Screws in a meeting where the spec states the screw alone. Common practice: two, so that the member cannot turn.</summary>
    public const int UsualScrews = 2;

    public static FrameRules Read(Structure structure, PlacedPanel panel, IReadOnlyDictionary<string, Material> materials)
    {
        if (PanelFacts.Find(panel, "frame") is not { } fact) return Plain;
        var e = structure.Spec.Evaluator;
        Material? Of(BoundFact from, string slot) => from.Has(slot) && e.Thing(from, slot) is { Name: { } name } ? materials.GetValueOrDefault(name) : null;
        var studs = fact.Find("studs");
        string? end = studs?.Word("from");
        var header = fact.Find("header");
        var joined = fact.Find("joined");
        return new FrameRules(
            fact,
            studs is null ? null : Materials.Positive(structure.Spec, studs, "every"),
            studs is not null && studs.Has("count") ? Whole(e.Number(studs, "count")) : null,
            studs?.Says("on centre") ?? false,
            end is null or "left" or "bottom" or "start",
            (studs?.Says("turned") ?? false) || end is "bottom" or "top",
            fact.Find("rails")?.Word("run") != "between",
            fact.Find("bay") is { } bay ? e.Length(bay, "value") : null,
            [.. fact.All("stud").Select(s => e.Length(s, "at")).OfType<double>()],
            [.. fact.All("blocking").Select(b => (Fact: b, Up: e.Length(b, "at"))).Where(b => b.Up is not null)
                .Select(b => new BlockingRule(b.Up!.Value, e.Length(b.Fact, "from"), e.Length(b.Fact, "to"), b.Fact))],
            [.. fact.All("double").Select(d => d.Word("edge")).OfType<string>()],
            [.. fact.All("margin").Select(m => (Edge: m.Word("edge"), Value: e.Length(m, "value"))).Where(m => m.Edge is not null && m.Value is not null).Select(m => (m.Edge!, m.Value!.Value))],
            header is null ? null : Of(header, "stick") as StickMaterial,
            header is null ? 1 : Math.Clamp(Whole(e.Number(header, "count")) ?? 1, 1, 10),
            joined is null ? null : Of(joined, "screw"),
            joined is null ? 0 : Math.Clamp(Whole(e.Number(joined, "count")) ?? UsualScrews, 0, 20),
            joined is null ? null : Of(joined, "glue"),
            fact.Find("face_down")?.Word("face") == "inside");
    }

    private static int? Whole(double? value) => value is { } v && double.IsFinite(v) ? (int)Math.Clamp(Math.Round(v), 0, 10_000) : null;

    /// <summary>
    /// The frame layer's outline on its outer side: the panel's outline there, less margins, skins that reach past the frame, and rabbets that take the
    /// whole depth of the frame.
    /// </summary>
    public static Outline AreaOf(Structure structure, PlacedPanel panel, FrameRules rules, ImmutableArray<PanelStep> steps, double below, double depth)
    {
        var outline = panel.OutlineAt(below);
        var back = new double[outline.Count];
        void Back(string word, BoundFact fact, double value)
        {
            foreach (int i in PanelFacts.Edges(outline, PanelFacts.IsTurnedRound(panel, fact) && PanelFacts.Direction(word) is not null ? PanelFacts.OtherHand(word) : word)) back[i] = Math.Max(back[i], value);
        }
        foreach (var (edge, value) in rules.Margins) Back(edge, rules.Fact!, value);
        var e = structure.Spec.Evaluator;
        foreach (var lip in PanelFacts.All(panel, "lip")) if (lip.Word("edge") is { } edge && e.Length(lip, "width") is { } width) Back(edge, lip, width);
        foreach (var step in steps)
            if (step is { IsWholeEdge: true, Edge: { } edge } && edge < back.Length && step.Into(below, depth, panel.Thickness) >= depth - Tolerance.Length) back[edge] = Math.Max(back[edge], step.Width);
        return Array.TrueForAll(back, b => b == 0) ? outline : outline.Offset(i => -back[i]).Outline ?? outline;
    }
}
