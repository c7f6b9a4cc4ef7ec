using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Engineering.Methods;
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
}

/// <summary>One thing that a case asks of a panel.</summary>
/// <param name="Of">The layer or member.</param>
/// <param name="Value">m for a deflection, otherwise Pa.</param>
/// <param name="Allowable">In the same unit; null if none is stated.</param>
/// <param name="Source">Where the allowable comes from, or why there is none.</param>
public sealed record StrengthRow(string Case, string Panel, string Load, string Method, StrengthKind Kind, string Of, double? Value, double? Allowable, string Source)
{
    /// <summary>What is in hand, as a share of the value: allowable over value less one. Null if there is no allowable.</summary>
    public double? Margin => Value is { } v && Allowable is { } a && v > 0 ? a / v - 1 : null;
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
            ? AsPlate(section, load, stated is null ? u : Math.Min(u, stated.Value), stated is null ? v : Math.Min(v, width ?? v), edges)
            : AsBeam(section, load, stated ?? Math.Min(u, v), width, alongU: u <= v, edges);
        if (!response.TryGet(out var found))
        {
            ledger.Lack(name + ".deflection", response.Reason!, fact.NameSpan);
            ledger.Tell(EngineeringFindings.SectionUnknown, $"Case {name} can't be worked: {response.Reason}.", fact.NameSpan, name);
            return [new StrengthRow(name, panel.Name, load.Words, method, StrengthKind.Deflection, panel.Stack.Name, null, null, response.Reason!)];
        }
        return Rows(ledger, fact, panel, section, load, method, edges, found);
    }

    /// <summary>What a section does: deflection and span (m), stresses of the layers along U and along V (Pa), one for each layer.</summary>
    private sealed record Response(double Deflection, double Span, ImmutableArray<LayerStress>? AlongU, ImmutableArray<LayerStress>? AlongV);

    private static Result<Response> AsBeam(PanelSection section, CaseLoad load, double span, double? width, bool alongU, string edges)
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
            return beam.Then(b => LayeredSection.Stresses(layers, b.Moment / strip, b.Shear / strip).Map(st => new Response(b.Deflection, span, alongU ? st : null, alongU ? null : st)));
        });
    }

    private static Result<Response> AsPlate(PanelSection section, CaseLoad load, double a, double b, string edges)
    {
        // In-plane shear of plywood is at least its shear through the thickness, so the plate is taken too soft in twist rather than too stiff. Without Poisson's ratio likewise.
        var layers = section.Layers.Select(l => new PlateLayer(l.Thickness, l.ModulusU, l.ModulusV, l.Core ? 0 : l.Material.Figure("poisson")?.Value.Value ?? 0, l.Core ? l.BareShear : l.ShearU, l.ShearU, l.ShearV)).ToArray();
        var patch = load.Force > 0 ? PlateLoad.Patch(load.Force, a / 2, b / 2, Math.Min(load.PatchWidth, a), Math.Min(load.PatchLength, b)) : PlateLoad.Whole(load.Pressure, a, b);
        return Plates.Stiffness(layers).Then(s => (edges == "fixed" ? PlateRitz.Respond(s, a, b, PlateEdges.All(EdgeHold.Clamped), patch) : PlateSeries.Respond(s, a, b, patch, load.Force > 0 ? 45 : 25)).Then(r =>
        {
            Result<ImmutableArray<LayerStress>> Along(double moment, double shear, bool alongU) =>
                LayeredSection.Stresses([.. section.Layers.Select(l => new ElasticLayer(l.Thickness, alongU ? l.ModulusU : l.ModulusV, alongU ? l.ShearU : l.ShearV))], moment, shear);
            return Along(r.Peak.Mx, r.Peak.Qx, true).Then(x => Along(r.Peak.My, r.Peak.Qy, false).Map(y => new Response(r.Peak.Deflection, Math.Min(a, b), x, y)));
        }));
    }

    private static IEnumerable<StrengthRow> Rows(Ledger ledger, BoundFact fact, PlacedPanel panel, PanelSection section, CaseLoad load, string method, string edges, Response found)
    {
        string name = fact.Name!, how = method == "plate" ? $"plate, {edges} edges" : $"beam, {edges}";
        StrengthRow Row(StrengthKind kind, string of, double value, double? allowable, string source) => new(name, panel.Name, load.Words, how, kind, of, value, allowable, source);
        double? limit = fact.Find("deflection") is { } d ? ledger.Evaluator.Number(d, "limit") : null;
        ImmutableArray<string> inputs = [.. section.Layers.SelectMany(l => new[] { l.Material.Name + ".modulus", l.Material.Name + ".shear_modulus" }).Append(load.Figure).Distinct(StringComparer.Ordinal)];
        ledger.Add(name + ".deflection", found.Deflection, Dimension.OfLength, fact.NameSpan, method == "plate" ? "orthotropic layered plate with shear deformation, at its worst point" : "layered strip with bending and shear", inputs);
        var rows = new List<StrengthRow> { Row(StrengthKind.Deflection, panel.Name, found.Deflection, limit is { } share ? share * found.Span : null, limit is { } l ? $"1/{Say.Number(1 / l, "0")} of a span of {Text.Show.Length(Math.Round(found.Span * 1000, 1))}, as the spec says" : "the spec states no limit") };
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
        Judge(ledger, fact, rows);
        foreach (var kind in rows.Where(r => r.Kind != StrengthKind.Deflection).GroupBy(r => r.Kind))
        {
            string key = kind.Key switch { StrengthKind.FaceStress => "face_stress", StrengthKind.CoreShear => "core_shear", StrengthKind.MemberStress => "member_stress", _ => "wrinkling_stress" };
            ledger.Add($"{name}.{key}", kind.Max(r => r.Value!.Value), Dimension.OfPressure, fact.NameSpan, "the largest of its layers, by the layered section under the moments and shears of the case", inputs);
        }
        if (rows.Where(r => r.Margin is not null).MinBy(r => r.Margin) is { } least) ledger.Add(name + ".margin", least.Margin!.Value, Dimension.None, fact.NameSpan, "the least of allowable over value, less one, of those that have an allowable", [name + ".deflection"]);
        return rows;
    }

    /// <summary>Strength over safety, with both sources. No safety factor is put in where none is stated.</summary>
    private static (double? Pascal, string Source) Allowable(Material material, string property)
    {
        if (material.Figure(property) is not { Value.Value: > 0 } strength) return (null, $"{material.Name} states no {property}");
        if (material.Figure("safety") is not { Value.Value: > 0 } safety) return (null, $"{material.Name} states no safety, so its {property} is no allowable");
        return (strength.Value.Value / safety.Value.Value, $"{strength.Source ?? "no source stated"}, over {Say.Number(safety.Value.Value)}{(safety.Source is { } s ? $" ({s})" : "")}");
    }

    private static void Judge(Ledger ledger, BoundFact fact, List<StrengthRow> rows)
    {
        string name = fact.Name!;
        foreach (var row in rows.Where(r => r.Margin is < 0))
        {
            if (row.Kind == StrengthKind.Deflection)
                ledger.Tell(EngineeringFindings.DeflectionOver, $"Case {name}: {row.Panel} sags {Text.Show.Length(Math.Round(row.Value!.Value * 1000, 2))} and may {Text.Show.Length(Math.Round(row.Allowable!.Value * 1000, 2))} ({row.Source}).", fact.NameSpan, name + ".deflection");
            else
                ledger.Tell(EngineeringFindings.StressOver, $"Case {name}: {Words(row.Kind)} of {row.Of} in {row.Panel} comes to {Say.Psi(row.Value!.Value)}; {Say.Psi(row.Allowable!.Value)} is allowable ({row.Source}).", fact.NameSpan, $"{name}.{row.Kind.ToString().ToLowerInvariant()}", "An estimate, not certified engineering: thicken the panel, shorten the span, or lower the load.");
        }
        foreach (var group in rows.Where(r => r.Allowable is null && r.Kind != StrengthKind.Deflection).GroupBy(r => r.Source))
            ledger.Tell(EngineeringFindings.NoAllowable, $"Case {name} gives no margin for {string.Join(" and ", group.Select(r => Words(r.Kind)).Distinct())} of {group.First().Of}: {group.Key}.", fact.NameSpan, $"{name}.{group.First().Of.Split(' ')[0]}");
    }

    public static string Words(StrengthKind kind) => kind switch
    {
        StrengthKind.Deflection => "deflection",
        StrengthKind.FaceStress => "face stress",
        StrengthKind.MemberStress => "member stress",
        StrengthKind.CoreShear => "core shear",
        _ => "face wrinkling",
    };
}

/// <summary>The load of a case, in Pa, or in N on a patch (m).</summary>
/// <param name="Figure">The figure that states it.</param>
internal sealed record CaseLoad(string Words, double Pressure, double Force, double PatchWidth, double PatchLength, string Figure)
{
    public static CaseLoad? Read(Ledger ledger, BoundFact fact)
    {
        string name = fact.Name!;
        if (fact.Find("uniform") is { } uniform && ledger.Stated(name + ".uniform", uniform, "pressure") is { } pressure)
            return new($"{Say.Number(pressure / Customary.Psf, "0.#")} lb/ft2 all over", pressure, 0, 0, 0, name + ".uniform");
        if (fact.Find("patch") is { } patch && ledger.Stated(name + ".patch", patch, "force") is { } force)
            return new($"{Say.PoundsForce(force)} on a patch", 0, force, ledger.Evaluator.Number(patch, "width") ?? 0.3, ledger.Evaluator.Number(patch, "length") ?? 0.3, name + ".patch");
        if (fact.Find("wind") is not { } wind || ledger.Stated(name + ".wind", wind, "speed") is not { } speed) return null;
        double q = WindAndSnow.StagnationPressure(speed).Or(0) * ledger.Default("wind_coefficient");
        ledger.Add(name + ".wind_pressure", q, Dimension.OfPressure, wind.Span, $"half the density of air times speed squared, times default.wind_coefficient", [name + ".wind", "default.wind_coefficient"]);
        return new($"wind of {Say.Number(speed / Customary.MilePerHour, "0")} mph", q, 0, 0, 0, name + ".wind_pressure");
    }
}
