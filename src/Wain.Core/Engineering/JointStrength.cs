using Wain.Core.Text;
using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Pieces;
using Wain.Core.Takeoff;

namespace Wain.Core.Engineering;

/// <summary>
/// What a load case asks of the joints round its panel and of the splices in its skins. Each edge is taken to bear the strip that reaches to the middle of the panel (load times half
/// its shorter side, which no edge of a plate exceeds by its mean), and each way of holding as if it held alone: stiff glue leaves screws and gussets nothing until it breaks,
/// so their strengths don't add. Fillets and tape are not counted.
/// </summary>
internal static class JointStrength
{
    public static void Joints(Ledger ledger, BoundFact fact, PlacedPanel panel, CaseLoad load, double span, string edges, string how, List<StrengthRow> rows)
    {
        if (edges == "cantilever")
        {
            Cantilever(ledger, fact, panel, load, span, rows);
            return;
        }
        double shorter = Math.Min(panel.Width, panel.Height) / 1000, patch = Math.Min(load.PatchWidth, load.PatchLength);
        double line = load.Force > 0 ? load.Force / patch : load.Pressure * shorter / 2;
        foreach (var joint in ledger.JointsOf(panel))
        {
            StrengthRow Row(StrengthKind kind, string of, double? value, double? allowable, string source) => new(fact.Name!, panel.Name, load.Words, how, kind, $"{joint.Name}: {of}", value, allowable, source);
            var (glue, screws) = Held(ledger, joint);
            if (glue is null && screws is null) continue;
            bool pulls = PullsOff(panel, joint, load, out bool presses);
            if (presses) continue;
            if (glue is not null)
            {
                double stress = line / (JointTakeoff.ContactWidth(ledger.Spec, joint).Width / 1000);
                var (allowable, source) = pulls ? (null, $"{glue.Name} states no strength for a pull square to its glue line") : Strength.Allowable(glue, "shear_strength");
                rows.Add(Row(pulls ? StrengthKind.JointPull : StrengthKind.JointShear, glue.Name, stress, allowable, source));
            }
            if (screws is not null) Screws(ledger, joint, screws, line, load.Force > 0 ? patch : joint.Length / 1000, pulls, Row, rows);
            if (!pulls && glue is not null && joint.Fact.Find("gusset") is { } gusset) Gusset(ledger, joint, gusset, glue, line * Math.Min(load.Force > 0 ? patch : joint.Length / 1000, joint.Length / 1000), Row, rows);
        }
    }

    private static (Material? Glue, BoundFact? Screws) Held(Ledger ledger, PlacedJoint joint) =>
        (joint.Fact.Find("unglued") is not null || joint.Fact.Find("glue") is not { } glued ? null : ledger.Of(glued, "glue"), joint.Fact.Find("screws"));

    /// <summary>
    /// The held edge of a cantilever passes on all of its load and the moment of it: M = q L^2/2, or P L of a patch at the free edge, on each length of the edge. A glue line bears the moment as
    /// the section of a beam, pulled open at one side; screws in a row by their pull, about the far side of the edge; a gusset in its own plane. Each as if it held alone. Walls and fillets
    /// that stand on the panel and stiffen it are left out: a cabover with side walls has far more in hand than its floor alone.
    /// </summary>
    private static void Cantilever(Ledger ledger, BoundFact fact, PlacedPanel panel, CaseLoad load, double span, List<StrengthRow> rows)
    {
        double strip = load.PatchWidth, line = load.Force > 0 ? load.Force / strip : load.Pressure * span, moment = load.Force > 0 ? line * span : line * span / 2;
        bool any = false;
        foreach (var joint in ledger.JointsOf(panel))
        {
            StrengthRow Row(StrengthKind kind, string of, double? value, double? allowable, string source) => new(fact.Name!, panel.Name, load.Words, "held edge of a cantilever", kind, $"{joint.Name}: {of}", value, allowable, source);
            var (glue, screws) = Held(ledger, joint);
            var own = ReferenceEquals(joint.First.Panel, panel) ? joint.First : joint.Second;
            if (own.IsFace || glue is null && screws is null) continue;
            any = true;
            double width = JointTakeoff.ContactWidth(ledger.Spec, joint).Width / 1000, length = joint.Length / 1000, borne = load.Force > 0 ? Math.Min(strip, length) : length;
            if (glue is not null)
            {
                var (allowable, source) = Strength.Allowable(glue, "shear_strength");
                rows.Add(Row(StrengthKind.JointShear, glue.Name, line / width, allowable, source));
                rows.Add(Row(StrengthKind.JointPull, glue.Name, 6 * moment / (width * width), null, $"{glue.Name} states no strength for a pull square to its glue line"));
            }
            if (screws is not null)
            {
                Screws(ledger, joint, screws, line, borne, pulls: false, Row, rows);
                Screws(ledger, joint, screws, moment / (width / 2), borne, pulls: true, Row, rows);
            }
            if (glue is not null && joint.Fact.Find("gusset") is { } gusset) Gusset(ledger, joint, gusset, glue, line * borne, Row, rows, moment * borne);
        }
        if (!any) rows.Add(new StrengthRow(fact.Name!, panel.Name, load.Words, "held edge of a cantilever", StrengthKind.JointPull, panel.Name + ": held edge", null, null, "no joint of an edge of it is glued or screwed, so the moment at its held edge is not followed"));
    }

    /// <summary>
    /// A panel that meets another with its edge is sheared along it by a load square to the panel. A panel that others stand against with their edges is pulled off them or
    /// pressed onto them: gravity acts downward on what lies level, wind either way.
    /// </summary>
    private static bool PullsOff(PlacedPanel panel, PlacedJoint joint, CaseLoad load, out bool presses)
    {
        presses = false;
        var (own, other) = ReferenceEquals(joint.First.Panel, panel) ? (joint.First, joint.Second) : (joint.Second, joint.First);
        if (!own.IsFace) return false;
        if (!panel.IsLevel || load.IsWind) return true;
        double above = other.Panel.Face.ToWorld(other.Panel.Outline.Centroid(), other.Panel.Thickness / 2).Z - panel.Face.ToWorld(panel.Outline.Centroid(), panel.Thickness / 2).Z;
        presses = above < 0;
        return !presses;
    }

    private static void Screws(Ledger ledger, PlacedJoint joint, BoundFact screws, double line, double borne, bool pulls, Func<StrengthKind, string, double?, double?, string, StrengthRow> row, List<StrengthRow> rows)
    {
        if (ledger.Of(screws, "screw") is not { } screw || ScrewRow.Count(ledger.Evaluator, screws, joint.Length) is not (> 0 and var count)) return;
        double length = joint.Length / 1000, spacing = length / count;
        // A load on a patch is borne by the screws that lie under it, at least by one.
        double each = line * Math.Min(length, Math.Min(borne, length) <= spacing ? borne : spacing);
        var kind = pulls ? StrengthKind.ScrewPull : StrengthKind.ScrewShear;
        var (allowable, source) = ScrewHolds(ledger, joint, screws, screw, pulls);
        rows.Add(row(kind, screw.Name, each, allowable, source));
    }

    /// <summary>Reference value of one screw, N, by the NDS, or why there is none.</summary>
    private static (double? Newton, string Source) ScrewHolds(Ledger ledger, PlacedJoint joint, BoundFact screws, Material screw, bool pulls)
    {
        var e = ledger.Evaluator;
        if (screw.Fact.Find("kind")?.Word("kind") is { } kind && kind != "wood_screw") return (null, $"no reference value is given for {Article.With(kind.Replace('_', ' '))}");
        if (ScrewPath.Diameter(ledger.Spec, screw.Fact) is not { } shank) return (null, $"{screw.Name} states no diameter");
        if (screw.Fact.Find("length") is not { } stated || e.Length(stated, "value") is not { } long_) return (null, $"{screw.Name} states no length");
        if (ScrewPath.Of(joint, screws) is not { } path) return (null, "neither panel runs through, so what the screw ends in is not known");
        double bite = Math.Min(long_ - path.Passes, path.Wood);
        if (bite <= 0) return (null, $"{screw.Name} does not reach {path.Into.Name}");
        if (EndsIn(path.Into) is not { } wood) return (null, $"{screw.Name} ends in the edge of a sheet, for which the NDS gives no value");
        if (wood.Fact.Find("kind")?.Word("kind") is { } made && (made is "aluminium" or "steel" or "plastic")) return (null, $"{screw.Name} ends in {made}, for which the NDS gives no value");
        if (wood.Figure("specific_gravity")?.Value.Value is not { } gravity) return (null, $"{wood.Name} states no specific_gravity");
        string grown = $"G {Say.Number(gravity)} of {wood.Name}";
        if (pulls)
        {
            if (screw.Fact.Find("thread") is not { } threaded || e.Length(threaded, "value") is not { } thread) return (null, $"{screw.Name} states no thread");
            double held = Math.Min(bite, thread);
            return Withdrawal.ScrewReference(gravity, shank / 1000, held / 1000).TryGet(out double pull)
                ? (pull, $"NDS 12.2.2, 2850 G2 D for each inch of thread, {grown}, {ledger.Say.Length(Math.Round(held, 1))} of thread in side grain")
                : (null, "the NDS gives no value");
        }
        double? root = screw.Fact.Find("diameter") is { } d ? e.Length(d, "root") : null;
        if (root is not > 0) return (null, $"{screw.Name} states no root diameter");
        // The screw leans on the weakest wood of what it passes; a rail is taken to lie under it, as a perimeter member does.
        double side = gravity;
        foreach (var layer in path.Through.Stack.Layers)
            if (layer.Kind is LayerKind.Sheet or LayerKind.Frame && layer.Material?.Figure("specific_gravity")?.Value.Value is { } its) side = Math.Min(side, its);
        var found = LateralYield.WoodScrew(new WoodScrewSize(screw.Name, shank / 1000, root.Value / 1000), side, gravity, path.Passes / 1000, bite / 1000);
        return found.TryGet(out var value) ? (value.Load, $"NDS 12.3, yield mode {value.Governs}, {grown}, {ledger.Say.Length(Math.Round(bite, 1))} in {path.Into.Name}") : (null, found.Reason!);
    }

    /// <summary>The stick at the edge of a panel; null where a screw ends in sheet.</summary>
    private static Material? EndsIn(PlacedPanel panel) => panel.Stack.Frame?.Material;

    private static void Gusset(Ledger ledger, PlacedJoint joint, BoundFact gusset, Material glue, double force, Func<StrengthKind, string, double?, double?, string, StrengthRow> row, List<StrengthRow> rows, double moment = 0)
    {
        var e = ledger.Evaluator;
        if (ledger.Of(gusset, "material") is not SheetMaterial sheet || e.Length(gusset, "leg") is not { } leg || e.Length(gusset, "other") is not { } other) return;
        double count = Math.Max(1, e.Number(gusset, "count") ?? 1);
        var found = Bonds.Gusset(force / count, leg / 1000, other / 1000, sheet.Thickness / 1000, moment / count);
        var (allowable, source) = Strength.Allowable(glue, "shear_strength");
        rows.Add(row(StrengthKind.GussetBond, sheet.Name, found.TryGet(out double stress) ? stress : null, allowable, found.Reason ?? source));
    }

    /// <summary>
    /// A splice passes on what its skin bears, taken as if it lay where the skin is stressed most. The bond is told by its mean: the ends of a lap bear more (Volkersen), by how much
    /// depends on a glue line that nobody measures. What the routed lap or the scarf leaves of the skin is told as well.
    /// </summary>
    public static void Splices(Ledger ledger, BoundFact fact, PlacedPanel panel, PanelSection section, Func<int, bool, LayerStress?> stressOf, string load, string how, List<StrengthRow> rows)
    {
        var told = new HashSet<(int Layer, bool AlongU)>();
        foreach (var splice in ledger.SplicesOf(panel))
        {
            int i = Layer(section, splice.Layer);
            if (i < 0 || !told.Add((i, splice.AlongU)) || stressOf(i, splice.AlongU) is not { } found) continue;
            var skin = section.Layers[i];
            double stress = Math.Max(Math.Abs(found.Outer), Math.Abs(found.Inner)), thick = skin.Thickness, borne = stress * thick;
            string of = $"splice in {skin.Material.Name} (layer {i + 1})";
            StrengthRow Row(StrengthKind kind, double? value, double? allowable, string source) => new(fact.Name!, panel.Name, load, how, kind, of, value, allowable, source);
            double? bond = null, left = null;
            var (strength, source) = Strength.Allowable(skin.Material, "bending_strength");
            switch (splice.Rule.Kind)
            {
                case SpliceKind.Lap when splice.Overlap > 0:
                    var (first, second) = splice.Rule.LapDepths(thick * 1000);
                    bond = borne / (splice.Overlap / 1000);
                    left = thick - Math.Max(first, second) / 1000 is > 0 and var leaf ? borne / leaf : null;
                    break;
                case SpliceKind.Scarf when Bonds.Scarf(stress, splice.Rule.Slope).TryGet(out var scarf):
                    bond = scarf.Shear;
                    left = stress;
                    // A scarf of clear wood has less than its full strength: Wood Handbook.
                    var efficiency = Bonds.ScarfEfficiency(splice.Rule.Slope);
                    (strength, source) = efficiency.TryGet(out double share) ? (strength * share, strength is null ? source : $"{source}, times {Say.Percent(share)} for a scarf of 1 in {Say.Number(splice.Rule.Slope)} (Wood Handbook, from memory)") : (null, efficiency.Reason!);
                    break;
                case SpliceKind.Butt when splice.Rule.Backing > 0:
                    // Each side of the butt has half of the strip.
                    bond = borne / (splice.Rule.Backing / 2000);
                    break;
                default:
                    rows.Add(Row(StrengthKind.SpliceBond, null, null, "a butt without a strip behind it carries nothing that can be counted on"));
                    continue;
            }
            if (splice.Rule.Glue is { } glue)
            {
                var (allowable, from) = Strength.Allowable(glue, "shear_strength");
                rows.Add(Row(StrengthKind.SpliceBond, bond, allowable, from));
            }
            else rows.Add(Row(StrengthKind.SpliceBond, bond, null, "the splice names no glue"));
            if (left is not null) rows.Add(Row(StrengthKind.SpliceSkin, left, strength, source));
        }
    }

    private static int Layer(PanelSection section, StackLayer layer)
    {
        for (int i = 0; i < section.Layers.Length; i++)
            if (ReferenceEquals(section.Layers[i].Layer, layer)) return i;
        return -1;
    }
}
