using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Framing;
using Wain.Core.Methods;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>What a joint between panels takes: screws, glue, fillets, tape, sealant, seals, trim, hardware, gussets.</summary>
internal static class JointTakeoff
{
    /// <summary>The first words of the figures of a joint: its label without blanks.</summary>
    public static string NameOf(PlacedJoint joint) => joint.Name.Replace(" ", "_", StringComparison.Ordinal);

    public static void Add(LineList lines, PlacedJoint joint)
    {
        var e = lines.Spec.Evaluator;
        string name = NameOf(joint);
        ImmutableArray<string> panels = joint.First.Panel == joint.Second.Panel ? [joint.First.Panel.Name] : [joint.First.Panel.Name, joint.Second.Panel.Name];
        foreach (var fact in joint.Fact.All("screws"))
        {
            if (lines.Of(fact, "screw") is not { } screw) continue;
            string how = fact.Has("count") ? "as the spec says" : ScrewRow.EndStated(e, fact) is null ? "so many that none holds more than the spacing, half a spacing from the ends" : "from end distance to end distance, none farther apart than the spacing";
            if (ScrewRow.Count(e, fact, joint.Length) is { } count) Fastenings.AddCount(lines, name, panels, LineKind.Screws, screw, count, how, fact.Span);
            else lines.Lack(lines.Key(name, screw.Name), name, panels, LineKind.Screws, screw, "every", fact.Span);
        }
        if (joint.Fact.Find("glue") is { } glue && lines.Of(glue, "glue") is { } adhesive)
        {
            var (width, how) = ContactWidth(lines.Spec, joint);
            Fastenings.AddGlue(lines, name, panels, adhesive, joint.Length * width, how, glue.Span);
        }
        foreach (var fact in joint.Fact.All("fillet")) AddFillet(lines, name, panels, joint, fact);
        foreach (var fact in joint.Fact.All("taped"))
        {
            if (lines.Of(fact, "tape") is { } tape) AddTape(lines, name, panels, tape, lines.Of(fact, "resin"), joint.Length, (int)Math.Clamp(e.Number(fact, "plies") ?? 1, 1, 20), fact);
        }
        foreach (var fact in joint.Fact.All("sealant"))
        {
            if (lines.Of(fact, "sealant") is { } sealant) AddSealant(lines, name, panels, sealant, joint.Length, (int)Math.Clamp(e.Number(fact, "beads") ?? 1, 1, 20), fact);
        }
        foreach (var fact in joint.Fact.All("trim")) if (lines.Of(fact, "trim") is { } trim) Fastenings.AddRun(lines, name, panels, LineKind.Trim, trim, joint.Length, "along the joint", fact.Span);
        if (joint.Fact.Find("seal") is { } sealFact && lines.Of(sealFact, "seal") is { } seal) Fastenings.AddRun(lines, name, panels, LineKind.Seal, seal, joint.Length, "along the joint", sealFact.Span);
        foreach (var fact in joint.Fact.All("hardware"))
        {
            if (lines.Of(fact, "hardware") is { } hardware) Fastenings.AddCount(lines, name, panels, LineKind.Hardware, hardware, (int)Math.Clamp(e.Number(fact, "count") ?? 1, 0, 10_000), "as the spec says", fact.Span);
        }
        if (joint.Fact.Find("gusset") is { } gusset && lines.Of<SheetMaterial>(gusset, "material") is { } sheet) AddGusset(lines, name, panels, sheet, gusset);
    }

    /// <summary>How wide the two panels touch across the joint (mm).</summary>
    internal static (double Width, string How) ContactWidth(Spec spec, PlacedJoint joint)
    {
        if (joint.First.IsFace && joint.Second.IsFace) return (Shared(joint.First.Panel, joint.Second.Panel) / joint.Length, "what the two faces share");
        var edge = joint.First.IsFace || joint.Through == joint.First.Panel ? joint.Second : joint.First;
        // A bevelled edge is longer than the panel is thick.
        double thickness = edge.Panel.Thickness / Math.Cos(edge.Panel.Outline.Edges[edge.Edge].Tilt);
        switch (joint.Kind)
        {
            case JointKind.Mitre:
                return (thickness, "the length of the joint times the width of the mitre");
            case JointKind.Lap when JointFit.Of(spec, joint) is { } fit:
                double reach = Math.Max(0, fit.Parallel ? fit.Asked ?? fit.Reach : fit.Reach);
                return fit.Parallel ? (reach, "the length of the joint times the width of the lap") : (thickness + reach, "the length of the joint times the floor and the side of the step");
            case JointKind.Rabbet when joint.Fact.Find("rabbet") is { } rabbet && spec.Evaluator.Length(rabbet, "depth") is { } depth:
                return (thickness + depth, "the length of the joint times the floor and the side of the rabbet");
            default:
                return (thickness, "the length of the joint times the thickness of the panel that stops, along its bevel");
        }
    }

    /// <summary>What two parallel faces share, seen square to them (mm2).</summary>
    private static double Shared(PlacedPanel a, PlacedPanel b) =>
        Overlap.Area(a.Outline, new Outline([.. b.Outline.Flattened(0.001).Corners.Select(c => JointFit.Local(a, b.Face.ToWorld(c))).Select(c => new OutlineEdge(c))]));

    /// <summary>
    /// Section of a cove of a radius in an angle (both mm and radians give mm2): what lies between the two faces and the arc that touches both,
    /// r2 (cot(angle / 2) - (pi - angle) / 2).
    /// </summary>
    public static double FilletSection(double radius, double angle) =>
        angle <= 0 || angle >= Math.PI ? 0 : radius * radius * (1 / Math.Tan(angle / 2) - (Math.PI - angle) / 2);

    private static void AddFillet(LineList lines, string name, ImmutableArray<string> panels, PlacedJoint joint, BoundFact fact)
    {
        var e = lines.Spec.Evaluator;
        if (lines.Of(fact, "paste") is not { } paste || e.Length(fact, "radius") is not { } radius) return;
        string key = lines.Key(name, paste.Name);
        bool both = fact.Says("both sides");
        double section = FilletSection(radius, joint.Dihedral) + (both ? FilletSection(radius, Math.PI - joint.Dihedral) : 0);
        double volume = section * joint.Length / 1e9;
        var resin = paste.Fact.Find("with") is { } with ? lines.Of(with, "resin") : null;
        double? ratio = Consistency(lines, paste, fact);
        string? lacks = paste.Figure("paste_density") is null ? "paste_density" : resin is null ? "with" : ratio is null ? "consistency" : paste.Figure("bulk_density") is null ? "bulk_density" : null;
        if (lacks is not null || resin?.Density is null)
        {
            lines.Lack(key, name, panels, LineKind.Fillet, lacks is null ? resin : paste, lacks ?? "density", fact.Span);
            return;
        }
        // Volumes of loose powder and of resin don't add, since the powder is mostly air: the two weights do, and share out the weight of the paste.
        var pasteDensity = paste.Figure("paste_density")!;
        double powder = ratio!.Value * paste.Figure("bulk_density")!.Value.Value, liquid = resin.Density.Value, resinShare = liquid / (liquid + powder);
        var mass = Weighing.SpreadOf(pasteDensity).Times(volume);
        string density = paste.Name + ".paste_density", share = key + ".resin_share";
        lines.Add(new TakeoffLine(key, name, panels, LineKind.Filler, paste, "mass", Weighing.Mass(mass.Likely * (1 - resinShare)), paste.Waste,
            $"{key}.volume * {density} * (1 - {share})", [key + ".volume", density, share], fact.Span)
        {
            Also =
            [
                new Measured("volume", new Quantity(volume, Dimension.OfVolume), both ? "coves on both sides, by radius and angle, along the joint" : "the cove, by radius and angle, along the joint", []),
                new Measured("resin_share", new Quantity(resinShare, Dimension.None), $"by weight, from the consistency: one of {resin.Name} to {Say(ratio.Value)} of powder by volume", [resin.Name + ".density", paste.Name + ".bulk_density"]),
            ],
            Weight = new LineWeight([new CausedSpread(density, mass.Times(1 - resinShare))], key + ".mass", [key + ".mass"], null),
        });
        string resinKey = lines.Key(name, resin.Name);
        lines.Add(new TakeoffLine(resinKey, name, panels, LineKind.Fillet, resin, "mass", Weighing.Mass(mass.Likely * resinShare), resin.Waste, $"{key}.volume * {density} * {share}", [key + ".volume", density, share], fact.Span)
        {
            Weight = new LineWeight([new CausedSpread(density, mass.Times(resinShare))], resinKey + ".mass", [resinKey + ".mass"], null),
        });
        if (lines.Of(fact, "tape") is { } tape) AddTape(lines, name, panels, tape, resin, joint.Length * (both ? 2 : 1), 1, fact);
    }

    /// <summary>Volumes of powder to one of resin: the consistency that the fillet names, or the only one that the filler has.</summary>
    private static double? Consistency(LineList lines, Material paste, BoundFact fillet)
    {
        var all = paste.Fact.All("consistency").ToList();
        var chosen = fillet.Word("consistency") is { } word ? all.FirstOrDefault(c => c.Name == word) : all.Count == 1 ? all[0] : null;
        return chosen is null ? null : lines.Spec.Evaluator.Number(chosen, "volumes");
    }

    private static void AddTape(LineList lines, string name, ImmutableArray<string> panels, Material tape, Material? resin, double mm, int plies, BoundFact fact)
    {
        string key = lines.Key(name, tape.Name);
        double? width = tape.Fact.Find("width") is { } w ? lines.Spec.Evaluator.Length(w, "value") : null;
        var length = Quantity.FromMillimetres(mm * plies);
        var area = new Quantity(length.Value * (width ?? 0) / 1000, Dimension.OfArea);
        string areaName = key + ".area";
        var dry = width is null ? LineWeight.Missing("width") : Weighing.Times(areaName, area.Value, tape, "weight");
        lines.Add(new TakeoffLine(key, name, panels, LineKind.Tape, tape, "length", length, tape.Waste, plies == 1 ? "along the joint" : "along the joint, once for each ply", [], fact.Span)
        {
            Also = width is null ? [] : [new Measured("area", area, $"{key}.length * {tape.Name}.width", [key + ".length", tape.Name + ".width"])],
            Weight = dry,
        });
        string resinKey = resin is null ? key + ".resin" : lines.Key(name, resin.Name);
        string? lacks = resin is null ? "resin" : !dry.IsKnown ? dry.Lacks : tape.Figure("glass") is null ? "glass" : null;
        if (lacks is not null)
        {
            lines.Lack(resinKey, name, panels, LineKind.Resin, tape, lacks, fact.Span);
            return;
        }
        string content = tape.Name + ".glass", weight = key + ".weight";
        var (mass, parts) = Weighing.WetOut(dry, content, tape.Figure("glass")!);
        lines.Add(new TakeoffLine(resinKey, name, panels, LineKind.Resin, resin!, "mass", Weighing.Mass(mass), resin!.Waste, $"{weight} * (1 - {content}) / {content}", [weight, content], fact.Span)
        {
            Weight = new LineWeight(parts, resinKey + ".mass", [resinKey + ".mass"], null),
        });
    }

    private static void AddSealant(LineList lines, string name, ImmutableArray<string> panels, Material sealant, double mm, int beads, BoundFact fact)
    {
        string key = lines.Key(name, sealant.Name);
        var e = lines.Spec.Evaluator;
        if (sealant.Fact.Find("bead") is not { } bead || e.Length(bead, "width") is not { } width || e.Length(bead, "depth") is not { } depth)
        {
            lines.Lack(key, name, panels, LineKind.Sealant, sealant, "bead", fact.Span);
            return;
        }
        var run = Quantity.FromMillimetres(mm * beads);
        var volume = new Quantity(run.Value * width * depth / 1e6, Dimension.OfVolume);
        lines.Add(new TakeoffLine(key, name, panels, LineKind.Sealant, sealant, "volume", volume, sealant.Waste, $"{key}.run * {sealant.Name}.bead.width * {sealant.Name}.bead.depth", [key + ".run", sealant.Name + ".bead.width", sealant.Name + ".bead.depth"], fact.Span)
        {
            Also = [new Measured("run", run, "along the joint, once for each bead", [])],
            Weight = Weighing.Times(key + ".volume", volume.Value, sealant, "density"),
        });
    }

    private static void AddGusset(LineList lines, string name, ImmutableArray<string> panels, SheetMaterial sheet, BoundFact fact)
    {
        var e = lines.Spec.Evaluator;
        if (e.Length(fact, "leg") is not { } leg || e.Length(fact, "other") is not { } other) return;
        double count = e.Number(fact, "count") ?? 1;
        string key = lines.Key(name, sheet.Name);
        var area = Weighing.Area(leg * other / 2 * count);
        var volume = Weighing.Volume(leg * other / 2 * count * sheet.Thickness);
        lines.Add(new TakeoffLine(key, name, panels, LineKind.Gusset, sheet, "area", area, sheet.Waste, "triangles, half of leg times leg", [], fact.Span)
        {
            Also = [new Measured("volume", volume, $"{key}.area * {sheet.Name}.thickness", [key + ".area", sheet.Name + ".thickness"])],
            Weight = Weighing.OfSheet(sheet, key, volume.Value),
        });
    }

    private static string Say(double value) => value.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture);
}
