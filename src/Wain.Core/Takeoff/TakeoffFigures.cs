using System.Collections.Immutable;
using Wain.Core.Methods;
using Wain.Core.Figures;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>
/// The figures of geometry and takeoff by name. Thing first, then what of it; a layer of a panel by its material:
/// <c>rear_wall.area</c>, <c>rear_wall.ply_6mm.volume</c>, <c>ply_6mm.packs</c>, <c>bunk.misclosure</c>, <c>total.weight</c>.
/// </summary>
public static class TakeoffFigures
{
    public static FigureBook Of(TakeoffResult takeoff)
    {
        var figures = new FigureList();
        var designed = takeoff.Structure.Stacks.ToDictionary(s => s.Name, s => s.Thickness, StringComparer.Ordinal);
        AddMaterials(figures, takeoff);
        foreach (var stack in takeoff.Structure.Stacks)
        {
            figures.Add(stack.Name + ".thickness", Quantity.FromMillimetres(stack.Thickness), stack.Fact.Span, "its layers, before cloth and coatings",
                [.. stack.Layers.Where(l => l.Material is SheetMaterial).Select(l => l.Material!.Name + ".thickness").Distinct(StringComparer.Ordinal)]);
        }
        foreach (var plan in takeoff.Structure.Plans) AddPlan(figures, plan);
        foreach (var line in takeoff.Lines) AddLine(figures, takeoff, line);
        foreach (var missing in takeoff.Missing) AddMissing(figures, missing);
        foreach (var load in takeoff.Loads) AddLoad(figures, takeoff.Structure.Spec.Evaluator, load);
        Costs.AddBuying(figures, takeoff);
        var byPanel = takeoff.Lines.Where(l => l.IsOfBarePanel).ToLookup(l => l.Panels[0], StringComparer.Ordinal);
        var missingOf = takeoff.Missing.Where(m => m.Panels.Length == 1).ToLookup(m => m.Panels[0], StringComparer.Ordinal);
        var built = takeoff.Built.GroupBy(b => b.Panel, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        foreach (var panel in takeoff.Panels)
        {
            AddPanel(figures, panel, Math.Abs(panel.Thickness - designed.GetValueOrDefault(panel.Stack.Name, panel.Thickness)) > 0.005);
            AddPanelWeight(figures, panel, byPanel[panel.Name], missingOf[panel.Name], built.GetValueOrDefault(panel.Name));
        }
        AddMeasured(figures, takeoff);
        Costs.AddPanels(figures, takeoff, byPanel, missingOf, built);
        Totals.Add(figures, takeoff, byPanel, missingOf, built);
        return figures.ToBook();
    }

    /// <summary>What a tape said of a panel that isn't fitted yet, and by how much it is off the design. A fitted panel is placed as measured, and its own width and height say so.</summary>
    private static void AddMeasured(FigureList figures, TakeoffResult takeoff)
    {
        var e = takeoff.Structure.Spec.Evaluator;
        foreach (var fact in takeoff.Structure.Spec.All("built"))
        {
            if (fact.Find("fitted") is not null || e.Thing(fact, "of") is not { Name: { } name } || takeoff.Structure.Panel(name) is not { } panel) continue;
            foreach (var measured in fact.All("measured"))
            {
                if (measured.Word("what") is not { } what || what is not ("width" or "height") || e.Length(measured, "value") is not { } mm) continue;
                figures.Add($"{name}.{what}_measured", Quantity.FromMillimetres(mm), measured.Span, "as the spec says");
                figures.Add(new Figure($"{name}.{what}_difference", Quantity.FromMillimetres(mm - (what == "width" ? panel.Width : panel.Height)), measured.Span, $"{name}.{what}_measured - {name}.{what}", [$"{name}.{what}_measured", $"{name}.{what}"]));
            }
        }
    }

    private static void AddMaterials(FigureList figures, TakeoffResult takeoff)
    {
        foreach (var material in takeoff.Structure.Materials)
        {
            foreach (var (keyword, figure) in material.Figures)
                figures.Add(new Figure($"{material.Name}.{keyword}", figure.Value, figure.From, "as the spec says", [], figure.Source, figure.Low, figure.High));
            if (material is SheetMaterial sheet && material.Fact.Find("thickness") is { } thickness)
                figures.Add(material.Name + ".thickness", Quantity.FromMillimetres(sheet.Thickness), thickness.Span, sheet.MeasuredThickness is null ? "true thickness, as the spec says" : "as measured");
            if (material is StickMaterial stick && material.Fact.Find("section") is { } section)
                figures.Add(material.Name + ".section_area", Weighing.Area(stick.SectionArea), section.Span, stick.Wall is null ? "thickness times width" : "thickness times width, less the hollow");
            if (material.Fact.Find("overpack") is { } overpack && takeoff.Structure.Spec.Evaluator.Quantity(overpack, "share") is { } over) figures.Add(material.Name + ".overpack", over, overpack.Span, "as the spec says");
            if (material.Kind == "tape" && material.Fact.Find("width") is { } width && takeoff.Structure.Spec.Evaluator.Quantity(width, "value") is { } wide) figures.Add(material.Name + ".width", wide, width.Span, "as the spec says");
            if (material.Fact.Find("bead") is { } bead)
            {
                foreach (string side in (string[])["width", "depth"]) if (takeoff.Structure.Spec.Evaluator.Quantity(bead, side) is { } size) figures.Add($"{material.Name}.bead.{side}", size, bead.Span, "as the spec says");
            }
            if (material.Fact.Find("waste") is { } waste) figures.Add(material.Name + ".waste", new Quantity(material.Waste, Dimension.None), waste.Span, "as the spec says");
        }
        foreach (var value in takeoff.Defaults.Values)
            figures.Add(new Figure("default." + value.Name, value.Value, value.From, value.Shipped ? "a default that the program ships" : "as the spec says", [], value.Source));
        foreach (var camper in takeoff.Structure.Spec.All("camper"))
        {
            if (camper.Find("squeeze_out") is { } fact && takeoff.Structure.Spec.Evaluator.Quantity(fact, "share") is { } share) figures.Add("camper.squeeze_out", share, fact.Span, "as the spec says");
        }
    }

    private static void AddPlan(FigureList figures, PlacedPlan plan)
    {
        var span = plan.Fact.Span;
        figures.Add(plan.Name + ".area", Weighing.Area(plan.Outline.Area()), span, "inside its outline");
        figures.Add(plan.Name + ".perimeter", Quantity.FromMillimetres(plan.Outline.Perimeter), span, "round its outline");
        figures.Add(plan.Name + ".misclosure", Quantity.FromMillimetres(plan.Misfits.Select(m => m.Error).DefaultIfEmpty(0).Max()), span, "the most that a stated measure disagrees with the others, at the leg's far end");
    }

    private static void AddPanel(FigureList figures, PlacedPanel panel, bool measured)
    {
        var (name, span) = (panel.Name, panel.Fact.HeadSpan);
        figures.Add(name + ".width", Quantity.FromMillimetres(panel.Width), span, "over all, at the outside face");
        figures.Add(name + ".height", Quantity.FromMillimetres(panel.Height), span, "over all, at the outside face");
        if (measured) figures.Add(name + ".thickness", Quantity.FromMillimetres(panel.Thickness), span, "as measured of what is fitted");
        else figures.Add(name + ".thickness", Quantity.FromMillimetres(panel.Thickness), span, panel.Stack.Name + ".thickness", panel.Stack.Name + ".thickness");
        figures.Add(name + ".perimeter", Quantity.FromMillimetres(panel.Outline.Perimeter), span, "round its outside face");
        string outline = name + ".area";
        figures.Add(outline, Weighing.Area(panel.Outline.Area()), span, "inside its outline, at the outside face, openings counted in");
        var inputs = new List<string> { outline };
        double holes = 0;
        foreach (var opening in panel.Openings)
        {
            string key = $"{name}.{opening.Name}";
            double hole = Overlap.Area(panel.Outline, opening.Hole);
            holes += hole;
            figures.Add(key + ".width", Quantity.FromMillimetres(opening.Width), opening.Fact.Span, "as cut");
            figures.Add(key + ".height", Quantity.FromMillimetres(opening.Height), opening.Fact.Span, "as cut");
            figures.Add(key + ".area", Weighing.Area(hole), opening.Fact.Span, "the hole, corners rounded");
            inputs.Add(key + ".area");
        }
        figures.Add(name + ".net_area", Weighing.Area(panel.Outline.Area() - holes), span, string.Join(" - ", inputs), [.. inputs]);
    }

    private static void AddLine(FigureList figures, TakeoffResult takeoff, TakeoffLine line)
    {
        foreach (var also in line.Also) figures.Add(line.Name(also.Name), also.Value, line.From, also.Formula, also.Inputs);
        figures.Add(line.Name(line.Measure), line.Net, line.From, line.Formula, line.Inputs);
        if (line.Waste != 0)
        {
            string net = line.Name(line.Measure), waste = line.Material.Name + ".waste";
            var factors = new List<string>();
            if (line.Also.FirstOrDefault(a => a.Name == "squeezed_out") is { } squeezed) factors.Add(squeezed.Inputs[^1]);
            if (line.Material.Waste != 0) factors.Add(waste);
            figures.Add(line.Name("need"), line.Gross, line.From, net + string.Concat(factors.Select(f => $" * (1 + {f})")), [net, .. factors]);
        }
        if (line.Weight.IsKnown)
            figures.Add(line.Name("weight"), Spreads.SumByCause(line.Weight.Parts), Dimension.OfMass, line.From, line.Weight.Formula, line.Weight.Inputs);
        else figures.Lack(line.Name("weight"), Why(line.Material, line.Weight.Lacks!), line.Material.Fact.NameSpan);
    }

    private static string Why(Material material, string lacks) => material.Figure(lacks) is null ? $"{material.Name} states no {lacks}" : $"{material.Name}.{lacks} is no possible value";

    private static void AddMissing(FigureList figures, MissingLine missing)
    {
        string reason = missing.Material is null ? $"no {missing.Lacks} is stated" : Why(missing.Material, missing.Lacks);
        var from = missing.Material?.Fact.NameSpan ?? missing.From;
        figures.Lack(missing.Key + ".need", reason, from);
        figures.Lack(missing.Key + ".weight", reason, from);
        figures.Lack(missing.Key + ".cost", reason, from);
    }

    private static void AddLoad(FigureList figures, Binding.Evaluator e, CarriedLoad load)
    {
        string name = load.Name + ".weight";
        if (!load.Weight.IsKnown)
        {
            figures.Lack(name, $"load {load.Name} states no {load.Weight.Lacks}", load.Fact.NameSpan);
            return;
        }
        figures.Add(name, Spreads.SumByCause(load.Weight.Parts), Dimension.OfMass, load.Fact.HeadSpan, load.Weight.Formula, load.Weight.Inputs);
        if (load.Stated.Find("weighs") is { } weighs) figures.Add(new Figure(load.Name + ".weighs", new Quantity(load.Weight.Likely, Dimension.OfMass), weighs.Span, "as the spec says", [], e.Text(weighs, "source"), e.Quantity(weighs, "low"), e.Quantity(weighs, "high")));
        if (load.Stated.Find("full") is not { } full) return;
        if (e.Quantity(full, "volume") is { } volume) figures.Add(load.Name + ".full", volume, full.Span, "as the spec says");
        if (e.Quantity(full, "density") is { } density) figures.Add(load.Name + ".full.density", density, full.Span, "as the spec says");
    }

    private static void AddPanelWeight(FigureList figures, PlacedPanel panel, IEnumerable<TakeoffLine> lines, IEnumerable<MissingLine> missing, BuiltPanel? built)
    {
        var its = lines.ToList();
        var (weight, lacks) = Weights.Sum(its, missing);
        string name = panel.Name + ".weight";
        var span = panel.Fact.HeadSpan;
        ImmutableArray<string> inputs = [.. its.Where(l => l.Weight.IsKnown).Select(l => l.Name("weight"))];
        string formula = SumOf(inputs, "its layers, frame, fill, glue, cloth and coats");
        if (built?.Weighed is not { } weighed)
        {
            figures.Add(name, weight, Dimension.OfMass, span, formula, inputs, lacks);
            return;
        }
        // The scale takes over; what was estimated stays readable beside it.
        figures.Add(panel.Name + ".weight_estimated", weight, Dimension.OfMass, span, formula, inputs, lacks);
        figures.Add(name, new Quantity(weighed, Dimension.OfMass), built.Fact.Find("weighed")!.Span, "as weighed");
        figures.Add(new Figure(panel.Name + ".weight_difference", new Quantity(weighed - weight.Likely, Dimension.OfMass), built.Fact.Find("weighed")!.Span, $"{name} - {panel.Name}.weight_estimated", [name, panel.Name + ".weight_estimated"]) { Lacks = lacks });
    }

    /// <summary>A sum as an expression where it is short enough to read, otherwise in words.</summary>
    internal static string SumOf(ImmutableArray<string> inputs, string words) => inputs.Length is > 0 and <= 12 ? string.Join(" + ", inputs) : "the sum of " + words;
}
