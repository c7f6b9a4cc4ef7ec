using Wain.Core.Text;
using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Methods;
using Wain.Core.Takeoff;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

/// <summary>One strap in one direction, N; null where no strap holds that way.</summary>
public sealed record StrapLoad(string Name, double? Tip, double? Slide, double? Rating)
{
    /// <summary>The most that is asked of it. One force of a strap works against tipping and sliding at once, so they don't add.</summary>
    public double Most => Math.Max(Tip ?? 0, Slide ?? 0);
}

/// <summary>The straps in one direction of a stated acceleration, as an estimate.</summary>
/// <param name="Direction">"braking", "speeding up", "turning left", "turning right" or "upward".</param>
/// <param name="Acceleration">In units of gravity.</param>
/// <param name="TipsAt">Untied, in units of gravity; null where tipping isn't asked.</param>
/// <param name="Straps">In the order of the spec; empty if it can't be worked.</param>
/// <param name="Bed">N: what the bed must hold if no strap does.</param>
/// <param name="Missing">What can't be had, or what no strap holds.</param>
public sealed record TieDownRow(string Direction, double Acceleration, double? TipsAt, ImmutableArray<StrapLoad> Straps, double Bed, string Missing)
{
    /// <summary>The strap with the most to bear; null if none bears anything.</summary>
    public StrapLoad? Worst => Straps.Where(s => s.Most > 0).MaxBy(s => s.Rating is > 0 ? s.Most / s.Rating : s.Most);
}

/// <summary>
/// Straps from the truck's points to the camper's, as they lie: each holds along its own line. A point that names no place on the camper is taken to be held straight up its side, which
/// holds against tipping and lifting and not against sliding. Friction is left out.
/// </summary>
internal static class TieDowns
{
    private sealed record Placed(BoundFact Fact, string Name, Vec3 At, Vec3 To, double? Rating);

    public static ImmutableArray<TieDownRow> Of(Ledger ledger, MassModel masses, BoundFact carrier)
    {
        var straps = carrier.All("tie_down").Select(t => Read(ledger, t)).OfType<Placed>().ToList();
        TellTogether(ledger, carrier, straps);
        if (straps.Count == 0 || !masses.States.TryGetValue(LoadState.Ready, out var ready)) return [];
        var floor = ledger.Panels.Where(p => p.IsLevel && p.Lift is null).MinBy(p => p.Face.Origin.Z);
        if (floor is null) return [];
        // Either face may be the lower one.
        var foot = Box3.Of(floor.Outline.Corners.Select(c => floor.Face.ToWorld(c)).Concat(floor.Outline.Corners.Select(c => floor.Face.ToWorld(c, floor.Thickness))));
        var g = Accelerations(ledger, carrier);
        double height = (ready.Centre.Z - foot.Min.Z) / 1000, weight = ready.Weight.Likely * Customary.Gravity;
        var rows = ImmutableArray.CreateBuilder<TieDownRow>();
        foreach (var (direction, share, way, edge) in new[]
        {
            ("braking", g.Forward, Vec3.UnitX, foot.Max.X), ("speeding up", g.Rearward, -Vec3.UnitX, -foot.Min.X),
            ("turning left", g.Sideways, -Vec3.UnitY, -foot.Min.Y), ("turning right", g.Sideways, Vec3.UnitY, foot.Max.Y),
        })
        {
            double toEdge = (edge - ready.Centre.Dot(way)) / 1000;
            // A point on the edge, and the turn about it that the acceleration would give.
            var pivot = way * edge + new Vec3(0, 0, foot.Min.Z);
            var turn = Vec3.UnitZ.Cross(way);
            var seen = straps.Select(s => { var pull = (s.At - s.To).Unit; return new Strap(-(s.To - pivot).Cross(pull).Dot(turn) / 1000, -pull.Dot(way), -pull.Z); }).ToList();
            rows.Add(Row(ledger, carrier, direction, share, TieDown.TipsAt(height, toEdge).TryGet(out double tips) ? tips : null,
                TieDown.Forces(new TieDownCase(ready.Weight.Likely, height, toEdge, share, 0), seen).Map(f => (f.Tip, f.Slide)), straps, weight * share,
                $"a stiff body on straps that stretch alike: the larger of M r / sum r2 about the edge that it would tip over, M = W (a h - d), and W a c / sum c2 along the way that it would slide; a = {Say.Number(share)} g, h = {ledger.Say.Roughly(height * 1000)} from the floor to the centre, d = {ledger.Say.Roughly(toEdge * 1000)} from the centre to the edge, r the arm of a strap, c its slope, {straps.Count} straps; no friction"));
        }
        // A downward hold of a share of the weight: as if that much more than its weight pulled it up.
        rows.Add(Row(ledger, carrier, "upward", g.Upward, null, TieDown.Forces(new TieDownCase(ready.Weight.Likely, height, 0, 0, 1 + g.Upward), straps.Select(s => new Strap(0, 0, (s.To - s.At).Unit.Z)).ToList()).Map(f => (Tip: f.Lift, Slide: (ImmutableArray<double>?)[.. straps.Select(_ => 0.0)])),
            straps, weight * g.Upward, $"W a c / sum c2, a = {Say.Number(g.Upward)}, c the upright slope of a strap, {straps.Count} straps: a downward hold of that share of the weight"));
        return rows.ToImmutable();
    }

    private static Placed? Read(Ledger ledger, BoundFact fact)
    {
        if (ledger.Evaluator.Place(fact, "at") is not { } at) return null;
        var foot = new Vec3(at[0], at[1], at[2]);
        var head = fact.Has("to") && ledger.Evaluator.Place(fact, "to") is { } to ? new Vec3(to[0], to[1], to[2]) : foot + Vec3.UnitZ * 100;
        string name = fact.Name is { } full ? full[(full.LastIndexOf('.') + 1)..] : "tie_down";
        if ((head - foot).Length < 1)
        {
            ledger.Tell(EngineeringFindings.ImpossibleValue, $"{name} has both its ends at one place; a strap needs a length to pull along.", fact.Span, $"{fact.Parent?.Name}.{name}");
            return null;
        }
        double? point = fact.Has("rated") ? ledger.Evaluator.Number(fact, "rated") : null;
        if (ledger.Of(fact, "hardware") is { } bought && bought.Fact.Find("kind")?.Word("kind") is { } kind && kind is not ("tie_down" or "bracket"))
            ledger.Tell(EngineeringFindings.NoTieDown, $"{name} is held by {bought.Name}, which is {Article.With(kind)}.", fact.Span, $"{fact.Parent?.Name}.{name}", "Name what takes a pull: a turnbuckle, a strap, a bracket.");
        double? hardware = ledger.Of(fact, "hardware")?.Fact.Find("rated") is { } rated ? ledger.Evaluator.Number(rated, "value") : null;
        return new Placed(fact, name, foot, head, point is { } a && hardware is { } b ? Math.Min(a, b) : point ?? hardware);
    }

    /// <summary>Two straps from one point: where they are meant for the two sides, a sign slipped.</summary>
    private static void TellTogether(Ledger ledger, BoundFact carrier, List<Placed> straps)
    {
        for (int i = 1; i < straps.Count; i++)
        {
            var strap = straps[i];
            if (straps.Take(i).FirstOrDefault(s => s.At.DistanceTo(strap.At) < Customary.Inch) is not { } other) continue;
            bool free = Math.Abs(strap.At.Y) > Customary.Inch && !straps.Exists(s => s.At.DistanceTo(strap.At.Mirrored) < Customary.Inch);
            ImmutableArray<Fix> fixes = free && strap.Fact.Slots.TryGetValue("at", out var text) && text.Terms[0] is PlaceExpression { Items: [_, var aside, _] } ? Fixing.OtherSign(aside) : [];
            ledger.Tell(EngineeringFindings.TieDownsTogether, $"{strap.Name} is fixed to the truck where {other.Name} is.", strap.Fact.Span, $"{carrier.Name}.{strap.Name}", free ? "Nothing stands on the other side there: look at the signs of both its ends; y runs to the left." : "One strap is reckoned there as two.", fixes: fixes);
        }
    }

    internal static (double Forward, double Rearward, double Sideways, double Upward) Accelerations(Ledger ledger, BoundFact carrier)
    {
        var usual = TieDown.HighwayAccelerations;
        if (carrier.Find("tie_down_loads") is not { } stated) return usual;
        double Or(string slot, double otherwise) => ledger.Evaluator.Number(stated, slot) is >= 0 and var value ? value : otherwise;
        return (Or("forward", usual.Forward), Or("rear", usual.Rearward), Or("side", usual.Sideways), Or("up", usual.Upward));
    }

    private static TieDownRow Row(Ledger ledger, BoundFact carrier, string direction, double share, double? tips, Result<(ImmutableArray<double>? Tip, ImmutableArray<double>? Slide)> found, List<Placed> straps, double bed, string formula)
    {
        if (!found.TryGet(out var forces)) return new TieDownRow(direction, share, tips, [], bed, found.Reason!);
        bool up = direction == "upward";
        var loads = straps.Select((s, i) => new StrapLoad(s.Name, forces.Tip?[i], forces.Slide?[i], s.Rating)).ToImmutableArray();
        string missing = string.Join("; ", new[] { forces.Tip is null ? up ? "no strap holds it down" : "no strap holds against tipping" : "", forces.Slide is null ? "no strap holds against sliding" : "" }.Where(w => w.Length > 0));
        var row = new TieDownRow(direction, share, tips, loads, forces.Slide is null ? bed : 0, missing);
        ImmutableArray<string> inputs = ["total.weight_ready", "total.centre_z_ready", "total.centre_x_ready", "total.centre_y_ready"];
        string figure = $"{carrier.Name}.tie_down_force_{direction.Replace(' ', '_')}";
        double most = loads.Max(l => l.Most);
        // Nothing to bear because nothing could bear it is no force of none.
        if (most <= 0 && missing.Length > 0) ledger.Lack(figure, missing, carrier.NameSpan);
        else ledger.Add(figure, most, Dimension.OfForce, carrier.NameSpan, formula, inputs);
        if (row.Worst is { Rating: { } rating } worst && worst.Most > rating)
            ledger.Tell(EngineeringFindings.TieDownOver, $"{char.ToUpperInvariant(direction[0])}{direction[1..]} at {Say.Number(share)} g asks {ledger.Say.Force(worst.Most)} of {worst.Name}; the weakest of its parts is rated {ledger.Say.Force(rating)}.", straps.First(s => s.Name == worst.Name).Fact.Span, $"{carrier.Name}.tie_downs.{direction.Replace(' ', '_')}", "Let the straps lean against the way it would go, add straps, or use stronger ones.");
        return row;
    }

    /// <summary>What no strap holds against, one note for all directions.</summary>
    public static void TellLoose(Ledger ledger, BoundFact carrier, ImmutableArray<TieDownRow> rows)
    {
        var loose = rows.Where(r => r.Missing.StartsWith("no strap", StringComparison.Ordinal)).ToList();
        if (loose.Count == 0) return;
        ledger.Tell(EngineeringFindings.TieDownLoose, $"{carrier.Name}: {string.Join("; ", loose.Select(r => $"{r.Direction} at {Say.Number(r.Acceleration)} g {r.Missing}{(r.Bed > 0 ? $", so {ledger.Say.Force(r.Bed)} is left to the bed" : "")}"))}.", carrier.Find("tie_down")!.Span, $"{carrier.Name}.tie_downs", "Say where each strap meets the camper (to (x, y, z)), and let it lean against the way the camper would go.");
    }
}
