using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Model;
using Wain.Core.Text;

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
        "Most often the unit is a slip: millimetres for inches, inches for feet. Every panel of the material would be drawn, weighed and bought by it. The limits are wide and common practice: sticks 1/16 in to 16 in thick and 1 ft to 50 ft long, sheets 1/64 in to 2 1/2 in thick, boards 1/16 in to 16 in, both 6 in to 33 ft long and wide, cut-outs 3/4 in to 10 ft; wood, metal and plastic from 80 kg/m3 to 9,000 kg/m3, foam from 5 kg/m3 to 400 kg/m3; cloth from 0.5 oz/yd2 to 60 oz/yd2; coatings that cover 1 m2/l to 60 m2/l; screws 1/4 in to 16 in long and 1/32 in to 3/4 in thick. What truly lies beyond can be accepted with its reason.",
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
        new("cloth", "weight", ["value"], 0.016, 2.04, "weight"),
        new("coating", "coverage", ["value"], 1_000, 60_000, "coverage"),
        new("screw", "length", ["value"], Inch / 4, 16 * Inch, "length"),
        new("screw", "diameter", ["value"], Inch / 32, 0.75 * Inch, "diameter"),
    ];

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

    // What yards sell mostly (kg/m3): another unit that makes lead of plywood was not meant.
    private static double Usual(string kind) => kind == "board" ? 250 : 3_000;

    private static Finding? Told(Spec spec, Material material, Range range, BoundFact fact)
    {
        bool Fits(double? value) => value is not { } v || v >= range.Least * (1 - 1e-9) && v <= range.Most * (1 + 1e-9);
        double? Value(string slot) => spec.Evaluator.Quantity(fact, slot) is { Value: > 0 } q ? UnitSlips.Base(q) : null;
        if (range.Slots.FirstOrDefault(s => !Fits(Value(s))) is not { } bad) return null;
        var place = spec.Evaluator.SlotSpan(fact, bad);
        string Told(double value) => range.Keyword switch
        {
            "density" => Say.Number(value, "0.#") + " kg/m3",
            "coverage" => Say.Number(value / 1_000, "0.#") + " m2/l",
            "weight" => Say.Number(value / 0.0339057, "0.#") + " oz/yd2",
            _ => spec.Say.Length(value),
        };
        return new Finding(Info, $"The {range.What} of {material.Name} is stated with {place.Text}; no {range.Kind} is sold outside of {Told(range.Least)} to {Told(range.Most)}.", place)
        {
            Subject = material.Name,
            Hint = "Look at the unit first.",
            Fixes = Fixing.One(UnitSlips.Other(fact, range.Slots, bad, range.Keyword == "density" ? UnitSlips.Densities : range.Keyword == "weight" ? UnitSlips.ByArea : range.Keyword == "coverage" ? UnitSlips.Coverages : UnitSlips.Lengths, v => Fits(v) && (range.Keyword != "density" || v <= Usual(range.Kind)))),
        };
    }

    private static Fix? Swapped(Spec spec, BoundFact section)
    {
        Span first = spec.Evaluator.SlotSpan(section, "thickness"), second = spec.Evaluator.SlotSpan(section, "width");
        string text = $"{second.Text} by {first.Text}";
        return first.End <= second.Start ? new Fix(first.To(second), text, $"write {text}") : null;
    }
}
