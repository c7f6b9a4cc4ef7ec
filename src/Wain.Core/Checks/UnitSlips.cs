using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Checks;

/// <summary>The unit that was probably meant where a value is far from all that it could be.</summary>
internal static class UnitSlips
{
    public static readonly ImmutableArray<string> Lengths = ["in", "mm", "ft", "cm"], Densities = ["lb/ft3", "kg/m3", "g/cm3"], Weights = ["lb", "kg", "oz"], Temperatures = ["degF", "degC"],
        Pressures = ["psf", "Pa", "kPa", "psi"], Coverages = ["ft2/gal", "m2/l"], ByArea = ["oz/yd2", "g/m2"];

    /// <summary>All measures of a line that share the suspect unit with another, the first of those given in which each is a likely value. Null for what is reckoned, and where none is.</summary>
    /// <param name="slots">Of the fact, in the order of the text.</param>
    /// <param name="bad">The slot whose value can't be.</param>
    /// <param name="fits">Judges a value: of a length in mm, of anything else in base units.</param>
    public static Fix? Other(BoundFact fact, ImmutableArray<string> slots, string bad, ImmutableArray<string> units, Func<double, bool> fits)
    {
        MeasureExpression? At(string slot) => fact.Slots.TryGetValue(slot, out var text) ? text.Terms[0] as MeasureExpression : null;
        if (At(bad) is not { } suspect) return null;
        var measures = slots.Select(At).OfType<MeasureExpression>().Where(m => m.Unit == suspect.Unit && m.Span.Text.EndsWith(m.Unit, StringComparison.Ordinal)).ToList();
        if (measures.Count == 0 || UnitTable.Find(suspect.Unit) is not { } from) return null;
        foreach (string name in units)
        {
            if (name == suspect.Unit || UnitTable.Find(name) is not { } unit || unit.Dimension != from.Dimension) continue;
            if (!measures.TrueForAll(m => fits(Base(UnitTable.ToBase(new Quantity(UnitTable.FromBase(m.Value, from), Dimension.None), unit))))) continue;
            var whole = measures[0].Span.To(measures[^1].Span);
            string text = whole.Text;
            foreach (var m in measures.AsEnumerable().Reverse()) text = text.Remove(m.Span.End - m.Unit.Length - whole.Start, m.Unit.Length).Insert(m.Span.End - m.Unit.Length - whole.Start, name);
            return new Fix(whole, text, $"write {text}");
        }
        return null;
    }

    /// <summary>Of a length in mm, of anything else in base units.</summary>
    public static double Base(Quantity value) => value.Dimension == Dimension.OfLength ? value.Millimetres : value.Value;
}
