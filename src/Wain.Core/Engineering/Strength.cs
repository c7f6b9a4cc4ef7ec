using Wain.Core.Text;
using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

public enum StrengthKind
{
    Deflection,
    FaceStress,
    MemberStress,
    CoreShear,
    Wrinkling,
    SpliceBond,
    SpliceSkin,
    JointShear,
    JointPull,
    GussetBond,
    ScrewPull,
    ScrewShear,
}

/// <summary>One thing that a case asks of a panel.</summary>
/// <param name="Of">The layer or member.</param>
/// <param name="Value">m for a deflection, N for one screw, otherwise Pa.</param>
/// <param name="Allowable">In the same unit; null if none is stated.</param>
/// <param name="Source">Where the allowable comes from, or why there is none.</param>
public sealed record StrengthRow(string Case, string Panel, string Load, string Method, StrengthKind Kind, string Of, double? Value, double? Allowable, string Source)
{
    /// <summary>What is in hand, as a share of the value: allowable over value less one. Null if there is no allowable.</summary>
    public double? Margin => Value is { } v && Allowable is { } a && v > 0 ? a / v - 1 : null;

    public bool IsForce => Kind is StrengthKind.ScrewPull or StrengthKind.ScrewShear;

    /// <summary>Of what joins, which is worked by strips and not by the plate.</summary>
    public bool IsJoint => Kind >= StrengthKind.JointShear;
}

internal static class Strength
{
    public static ImmutableArray<StrengthRow> Of(Ledger ledger)
    {
        var rows = ImmutableArray.CreateBuilder<StrengthRow>();
        var cased = new HashSet<string>(StringComparer.Ordinal);
        var sections = new Dictionary<string, PanelSection>(StringComparer.Ordinal);
        foreach (var fact in ledger.Spec.All("case").OrderBy(c => c.Name, StringComparer.Ordinal))
        {
            if (fact.Name is null || ledger.Panel(ledger.Evaluator.Thing(fact, "panel")?.Name) is not { } panel) continue;
            cased.Add(panel.DesignName);
            if (!sections.TryGetValue(panel.Name, out var section)) sections[panel.Name] = section = PanelSection.Of(ledger, panel);
            rows.AddRange(One(ledger, fact, panel, section));
        }
        foreach (var (panel, what) in Bearing(ledger))
        {
            if (!cased.Contains(panel.DesignName))
                ledger.Tell(EngineeringFindings.NoCase, $"{panel.Name} {what} and has no load case, so nothing is said of its strength.", panel.Fact.NameSpan, panel.Name + ".case", $"Add a case on {panel.Name} with the load that you want it to bear.");
        }
        return rows.ToImmutable();
    }

    /// <summary>Panels that people lie under or on: a lifted roof, and what sleepers rest on.</summary>
    private static IEnumerable<(PlacedPanel Panel, string What)> Bearing(Ledger ledger)
    {
        foreach (var panel in ledger.Panels)
            if (panel.IsLevel && panel.Lift is not null && panel.Mirrored is null) yield return (panel, "is a roof over people");
        foreach (var load in ledger.Input.Takeoff.Loads.Where(l => l.IsPeople))
        {
            var under = load.On is { } on ? ledger.Panel(on) : load.At is not { } at ? null : ledger.Panels.Where(p => p.IsLevel && p.Lift is null && Under(p, new Vec3(at[0], at[1], at[2]))).MaxBy(p => p.Face.Origin.Z);
            if (under is not null) yield return (under, $"bears {load.Name}");
        }
    }

    private static bool Under(PlacedPanel panel, Vec3 at)
    {
        var local = panel.Face.ToLocal(at);
        return panel.Face.ToWorld(new Vec2(local.X, local.Y)).Z <= at.Z && panel.Outline.Contains(new Vec2(local.X, local.Y));
    }

    private static IEnumerable<StrengthRow> One(Ledger ledger, BoundFact fact, PlacedPanel panel, PanelSection section)
    {
        string name = fact.Name!;
        var load = CaseLoad.Read(ledger, fact);
        if (load is null && fact.Find("patch") is not null) return [];
        if (load is null)
        {
            ledger.Tell(EngineeringFindings.CaseWithoutLoad, $"Case {name} states no load.", fact.NameSpan, name, "Add uniform, patch or wind.");
            return [];
        }
        if (section.Lacks.Length > 0 || section.Missing is not null)
        {
            foreach (var (material, property, from) in section.Lacks) ledger.Lack(name + ".deflection", material, property, from);
            if (section.Missing is { } why)
            {
                ledger.Lack(name + ".deflection", why, fact.NameSpan);
                ledger.Tell(EngineeringFindings.SectionUnknown, $"Case {name} can't be worked: {why}.", fact.NameSpan, name);
            }
            return [new StrengthRow(name, panel.Name, load.Words, "", StrengthKind.Deflection, panel.Stack.Name, null, null, section.Missing ?? $"{section.Lacks[0].Material.Name} states no {section.Lacks[0].Property}")];
        }
        string edges = fact.Find("edges")?.Word("edges") ?? "simple", method = edges == "cantilever" ? "beam" : fact.Find("method")?.Word("method") ?? "beam";
        double u = panel.Width / 1000, v = panel.Height / 1000;
        double? stated = ledger.Stated(name + ".span", fact.Find("span"), "span"), width = fact.Find("span") is { } s ? ledger.Evaluator.Number(s, "width") : null;
        var response = method == "plate"
            ? AsPlate(ledger.Say, section, load, stated is null ? u : Math.Min(u, stated.Value), stated is null ? v : Math.Min(v, width ?? v), edges)
            : AsBeam(ledger.Say, section, load, stated ?? Math.Min(u, v), width, alongU: u <= v, edges);
        if (!response.TryGet(out var found))
        {
            ledger.Lack(name + ".deflection", response.Reason!, fact.NameSpan);
            ledger.Tell(EngineeringFindings.SectionUnknown, $"Case {name} can't be worked: {response.Reason}.", fact.NameSpan, name);
            return [new StrengthRow(name, panel.Name, load.Words, method, StrengthKind.Deflection, panel.Stack.Name, null, null, response.Reason!)];
        }
        return Rows(ledger, fact, panel, section, load, method, edges, found);
    }

    /// <summary>What a section does: deflection and span (m), stresses of the layers along U and along V (Pa), one for each layer.</summary>
    /// <param name="Parts">The bending and the shear part of a strip's deflection; null for a plate, whose series doesn't part them.</param>
    /// <param name="Formula">Of the deflection, in symbols, with the values of those that are no figures of their own.</param>
    private sealed record Response(double Deflection, double Span, (double Bending, double Shear)? Parts, string Formula, ImmutableArray<LayerStress>? AlongU, ImmutableArray<LayerStress>? AlongV);

    private static Result<Response> AsBeam(Say say, PanelSection section, CaseLoad load, double span, double? width, bool alongU, string edges)
    {
        var layers = section.Layers.Select(l => new ElasticLayer(l.Thickness, alongU ? l.ModulusU : l.ModulusV, alongU ? l.ShearU : l.ShearV)).ToArray();
        // A strip a metre wide for what is spread; a patch is borne by a strip of its own width, which is on the safe side.
        double strip = load.Force > 0 ? width ?? load.PatchWidth : width ?? 1;
        return LayeredSection.Stiffness(layers).Then(s =>
        {
            double flexural = s.Flexural * strip, shear = s.Shear * strip, total = load.Force > 0 ? load.Force : load.Pressure * span * strip;
            var beam = load.Force > 0
                ? edges switch
                {
                    "fixed" => Beams.Respond(BeamCase.FixedCentral, total, span, flexural, shear),
                    "cantilever" => Beams.Respond(BeamCase.CantileverEnd, total, span, flexural, shear),
                    _ => Beams.CentralPatch(total, span, Math.Min(load.PatchLength, span), flexural, shear),
                }
                : Beams.Respond(edges switch { "fixed" => BeamCase.FixedUniform, "cantilever" => BeamCase.CantileverUniform, _ => BeamCase.SimpleUniform }, total, span, flexural, shear);
            string words = $"{BeamFormula(load, edges)}; {(load.Force > 0 ? $"P on a strip b = {say.Roughly(strip * 1000)}, " : "")}L = {say.Roughly(span * 1000)}, D = {Bending(say, s.Flexural)} and S = {Shearing(say, s.Shear)}, from the layers";
            return beam.Then(b => LayeredSection.Stresses(layers, b.Moment / strip, b.Shear / strip).Map(st => new Response(b.Deflection, span, (b.Bending, b.Shearing), words, alongU ? st : null, alongU ? null : st)));
        });
    }

    private static string BeamFormula(CaseLoad load, string edges) => (load.Force > 0, edges) switch
    {
        (false, "fixed") => "q L^4/(384 D) + q L^2/(8 S)",
        (false, "cantilever") => "q L^4/(8 D) + q L^2/(2 S)",
        (false, _) => "5 q L^4/(384 D) + q L^2/(8 S)",
        (true, "fixed") => "P L^3/(192 D b) + P L/(4 S b)",
        (true, "cantilever") => "P L^3/(3 D b) + P L/(S b)",
        _ => "P L^3/(48 D b) + P L/(4 S b), less what the length of the patch takes off",
    };

    // Stiffness of a strip, for each unit of its width.
    private static string Bending(Say say, double newtonMetre) => say.Metric ? Say.Number(newtonMetre, "0") + " N m2/m" : Say.Number(newtonMetre / (Customary.PoundForce * Customary.Inch), "0") + " lbf in2/in";

    private static string Shearing(Say say, double newtonPerMetre) => say.Metric ? Say.Number(newtonPerMetre / 1000, "0") + " kN/m" : Say.Number(newtonPerMetre * Customary.Inch / Customary.PoundForce, "0") + " lbf/in";

    private static string PlateFormula(Say say, PlateStiffness s, double a, double b, string edges)
    {
        string method = edges == "fixed" ? "clamped orthotropic plate with shear, by Ritz" : "simply held orthotropic plate with shear, by double sine series";
        return $"{method}, at its worst point; {say.Roughly(a * 1000)} by {say.Roughly(b * 1000)}, D {Bending(say, s.D11)} and {Bending(say, s.D22)}, D12 + 2 D66 {Bending(say, s.D12 + 2 * s.D66)}, S {Shearing(say, s.S1)} and {Shearing(say, s.S2)}, from the layers";
    }

    private static Result<Response> AsPlate(Say say, PanelSection section, CaseLoad load, double a, double b, string edges)
    {
        // In-plane shear of plywood is at least its shear through the thickness, so the plate is taken too soft in twist rather than too stiff. Without Poisson's ratio likewise.
        var layers = section.Layers.Select(l => new PlateLayer(l.Thickness, l.ModulusU, l.ModulusV, l.Core ? 0 : l.Material.Figure("poisson")?.Value.Value ?? 0, l.Core ? l.BareShear : l.ShearU, l.ShearU, l.ShearV)).ToArray();
        var patch = load.Force > 0 ? PlateLoad.Patch(load.Force, a / 2, b / 2, Math.Min(load.PatchWidth, a), Math.Min(load.PatchLength, b)) : PlateLoad.Whole(load.Pressure, a, b);
        return Plates.Stiffness(layers).Then(s => (edges == "fixed" ? PlateRitz.Respond(s, a, b, PlateEdges.All(EdgeHold.Clamped), patch) : PlateSeries.Respond(s, a, b, patch, load.Force > 0 ? 45 : 25)).Then(r =>
        {
            Result<ImmutableArray<LayerStress>> Along(double moment, double shear, bool alongU) =>
                LayeredSection.Stresses([.. section.Layers.Select(l => new ElasticLayer(l.Thickness, alongU ? l.ModulusU : l.ModulusV, alongU ? l.ShearU : l.ShearV))], moment, shear);
            return Along(r.Peak.Mx, r.Peak.Qx, true).Then(x => Along(r.Peak.My, r.Peak.Qy, false).Map(y => new Response(r.Peak.Deflection, Math.Min(a, b), null, PlateFormula(say, s, a, b, edges), x, y)));
        }));
    }

    private static IEnumerable<StrengthRow> Rows(Ledger ledger, BoundFact fact, PlacedPanel panel, PanelSection section, CaseLoad load, string method, string edges, Response found)
    {
        string name = fact.Name!, how = method == "plate" ? $"plate, {edges} edges" : $"beam, {edges}";
        StrengthRow Row(StrengthKind kind, string of, double value, double? allowable, string source) => new(name, panel.Name, load.Words, how, kind, of, value, allowable, source);
        double? limit = fact.Find("deflection") is { } d ? ledger.Evaluator.Number(d, "limit") : null;
        ImmutableArray<string> inputs = [.. section.Layers.SelectMany(l => new[] { l.Material.Name + ".modulus", l.Material.Name + ".shear_modulus" }).Append(load.Figure).Distinct(StringComparer.Ordinal)];
        string deflection = name + ".deflection";
        if (found.Parts is { } parts)
        {
            ledger.Add(deflection + "_bending", parts.Bending, Dimension.OfLength, fact.NameSpan, "its bending part: " + found.Formula, inputs);
            ledger.Add(deflection + "_shear", parts.Shear, Dimension.OfLength, fact.NameSpan, "its shear part: " + found.Formula, inputs);
            ledger.Add(deflection, found.Deflection, Dimension.OfLength, fact.NameSpan, $"{deflection}_bending + {deflection}_shear", [deflection + "_bending", deflection + "_shear"]);
        }
        else ledger.Add(deflection, found.Deflection, Dimension.OfLength, fact.NameSpan, found.Formula, inputs);
        var rows = new List<StrengthRow> { Row(StrengthKind.Deflection, panel.Name, found.Deflection, limit is { } share ? share * found.Span : null, limit is { } l ? $"{(l > 0 ? $"1/{Say.Number(1 / l, "0")}" : "nothing")} of a span of {ledger.Say.Length(Math.Round(found.Span * 1000, 1))}, as the spec says" : "the spec states no limit") };
        for (int i = 0; i < section.Layers.Length; i++)
        {
            var layer = section.Layers[i];
            var stresses = new[] { found.AlongU?[i], found.AlongV?[i] };
            double Most(Func<LayerStress, double> of) => stresses.Max(x => x is null ? 0 : of(x));
            string of = $"{layer.Material.Name} (layer {i + 1})";
            if (!layer.Core)
            {
                double stress = Most(x => Math.Max(Math.Abs(x.Outer), Math.Abs(x.Inner)));
                var (allowable, source) = Allowable(layer.Material, "bending_strength");
                rows.Add(Row(StrengthKind.FaceStress, of, stress, allowable, source));
                var core = section.Layers.FirstOrDefault(x => x.Core);
                if (core is not null && Wrinkling.Stress(layer.Bare, core.Bare, core.BareShear).TryGet(out double wrinkles))
                {
                    double? safety = layer.Material.Figure("safety")?.Value.Value;
                    rows.Add(Row(StrengthKind.Wrinkling, of, stress, safety is > 0 ? wrinkles / safety : null, safety is > 0 ? $"0.5 times the cube root of face modulus, core modulus and core shear modulus, over {Say.Number(safety.Value)}" : $"{layer.Material.Name} states no safety"));
                }
                continue;
            }
            // The smeared shear stress belongs to what is between the members in the ratio of the shear moduli.
            double bare = new[] { (S: stresses[0], G: layer.ShearU), (S: stresses[1], G: layer.ShearV) }.Max(x => x.S is null ? 0 : x.S.Shear * layer.BareShear / x.G);
            var (shearLimit, shearSource) = Allowable(layer.Material, "shear_strength");
            rows.Add(Row(StrengthKind.CoreShear, of, bare, shearLimit, shearSource));
            if (layer.Rib is { } rib && layer.Layer.Material is { } stick)
            {
                double member = new[] { (S: stresses[0], E: layer.ModulusU, Share: layer.AlongU), (S: stresses[1], E: layer.ModulusV, Share: layer.AlongV) }
                    .Max(x => x.S is null || x.Share <= 0 ? 0 : Math.Max(Math.Abs(x.S.Outer), Math.Abs(x.S.Inner)) * rib / x.E);
                var (memberLimit, memberSource) = Allowable(stick, "bending_strength");
                if (member > 0) rows.Add(Row(StrengthKind.MemberStress, stick.Name, member, memberLimit, memberSource));
            }
        }
        JointStrength.Splices(ledger, fact, panel, section, (i, alongU) => (alongU ? found.AlongU : found.AlongV)?[i], load.Words, how, rows);
        JointStrength.Joints(ledger, fact, panel, load, found.Span, edges, "the edge bears half the shorter side", rows);
        Judge(ledger, fact, new StrongEnough.Asked(panel, section, load, found.Span, found.Parts), rows);
        var keys = new List<string> { deflection };
        foreach (var kind in Enum.GetValues<StrengthKind>())
        {
            if (kind == StrengthKind.Deflection) continue;
            StrengthRow? worst = null;
            foreach (var row in rows) if (row.Kind == kind && row.Value is { } value && value > (worst?.Value ?? double.NegativeInfinity)) worst = row;
            if (worst is null) continue;
            keys.Add($"{name}.{Key(kind)}");
            ledger.Add(keys[^1], worst.Value!.Value, worst.IsForce ? Dimension.OfForce : Dimension.OfPressure, fact.NameSpan, Formula(worst, load, edges), worst.IsJoint ? [load.Figure, panel.Name + (panel.Width <= panel.Height ? ".width" : ".height")] : inputs);
        }
        StrengthRow? least = null;
        foreach (var row in rows) if (row.Margin is { } m && (least is null || m < least.Margin)) least = row;
        if (least is not null)
            ledger.Add(name + ".margin", least.Margin!.Value, Dimension.None, fact.NameSpan, $"the least of all margins, that of {Words(least.Kind)} ({least.Of}): allowable / value - 1, allowable {Amount(ledger.Say, least, least.Allowable!.Value)}, value {Amount(ledger.Say, least, least.Value!.Value)}", [.. keys], least.Source);
        return rows;
    }

    private static string Key(StrengthKind kind) => kind switch
    {
        StrengthKind.FaceStress => "face_stress",
        StrengthKind.MemberStress => "member_stress",
        StrengthKind.CoreShear => "core_shear",
        StrengthKind.Wrinkling => "wrinkling_stress",
        StrengthKind.SpliceBond => "splice_bond",
        StrengthKind.SpliceSkin => "splice_skin",
        StrengthKind.JointShear => "joint_shear",
        StrengthKind.JointPull => "joint_pull",
        StrengthKind.GussetBond => "gusset_bond",
        StrengthKind.ScrewPull => "screw_pull",
        _ => "screw_shear",
    };

    /// <summary>How the largest value of a kind comes about; the layer or joint that has it is named.</summary>
    private static string Formula(StrengthRow row, CaseLoad load, string edges)
    {
        bool held = edges == "cantilever";
        string line = held ? load.Force > 0 ? "patch force over the width of the patch" : "load times the span" : load.Force > 0 ? "patch force over the width of the patch" : "load times half the panel's shorter side";
        return row.Kind switch
        {
            StrengthKind.FaceStress or StrengthKind.Wrinkling => $"E (N/A + M z/D) at the outer fibre of {row.Of}, E its modulus, D that of all layers",
            StrengthKind.MemberStress => $"the same strain as the core has, times the modulus of {row.Of}",
            StrengthKind.CoreShear => $"V (sum of E z t beyond it)/(D b) in {row.Of}",
            StrengthKind.SpliceBond => $"stress times thickness of the skin over the lap, {row.Of}",
            StrengthKind.SpliceSkin => $"stress times thickness of the skin over what the lap leaves, {row.Of}",
            StrengthKind.JointPull when held => $"6 M/w^2, M = {line}, times {(load.Force > 0 ? "the span" : "half the span")}, w the width of the glue line, {row.Of}",
            StrengthKind.ScrewPull when held => $"M s/(w/2), M = {line}, times {(load.Force > 0 ? "the span" : "half the span")}, s the spacing of the screws, w the width of the edge, {row.Of}",
            StrengthKind.GussetBond when held => $"sqrt((F/(l t))^2 + ((3 F b + 6 M)/(l^2 t))^2), F and M of the held edge on one gusset, {row.Of}",
            StrengthKind.JointShear or StrengthKind.JointPull => $"{line}, over the width of the glue line, {row.Of}",
            StrengthKind.GussetBond => $"F sqrt(1/(l t)^2 + (3 b/(l^2 t))^2), F the edge load on one gusset, {row.Of}",
            _ => $"{line}, times the spacing of the screws, {row.Of}",
        };
    }

    private static string Amount(Say say, StrengthRow row, double value) => row.Kind == StrengthKind.Deflection ? say.Length(Math.Round(value * 1000, 2)) : row.IsForce ? say.Force(value) : say.Pressure(value);

    /// <summary>Strength over safety, with both sources. No safety factor is put in where none is stated.</summary>
    internal static (double? Pascal, string Source) Allowable(Material material, string property)
    {
        if (material.Figure(property) is not { Value.Value: > 0 } strength) return (null, $"{material.Name} states no {property}");
        if (material.Figure("safety") is not { Value.Value: > 0 } safety) return (null, $"{material.Name} states no safety, so its {property} is no allowable");
        return (strength.Value.Value / safety.Value.Value, $"{strength.Source ?? "no source stated"}, over {Say.Number(safety.Value.Value)}{(safety.Source is { } s ? $" ({s})" : "")}");
    }

    private static void Judge(Ledger ledger, BoundFact fact, StrongEnough.Asked asked, List<StrengthRow> rows)
    {
        string name = fact.Name!;
        foreach (var row in rows.Where(r => r.Margin is < 0))
        {
            var (would, fixes) = StrongEnough.Of(ledger, asked, row);
            if (row.Kind == StrengthKind.Deflection)
                ledger.Tell(EngineeringFindings.DeflectionOver, $"Case {name}: {row.Panel} sags {ledger.Say.Length(Math.Round(row.Value!.Value * 1000, 2))} and may {ledger.Say.Length(Math.Round(row.Allowable!.Value * 1000, 2))} ({row.Source}).", fact.NameSpan, name + ".deflection", would is null ? null : $"By this estimate it would keep to that with {would}.", fixes: fixes);
            else if (row.IsJoint)
            {
                // Glue that holds leaves the screws and gussets beside it nothing to do, so they are not told as a fault.
                string joint = row.Of[..row.Of.IndexOf(':')];
                if (row.Kind is not (StrengthKind.JointShear or StrengthKind.JointPull) && rows.Exists(r => r.Kind is StrengthKind.JointShear && r.Margin is >= 0 && r.Of.StartsWith(joint + ":", StringComparison.Ordinal))) continue;
                ledger.Tell(EngineeringFindings.StressOver, $"Case {name}: {Words(row.Kind)} ({row.Of}) comes to {Amount(ledger.Say, row, row.Value!.Value)}; {Amount(ledger.Say, row, row.Allowable!.Value)} is allowable ({row.Source}).", fact.NameSpan, $"{name}.{row.Kind.ToString().ToLowerInvariant()}", "An estimate on the safe side, not certified engineering: set screws closer, widen the joint, or lower the load.", Findings.Level.Warning);
            }
            else
                ledger.Tell(EngineeringFindings.StressOver, $"Case {name}: {Words(row.Kind)} of {row.Of} in {row.Panel} comes to {ledger.Say.Pressure(row.Value!.Value)}; {ledger.Say.Pressure(row.Allowable!.Value)} is allowable ({row.Source}).", fact.NameSpan, $"{name}.{row.Kind.ToString().ToLowerInvariant()}", "An estimate, not certified engineering: " + (would is null ? "thicken the panel, shorten the span, or lower the load." : $"it would hold with {would}."), fixes: fixes);
        }
        // By kind and not by the name of one joint: a panel that is renamed changes nothing of what is told.
        foreach (var group in rows.Where(r => r.Allowable is null && r.Kind != StrengthKind.Deflection).GroupBy(r => r.Source))
        {
            var of = group.Select(r => r.Of).Distinct(StringComparer.Ordinal).ToList();
            string where = of.Count == 1 ? of[0] : group.First().IsJoint ? $"{of.Count} joints" : string.Join(" and ", of);
            ledger.Tell(EngineeringFindings.NoAllowable, $"Case {name} gives no margin for {string.Join(" and ", group.Select(r => Words(r.Kind)).Distinct())} of {where}: {group.Key}.", fact.NameSpan, $"{name}.{(group.First().IsJoint ? Key(group.First().Kind) : of[0].Split(' ')[0].TrimEnd(':'))}");
        }
    }

    public static string Words(StrengthKind kind) => kind switch
    {
        StrengthKind.Deflection => "deflection",
        StrengthKind.FaceStress => "face stress",
        StrengthKind.MemberStress => "member stress",
        StrengthKind.CoreShear => "core shear",
        StrengthKind.Wrinkling => "face wrinkling",
        StrengthKind.SpliceBond => "bond of a splice",
        StrengthKind.SpliceSkin => "skin at a splice",
        StrengthKind.JointShear => "glue line of a joint in shear",
        StrengthKind.JointPull => "glue line of a joint pulled open",
        StrengthKind.GussetBond => "bond of a gusset",
        StrengthKind.ScrewPull => "pull on one screw",
        _ => "shear on one screw",
    };
}

/// <summary>The load of a case, in Pa, or in N on a patch (m).</summary>
/// <param name="Figure">The figure that states it.</param>
internal sealed record CaseLoad(string Words, double Pressure, double Force, double PatchWidth, double PatchLength, string Figure, bool IsWind = false)
{
    public static CaseLoad? Read(Ledger ledger, BoundFact fact)
    {
        string name = fact.Name!;
        if (fact.Find("uniform") is { } uniform && ledger.Stated(name + ".uniform", uniform, "pressure") is { } pressure)
            return new($"{ledger.Say.Spread(pressure)} all over", pressure, 0, 0, 0, name + ".uniform");
        if (fact.Find("patch") is { } patch)
        {
            double force = ledger.Stated(name + ".patch", patch, "force") ?? 0, width = ledger.Evaluator.Number(patch, "width") ?? 0, length = ledger.Evaluator.Number(patch, "length") ?? 0;
            if (force <= 0 || width <= 0 || length <= 0) return null;
            return new($"{ledger.Say.Force(force)} on a patch", 0, force, width, length, name + ".patch");
        }
        if (fact.Find("wind") is not { } wind || ledger.Stated(name + ".wind", wind, "speed") is not { } speed) return null;
        double q = WindAndSnow.StagnationPressure(speed).Or(0) * ledger.Default("wind_coefficient");
        ledger.Add(name + ".wind_pressure", q, Dimension.OfPressure, wind.Span, $"0.613 * V^2 * default.wind_coefficient, V = {Say.Number(speed, "0.0")} m/s", [name + ".wind", "default.wind_coefficient"]);
        return new($"wind of {ledger.Say.Speed(speed)}", q, 0, 0, 0, name + ".wind_pressure", IsWind: true);
    }
}
