using Wain.Core.Text;
using Wain.Core.Binding;

namespace Wain.Core.Engineering;

/// <summary>Stated values that nothing real can have. Told before anything is worked with them; a figure that needs one is missing and says so.</summary>
internal static class ImpossibleValues
{
    private static readonly string[] AboveZero =
    [
        "bending_strength", "bulk_density", "compressive_strength", "conductivity", "coverage", "density", "fibre_density", "free_rise", "hardener_density", "modulus", "modulus_across", "part_a_density",
        "part_b_density", "paste_density", "resin_density", "shear_modulus", "shear_strength", "specific_gravity", "tensile_strength", "transmittance",
    ];

    private static readonly (string Block, string Fact, string[] Slots)[] Settings =
    [
        ("carrier", "wheelbase", ["value"]), ("carrier", "track", ["value"]), ("carrier", "empty", ["front", "rear"]), ("carrier", "tie_down", ["rated"]),
        ("shop", "person", ["value"]), ("shop", "people", ["count"]), ("shop", "hours", ["hours"]), ("shop", "cup", ["volume"]), ("night", "lasts", ["time"]),
        ("case", "span", ["span", "width"]), ("case", "patch", ["force", "width", "length"]), ("case", "deflection", ["limit"]),
        ("resin", "mix", ["a", "b"]), ("foam", "mix", ["a", "b"]), ("resin", "pot_life", ["time"]), ("resin", "working_time", ["time"]), ("foam", "cream", ["time"]), ("foam", "pour_depth", ["value"]), ("foam", "flow", ["value"]),
        ("hardware", "stroke", ["value"]),
    ];

    public static void Tell(Ledger ledger)
    {
        foreach (var material in ledger.Structure.Materials)
        {
            void Bounds(string property, Func<double, bool> impossible, string why)
            {
                if (material.Figure(property) is { } figure && impossible(figure.Value.Value)) ledger.Tell(EngineeringFindings.ImpossibleValue, $"{material.Name}.{property} {why}.", figure.From, $"{material.Name}.{property}");
            }
            foreach (string property in AboveZero) Bounds(property, v => v <= 0, "must be above zero; what is not known is left out");
            Bounds("specific_gravity", v => v > 1.54, "can't be above 1.54, that of the walls of wood cells (Wood Handbook, from memory)");
            Bounds("vapour", v => v < 1, "can't be below 1, that of still air (ISO 10456)");
            Bounds("safety", v => v < 1, "can't be below 1: an allowable stress is no more than the strength");
            Bounds("solids", v => v is <= 0 or > 1, "must be above none and at most all of the mass");
            Bounds("cold_loss", v => v >= 1, "must be less than all of the volume");
            Bounds("poisson", v => v >= 1, "must be below 1");
        }
        foreach (var foam in ledger.Structure.Materials.Where(m => m.Kind == "foam"))
            if (foam.Fact.Find("overpack") is { } pack && ledger.Evaluator.Number(pack, "share") is > 2 and var share)
                ledger.Tell(EngineeringFindings.ImpossibleValue, $"{foam.Name}.overpack is {Say.Percent(share)}; a cavity takes a tenth or two more than free rise, and none takes thrice.", pack.Span, foam.Name + ".overpack");
        foreach (var screw in ledger.Structure.Materials.Where(m => m.Kind == "screw"))
        {
            if (screw.Fact.Find("gauge") is not { } gauge || ledger.Evaluator.Number(gauge, "gauge") is not { } number || screw.Fact.Find("diameter") is not { } diameter || ledger.Evaluator.Length(diameter, "value") is not { } mm) continue;
            string Shank(double shank) => ledger.Say.Metric ? Say.Number(shank) + " mm" : Say.Number(shank / 25.4, "0.000") + " in";
            // ASME B18.6.1: 0.060 in and 0.013 in for each number.
            double inches = 0.060 + 0.013 * number;
            if (Math.Abs(mm / 25.4 - inches) > 0.0065)
                ledger.Tell(EngineeringFindings.GaugeAgainstDiameter, $"{screw.Name} is a #{Say.Number(number)}, which is {Shank(inches * 25.4)} over the shank, and states {Shank(mm)}.", diameter.Span, screw.Name + ".gauge", "One of the two is a slip. The diameter is what counts here.", fixes: [Fixing.Write(ledger.Spec, diameter, "value", Shank(inches * 25.4))]);
        }
        foreach (var (block, keyword, slots) in Settings)
            foreach (var owner in ledger.Spec.All(block))
                foreach (var fact in owner.All(keyword))
                    foreach (string slot in slots)
                        if (fact.Has(slot) && Value(ledger, fact, slot) is <= 0)
                            ledger.Tell(EngineeringFindings.ImpossibleValue, $"{(owner.Name is { } name ? name + "." : "")}{keyword}: {slot} must be above zero.", ledger.Evaluator.SlotSpan(fact, slot), $"{owner.Name ?? block}.{keyword}");
    }

    private static double? Value(Ledger ledger, BoundFact fact, string slot) => ledger.Evaluator.Quantity(fact, slot)?.Value;
}
