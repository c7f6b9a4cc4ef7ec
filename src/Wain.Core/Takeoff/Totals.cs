using System.Collections.Immutable;
using Wain.Core.Methods;
using Wain.Core.Figures;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>Sums over assemblies and over the whole camper.</summary>
internal static class Totals
{
    public static void Add(FigureList figures, TakeoffResult takeoff, ILookup<string, TakeoffLine> byPanel, ILookup<string, MissingLine> missingOf, Dictionary<string, BuiltPanel> built)
    {
        foreach (var group in takeoff.Assemblies)
        {
            var panels = group.Panels.ToHashSet(StringComparer.Ordinal);
            // What joins two panels of an assembly belongs to it; what joins it to another part does not.
            var (causes, lacks, parts) = WeightOf(takeoff, panels.Contains, byPanel, missingOf, built);
            figures.Add(group.Name + ".weight", Spreads.SumByCause(causes), Dimension.OfMass, group.Fact.HeadSpan, TakeoffFigures.SumOf(parts, "its panels, what is fitted in them and what joins them"), parts, lacks);
            var others = takeoff.Lines.Where(l => !l.IsOfBarePanel && l.Panels.Length > 0 && l.Panels.All(panels.Contains)).Select(l => l.Name("cost"));
            Costs.AddSum(figures, takeoff, group.Name + ".cost", group.Fact.HeadSpan, [.. group.Panels.Select(p => p + ".cost"), .. others], [], "its panels, what is fitted in them and what joins them");
        }
        AddWeights(figures, takeoff, byPanel, missingOf, built);
        AddCosts(figures, takeoff, built);
        figures.Add("total.panels", Quantity.Count(takeoff.Panels.Length), null, "panels of the spec");
        ImmutableArray<string> areas = [.. takeoff.Panels.Select(p => p.Name + ".net_area")];
        figures.Add("total.net_area", new Quantity(areas.Sum(figures.Value), Dimension.OfArea), null, TakeoffFigures.SumOf(areas, "all panels, net of openings"), areas);
    }

    /// <summary>Weight of some panels with what is fitted in them and what joins them to each other; weighed panels by the scale.</summary>
    public static (List<CausedSpread> Causes, ImmutableArray<string> Lacks, ImmutableArray<string> Parts) WeightOf(
        TakeoffResult takeoff, Func<string, bool> isIn, ILookup<string, TakeoffLine> byPanel, ILookup<string, MissingLine> missingOf, Dictionary<string, BuiltPanel> built)
    {
        var causes = new List<CausedSpread>();
        var lacks = new List<string>();
        var parts = new List<string>();
        foreach (var panel in takeoff.Panels)
        {
            if (!isIn(panel.Name)) continue;
            parts.Add(panel.Name + ".weight");
            if (built.GetValueOrDefault(panel.Name)?.Weighed is { } weighed)
            {
                causes.Add(new CausedSpread(panel.Name + ".weighed", Spread.Exactly(weighed)));
                continue;
            }
            foreach (var line in byPanel[panel.Name])
            {
                causes.AddRange(line.Weight.Parts);
                if (!line.Weight.IsKnown) lacks.Add(line.Name("weight"));
            }
            lacks.AddRange(missingOf[panel.Name].Select(m => m.Key + ".weight"));
        }
        foreach (var line in takeoff.Lines)
        {
            if (line.IsOfBarePanel || line.Panels.IsEmpty || !line.Panels.All(isIn)) continue;
            causes.AddRange(line.Weight.Parts);
            if (line.Weight.IsKnown) parts.Add(line.Name("weight"));
            else lacks.Add(line.Name("weight"));
        }
        foreach (var missing in takeoff.Missing) if (missing.Panels.Length > 1 && missing.Panels.All(isIn)) lacks.Add(missing.Key + ".weight");
        return (causes, [.. lacks.Order(StringComparer.Ordinal)], [.. parts]);
    }

    private static void AddWeights(FigureList figures, TakeoffResult takeoff, ILookup<string, TakeoffLine> byPanel, ILookup<string, MissingLine> missingOf, Dictionary<string, BuiltPanel> built)
    {
        var (causes, lacks, parts) = WeightOf(takeoff, _ => true, byPanel, missingOf, built);
        // Struts and lift seals belong to no panel; the items of loads are told with their loads.
        var loadNames = takeoff.Loads.Select(l => l.Name).ToHashSet(StringComparer.Ordinal);
        var loose = takeoff.Lines.Where(l => l.Panels.IsEmpty && !loadNames.Contains(l.Subject)).ToList();
        causes.AddRange(loose.SelectMany(l => l.Weight.Parts));
        var missing = lacks.Concat(loose.Where(l => !l.Weight.IsKnown).Select(l => l.Name("weight"))).ToList();
        var inputs = parts.Concat(loose.Where(l => l.Weight.IsKnown).Select(l => l.Name("weight"))).ToList();
        figures.Add("total.weight", Spreads.SumByCause(causes), Dimension.OfMass, null, TakeoffFigures.SumOf([.. inputs], "all panels, what is fitted in them, what joins them and what lifts them, without loads"), [.. inputs], [.. missing]);
        foreach (var state in Enum.GetValues<LoadState>())
        {
            var aboard = takeoff.Loads.Where(l => l.ShareIn(state) > 0).ToList();
            var all = causes.Concat(aboard.SelectMany(l => l.Weight.Parts.Select(p => p with { Value = p.Value.Times(l.ShareIn(state)) })));
            string name = "total.weight_" + state.ToString().ToLowerInvariant();
            figures.Add(name, Spreads.SumByCause(all), Dimension.OfMass, null, "total.weight and the loads that are aboard then, each by its share",
                ["total.weight", .. aboard.Where(l => l.Weight.IsKnown).Select(l => l.Name + ".weight")], [.. missing, .. aboard.Where(l => !l.Weight.IsKnown).Select(l => l.Name + ".weight")]);
        }
    }

    private static void AddCosts(FigureList figures, TakeoffResult takeoff, Dictionary<string, BuiltPanel> built)
    {
        ImmutableArray<string> materials = [.. takeoff.Buy.Select(b => b.Material.Name).Distinct(StringComparer.Ordinal).Select(m => m + ".cost")];
        Costs.AddSum(figures, takeoff, "total.cost_bought", null, materials, [.. takeoff.Missing.Select(m => m.Key + ".cost")], "all that is bought");
        var bought = figures.Find("total.cost_bought")!;
        string taxName = "total.tax";
        if (takeoff.Tax is { } share)
        {
            figures.Add(new Figure("total.tax_rate", new Quantity(share, Dimension.None), takeoff.Money.TaxFrom, "as the spec says", [], takeoff.Money.TaxSource));
            figures.Add(new Figure(taxName, takeoff.Money.Of(bought.Value.Value * share), takeoff.Money.TaxFrom, "total.cost_bought * total.tax_rate", ["total.cost_bought", "total.tax_rate"]) { Lacks = bought.Lacks });
        }
        double tax = takeoff.Tax is { } t ? bought.Value.Value * t : 0;
        // What was paid for a built panel takes the place of its share, tax and all.
        var paid = built.Values.Where(b => b.Paid is not null).OrderBy(b => b.Panel, StringComparer.Ordinal).ToList();
        double correction = paid.Sum(b => b.Paid!.Value - figures.Value(b.Panel + ".cost_estimated") * (1 + (takeoff.Tax ?? 0)));
        ImmutableArray<string> inputs = [.. takeoff.Tax is null ? ["total.cost_bought"] : new[] { "total.cost_bought", taxName }, .. paid.Select(b => b.Panel + ".cost")];
        string formula = takeoff.Tax is null ? "total.cost_bought" : $"total.cost_bought + {taxName}";
        figures.Add(new Figure("total.cost", takeoff.Money.Of(bought.Value.Value + tax + correction), null, paid.Count == 0 ? formula : "what is bought, with tax; for panels with a price paid, that in place of their share", inputs) { Lacks = bought.Lacks });
    }
}
