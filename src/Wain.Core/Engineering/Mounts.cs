using Wain.Core.Text;
using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Methods;
using Wain.Core.Takeoff;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

/// <summary>
/// The mounts of a subframe under the camper ready to travel, at the accelerations that its tie-downs are held against. An estimate by statics: one stiff body on mounts that give alike,
/// which push and pull; each takes its even share along the way. The frame of a truck twists and shares otherwise.
/// </summary>
internal static class Mounts
{
    private sealed record Placed(BoundFact Fact, string Name, Vec3 At, double? Rating);

    public static void Judge(Ledger ledger, MassModel masses, BoundFact carrier)
    {
        var mounts = carrier.All("mount").Select(m => Read(ledger, m)).OfType<Placed>().ToList();
        if (mounts.Count == 0 || !masses.States.TryGetValue(LoadState.Ready, out var ready)) return;
        var g = TieDowns.Accelerations(ledger, carrier);
        double weight = ready.Weight.Likely * Customary.Gravity, plane = mounts.Average(m => m.At.Z), height = (ready.Centre.Z - plane) / 1000;
        ImmutableArray<LiftPoint> points = [.. mounts.Select(m => new LiftPoint(m.At.X / 1000, m.At.Y / 1000))];
        foreach (var (direction, share, way) in new[] { ("braking", g.Forward, Vec3.UnitX), ("speeding up", g.Rearward, -Vec3.UnitX), ("turning left", g.Sideways, -Vec3.UnitY), ("turning right", g.Sideways, Vec3.UnitY) })
        {
            // The moment of the acceleration moves the weight that far along the way.
            double x = ready.Centre.X / 1000 + way.X * share * height, y = ready.Centre.Y / 1000 + way.Y * share * height;
            string figure = $"{carrier.Name}.mount_force_{direction.Replace(' ', '_')}";
            var found = LiftPoints.Rigid(weight, x, y, points);
            if (!found.TryGet(out var upright))
            {
                ledger.Lack(figure, found.Reason!, carrier.Find("mount")!.Span);
                continue;
            }
            double along = weight * share / mounts.Count;
            var loads = mounts.Select((m, i) => (Mount: m, Force: Math.Sqrt(along * along + upright[i] * upright[i]), Up: upright[i])).ToList();
            ledger.Add(figure, loads.Max(l => l.Force), Dimension.OfForce, carrier.Find("mount")!.Span,
                $"the most of {mounts.Count} mounts: W a / n along the way and its share of W upright, with the centre moved by a h; a = {Say.Number(share)} g, h = {ledger.Say.Roughly(height * 1000)} from the mounts to the centre; one stiff body on mounts that give alike", ["total.weight_ready", "total.centre_x_ready", "total.centre_y_ready", "total.centre_z_ready"]);
            var over = loads.Where(l => l.Mount.Rating is { } rating && l.Force > rating).OrderByDescending(l => l.Force / l.Mount.Rating!.Value).ToList();
            if (over.Count > 0 && over[0] is var worst)
                ledger.Tell(EngineeringFindings.MountOver, $"{char.ToUpperInvariant(direction[0])}{direction[1..]} at {Say.Number(share)} g asks {ledger.Say.Force(worst.Force)} of mount {worst.Mount.Name}, {ledger.Say.Force(Math.Abs(worst.Up))} of it {(worst.Up < 0 ? "upward" : "downward")}; it is rated {ledger.Say.Force(worst.Mount.Rating!.Value)}{(over.Count > 1 ? $" ({over.Count - 1} more {(over.Count == 2 ? "is" : "are")} over)" : "")}.",
                    worst.Mount.Fact.Span, $"{carrier.Name}.mounts.{direction.Replace(' ', '_')}", "Use stronger mounts, more of them, or set them farther apart.");
        }
    }

    private static Placed? Read(Ledger ledger, BoundFact fact)
    {
        if (ledger.Evaluator.Place(fact, "at") is not { } at) return null;
        double? stated = fact.Has("rated") ? ledger.Evaluator.Number(fact, "rated") : null;
        double? bought = ledger.Of(fact, "hardware")?.Fact.Find("rated") is { } rated ? ledger.Evaluator.Number(rated, "value") : null;
        return new Placed(fact, fact.Name is { } full ? full[(full.LastIndexOf('.') + 1)..] : "mount", new Vec3(at[0], at[1], at[2]), stated is { } a && bought is { } b ? Math.Min(a, b) : stated ?? bought);
    }
}
