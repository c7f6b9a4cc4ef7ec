using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Model;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Checks;

/// <summary>
/// A material's sizes and density lie where such things are sold at all. A slip in a unit is told at its own line here; without that a wall of the wrong
/// thickness would be told at every window in it, and a wrong density nowhere.
/// </summary>
public static class UnlikelySizes
{
    private const string Text = """
        sheet ply { thickness 6 mm
            size 48 in by 96 in }
        stick strip {
            section SECTION
            length 96 in
        }
        stack wall_stack {
            sheet ply
            core frame of strip flat
            sheet ply
        }
        panel wall of wall_stack {
            through (0 in, 0 in, 0 in) along (0 in, -40 in, 0 in) up (0 in, 0 in, 30 in)
        }
        """;

    public static readonly FindingInfo Info = new("WN4127", "size-nobody-sells", Level.Error, "A material has a size or a density that nothing is sold in",
        "Most often the unit is a slip: millimetres for inches, inches for feet. Every panel of the material would be drawn, weighed and bought by it. The limits are wide and common practice: sticks 1/16 in to 16 in thick and 1 ft to 50 ft long, sheets 1/64 in to 2 1/2 in thick, boards 1/16 in to 16 in, both 6 in to 33 ft long and wide, cut-outs 3/4 in to 10 ft; wood, metal and plastic from 80 kg/m3 to 9,000 kg/m3, foam from 5 kg/m3 to 400 kg/m3. What truly lies beyond can be accepted with its reason.",
        Text.With("SECTION", "3/4 mm by 1 1/2 in"), Text.With("SECTION", "3/4 in by 1 1/2 in"));

    public static readonly FindingInfo Turned = new("WN4128", "section-turned", Level.Warning, "A stick is stated thicker than it is wide",
        "A section is stated by its thickness first and its width after it, as the yard does. A frame of it laid flat is as deep as the stick is thick, so the two in the wrong order make every wall of it too thick, and its members too narrow.",
        Text.With("SECTION", "1 1/2 in by 3/4 in"), Text.With("SECTION", "3/4 in by 1 1/2 in"));

    private sealed record Range(string Kind, string Keyword, ImmutableArray<string> Slots, double Least, double Most, string What);

    private const double Inch = 25.4;

    private static readonly ImmutableArray<Range> Ranges =
    [
        new("stick", "section", ["thickness", "width"], Inch / 16, 16 * Inch, "section"),
        new("stick", "length", ["length"], 12 * Inch, 600 * Inch, "length"),
        new("sheet", "thickness", ["true"], Inch / 64, 2.5 * Inch, "thickness"),
        new("sheet", "size", ["width", "length"], 6 * Inch, 396 * Inch, "size"),
        new("board", "thickness", ["true"], Inch / 16, 16 * Inch, "thickness"),
        new("board", "size", ["width", "length"], 6 * Inch, 396 * Inch, "size"),
        new("unit", "cut_out", ["width", "height"], 0.75 * Inch, 120 * Inch, "cut-out"),
        new("stick", "density", ["value"], 80, 9_000, "density"),
        new("sheet", "density", ["value"], 80, 9_000, "density"),
        new("board", "density", ["value"], 5, 400, "density"),
    ];

    private static readonly string[] Lengths = ["in", "mm", "ft", "cm"], Densities = ["lb/ft3", "kg/m3", "g/cm3"];

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var told = new HashSet<BoundFact>();
        foreach (var material in input.Structure.Materials)
        {
            foreach (var range in Ranges.Where(r => r.Kind == material.Kind))
                foreach (var fact in material.Fact.All(range.Keyword))
                {
                    if (Told(input.Spec, material, range, fact) is not { } finding) continue;
                    yield return finding;
                    told.Add(fact);
                }
            // A hollow section stands as it is drawn.
            if (material is StickMaterial { Thickness: var thick, Width: var wide } && thick > wide + 0.01 && material.Fact.Find("wall") is null && material.Fact.Find("section") is { } section && !told.Contains(section))
                yield return new Finding(Turned, $"{material.Name} is stated {input.Say.Length(thick)} thick and {input.Say.Length(wide)} wide.", section.HeadSpan) { Subject = material.Name, Hint = "The thickness comes first; it is the smaller.", Fixes = Fixing.One(Swapped(input.Spec, section)) };
        }
    }

    private static Finding? Told(Spec spec, Material material, Range range, BoundFact fact)
    {
        bool Fits(double? value) => value is not { } v || v >= range.Least * (1 - 1e-9) && v <= range.Most * (1 + 1e-9);
        double? Value(string slot) => spec.Evaluator.Quantity(fact, slot) is { Value: > 0 } q ? q.Dimension == Dimension.OfLength ? q.Millimetres : q.Value : null;
        if (range.Slots.FirstOrDefault(s => !Fits(Value(s))) is not { } bad) return null;
        var place = spec.Evaluator.SlotSpan(fact, bad);
        bool length = range.Keyword != "density";
        string Told(double value) => length ? spec.Say.Length(value) : Say.Number(value, "0.#") + " kg/m3";
        return new Finding(Info, $"The {range.What} of {material.Name} is stated with {place.Text}; no {range.Kind} is sold outside of {Told(range.Least)} to {Told(range.Most)}.", place)
        {
            Subject = material.Name,
            Hint = "Look at the unit first.",
            Fixes = Fixing.One(OtherUnit(fact, range, bad, Fits)),
        };
    }

    // All measures of the line that share the suspect unit get another, the first in which they could be sold.
    private static Fix? OtherUnit(BoundFact fact, Range range, string bad, Func<double?, bool> fits)
    {
        MeasureExpression? At(string slot) => fact.Slots.TryGetValue(slot, out var text) ? text.Terms[0] as MeasureExpression : null;
        if (At(bad) is not { } suspect) return null;
        var measures = range.Slots.Select(At).OfType<MeasureExpression>().Where(m => m.Unit == suspect.Unit && m.Span.Text.EndsWith(m.Unit, StringComparison.Ordinal)).ToList();
        if (measures.Count == 0 || UnitTable.Find(suspect.Unit) is not { } from) return null;
        foreach (string name in range.Keyword == "density" ? Densities : Lengths)
        {
            if (name == suspect.Unit || UnitTable.Find(name) is not { } unit) continue;
            double ratio = UnitTable.FromBase(UnitTable.ToBase(1, from), unit);
            if (!measures.TrueForAll(m => fits((m.Value.Dimension == Dimension.OfLength ? m.Value.Millimetres : m.Value.Value) / ratio))) continue;
            var whole = measures[0].Span.To(measures[^1].Span);
            string text = whole.Text;
            foreach (var m in measures.AsEnumerable().Reverse()) text = text.Remove(m.Span.End - m.Unit.Length - whole.Start, m.Unit.Length).Insert(m.Span.End - m.Unit.Length - whole.Start, name);
            return new Fix(whole, text, $"write {text}");
        }
        return null;
    }

    private static Fix? Swapped(Spec spec, BoundFact section)
    {
        Span first = spec.Evaluator.SlotSpan(section, "thickness"), second = spec.Evaluator.SlotSpan(section, "width");
        string text = $"{second.Text} by {first.Text}";
        return first.End <= second.Start ? new Fix(first.To(second), text, $"write {text}") : null;
    }
}
