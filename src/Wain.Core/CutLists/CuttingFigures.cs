using Wain.Core.Figures;
using Wain.Core.Geometry;
using Wain.Core.Takeoff;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.CutLists;

/// <summary>
/// The figures of the kept plan by name: <c>cutting.ply_9mm.bought</c>, <c>.owned</c>, <c>.cost</c>, <c>.bound</c> and <c>.gap</c>, and the same of all materials,
/// <c>cutting.cost</c>, <c>cutting.bound</c> and <c>cutting.gap</c>.
/// </summary>
public static class CuttingFigures
{
    public static IEnumerable<Figure> Of(CuttingPlan? plan, Structure structure)
    {
        if (plan is null) return [];
        var figures = new FigureList();
        var priced = plan.Materials.Where(m => m.CostUnit.Length > 0).ToList();
        foreach (var m in plan.Materials)
        {
            string name = "cutting." + m.Material;
            Span? from = structure.Materials.FirstOrDefault(x => x.Name == m.Material)?.Fact.NameSpan;
            figures.Add(name + ".bought", Quantity.Count(m.Bought.Sum(b => (long)b.Count)), from, "what the kept cutting plan buys");
            figures.Add(name + ".owned", Quantity.Count(m.Sheets.Where(s => s.Owned).Sum(s => (long)s.Times)), from, "owned pieces of stock that the kept cutting plan uses");
            if (m.CostUnit.Length == 0) continue;
            figures.Add(name + ".cost", Amount(m.Cost, m.CostUnit), from, "the prices of what the kept cutting plan buys", name + ".bought");
            figures.Add(name + ".bound", Amount(m.Bound, m.CostUnit), from, "the least that any plan could cost, from the proof in the kept plan");
            figures.Add(name + ".gap", new Quantity(m.Gap, Dimension.None), from, $"({name}.cost - {name}.bound) / {name}.bound", name + ".cost", name + ".bound");
        }
        if (priced.Count == 0) return figures.Figures;
        string unit = priced[0].CostUnit;
        long cost = priced.Sum(m => m.Cost), bound = priced.Sum(m => m.Bound);
        figures.Add("cutting.cost", Amount(cost, unit), null, "the sum over the materials that have prices", [.. priced.Select(m => $"cutting.{m.Material}.cost")]);
        figures.Add("cutting.bound", Amount(bound, unit), null, "the sum over the materials that have prices", [.. priced.Select(m => $"cutting.{m.Material}.bound")]);
        figures.Add("cutting.gap", new Quantity(bound > 0 ? (double)(cost - bound) / bound : 0, Dimension.None), null, "(cutting.cost - cutting.bound) / cutting.bound", "cutting.cost", "cutting.bound");
        return figures.Figures;
    }

    private static Quantity Amount(long hundredths, string currency) => new(hundredths / 100.0, Dimension.OfMoney(currency));
}
