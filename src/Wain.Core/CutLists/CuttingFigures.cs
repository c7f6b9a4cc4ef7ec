using Wain.Core.Figures;
using Wain.Core.Geometry;
using Wain.Core.Takeoff;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.CutLists;

/// <summary>
/// The figures of the kept plan by name: <c>cutting.ply_9mm.bought</c>, <c>.owned</c>, <c>.cost</c>, <c>.bound</c> and <c>.gap</c>, <c>.kept</c> where
/// offcuts of a value are kept, and the same of all materials, <c>cutting.cost</c>, <c>cutting.bound</c>, <c>cutting.gap</c> and <c>cutting.kept</c>.
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
            if (m.Kept > 0) figures.Add(name + ".kept", Amount(m.Kept, m.CostUnit), from, "the worth of the offcuts that the kept cutting plan keeps, by their area and the value that the spec states");
            figures.Add(name + ".bound", Amount(m.Bound, m.CostUnit), from, $"the least that any plan could cost{(m.Kept > 0 ? ", what it keeps taken off" : "")}, from the proof in the kept plan");
            string[] net = m.Kept > 0 ? [name + ".cost", name + ".kept"] : [name + ".cost"];
            figures.Add(name + ".gap", new Quantity(m.Gap, Dimension.None), from, $"({string.Join(" - ", net)} - {name}.bound) / {name}.bound", [.. net, name + ".bound"]);
        }
        if (priced.Count == 0) return figures.Figures;
        string unit = priced[0].CostUnit;
        long cost = priced.Sum(m => m.Cost), kept = priced.Sum(m => m.Kept), bound = priced.Sum(m => m.Bound);
        figures.Add("cutting.cost", Amount(cost, unit), null, "the sum over the materials that have prices", [.. priced.Select(m => $"cutting.{m.Material}.cost")]);
        if (kept > 0) figures.Add("cutting.kept", Amount(kept, unit), null, "the sum over the materials that keep offcuts of a value", [.. priced.Where(m => m.Kept > 0).Select(m => $"cutting.{m.Material}.kept")]);
        figures.Add("cutting.bound", Amount(bound, unit), null, "the sum over the materials that have prices", [.. priced.Select(m => $"cutting.{m.Material}.bound")]);
        string[] all = kept > 0 ? ["cutting.cost", "cutting.kept"] : ["cutting.cost"];
        figures.Add("cutting.gap", new Quantity(bound > 0 ? (double)(cost - kept - bound) / bound : 0, Dimension.None), null, $"({string.Join(" - ", all)} - cutting.bound) / cutting.bound", [.. all, "cutting.bound"]);
        return figures.Figures;
    }

    private static Quantity Amount(long hundredths, string currency) => new(hundredths / 100.0, Dimension.OfMoney(currency));
}
