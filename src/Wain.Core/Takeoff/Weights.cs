using System.Collections.Immutable;
using Wain.Core.Methods;

namespace Wain.Core.Takeoff;

/// <summary>Sums of weights by the stated rule: parts that share a figure are high or low together, figures of different materials are independent.</summary>
public static class Weights
{
    /// <summary>kg, with the names of the weights that are missing from the sum.</summary>
    public static (Spread Weight, ImmutableArray<string> Lacks) Sum(IEnumerable<TakeoffLine> lines, IEnumerable<MissingLine> missing)
    {
        var all = lines.ToList();
        return (Spreads.SumByCause(all.SelectMany(l => l.Weight.Parts)),
            [.. all.Where(l => !l.Weight.IsKnown).Select(l => l.Name("weight")).Concat(missing.Select(m => m.Key + ".weight")).Order(StringComparer.Ordinal)]);
    }

    /// <summary>The estimate for a bare panel: its layers, frame, fill, glue, cloth and coats, without windows and joints.</summary>
    public static (Spread Weight, ImmutableArray<string> Lacks) OfBarePanel(TakeoffResult takeoff, string panel) =>
        Sum(takeoff.Lines.Where(l => l.IsOfBarePanel && l.Panels[0] == panel), takeoff.Missing.Where(m => m.Panels.Length == 1 && m.Panels[0] == panel));
}
