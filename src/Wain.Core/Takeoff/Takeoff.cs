using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Model;
using Wain.Core.Pieces;
using Wain.Core.Shipped;

namespace Wain.Core.Takeoff;

/// <summary>Facts of what is built that take over from the estimate of a panel.</summary>
/// <param name="Weighed">kg, by a scale; null if it was not weighed.</param>
/// <param name="Paid">In the spec's currency; null if not stated.</param>
public sealed record BuiltPanel(string Panel, Binding.BoundFact Fact, double? Weighed, double? Paid);

/// <summary>Panels that are told together.</summary>
public sealed record PanelGroup(string Name, Binding.BoundFact Fact, ImmutableArray<string> Panels);

/// <summary>All that the design uses, what to buy for it, and what it carries.</summary>
public sealed record TakeoffResult(
    Structure Structure,
    ImmutableArray<TakeoffLine> Lines,
    ImmutableArray<MissingLine> Missing,
    ImmutableArray<BuyLine> Buy,
    ImmutableArray<CarriedLoad> Loads,
    ImmutableArray<BuiltPanel> Built,
    ImmutableArray<PanelGroup> Assemblies,
    Dictionary<string, DefaultValue> Defaults)
{
    public required Money Money { get; init; }

    /// <summary>In the order of their names: moving a block of the spec must change no output, not by the last bit of a sum either.</summary>
    public ImmutableArray<PlacedPanel> Panels { get; } = [.. Structure.Panels.OrderBy(p => p.Name, StringComparer.Ordinal)];

    /// <summary>The currency of every cost.</summary>
    public string Currency => Money.Currency;

    /// <summary>Sales tax as a share; null if the spec states none.</summary>
    public double? Tax => Money.Tax;
}

/// <summary>Placed geometry to quantities.</summary>
public static class TakeoffPass
{
    /// <summary>Every quantity of a placed design. Never throws on user text; what a material does not state is among the findings.</summary>
    /// <param name="frames">The frames of the same structure.</param>
    /// <param name="pieces">What is cut of sheets, boards, cloth and film for the same structure.</param>
    /// <param name="cutting">What a cutting plan uses; empty for estimates.</param>
    /// <param name="laid">What a plain layout takes of the materials that no plan stands for; empty for estimates by amount alone.</param>
    public static Stage<TakeoffResult> Of(Structure structure, Frames frames, PieceList pieces, ImmutableArray<CuttingCount> cutting = default, ImmutableArray<CuttingCount> laid = default)
    {
        var lines = new LineList(structure);
        var splices = pieces.Splices.ToLookup(s => s.Panel.Name, StringComparer.Ordinal);
        foreach (var panel in structure.Panels.OrderBy(p => p.Name, StringComparer.Ordinal)) PanelTakeoff.Add(lines, panel, [.. frames.Of(panel)], [.. pieces.Of(panel)], [.. splices[panel.Name]]);
        foreach (var joint in structure.Joints.OrderBy(j => j.Name, StringComparer.Ordinal)) JointTakeoff.Add(lines, joint);
        foreach (var lift in structure.Lifts.OrderBy(l => l.Name, StringComparer.Ordinal)) LiftTakeoff.Add(lines, lift, structure);
        SubframeTakeoff.Add(lines, structure);
        var loads = CarriedLoads.Add(lines).OrderBy(l => l.Name, StringComparer.Ordinal).ToImmutableArray();
        var (buy, money) = Buying.Of(lines, cutting.IsDefault ? [] : cutting, laid.IsDefault ? [] : laid);
        var result = new TakeoffResult(structure, lines.Lines, lines.Missing, buy, loads, BuiltPanels(structure, money), Assemblies(structure), lines.Defaults) { Money = money };
        return new Stage<TakeoffResult>(result, TakeoffFindingsOf(result));
    }

    private static ImmutableArray<BuiltPanel> BuiltPanels(Structure structure, Money money)
    {
        var e = structure.Spec.Evaluator;
        var built = ImmutableArray.CreateBuilder<BuiltPanel>();
        foreach (var fact in structure.Spec.All("built"))
        {
            if (e.Thing(fact, "of") is not { Name: { } name } || structure.Panel(name) is null) continue;
            double? weighed = fact.Find("weighed") is { } w ? e.Number(w, "value") : null;
            double? paid = fact.Find("paid") is { } p && e.Quantity(p, "value") is { } amount ? money.InCurrency(amount) : null;
            if (weighed is not null || paid is not null) built.Add(new BuiltPanel(name, fact, weighed, paid));
        }
        return [.. built.OrderBy(b => b.Panel, StringComparer.Ordinal)];
    }

    private static ImmutableArray<PanelGroup> Assemblies(Structure structure)
    {
        var e = structure.Spec.Evaluator;
        return [.. structure.Spec.All("assembly").Where(f => f.Name is not null)
            .Select(f => new PanelGroup(f.Name!, f, [.. f.All("item").Select(i => e.Thing(i, "item")?.Name).OfType<string>().Order(StringComparer.Ordinal)]))
            .OrderBy(g => g.Name, StringComparer.Ordinal)];
    }

    private static ImmutableArray<Finding> TakeoffFindingsOf(TakeoffResult result) =>
        [.. Properties(result), .. Prices(result), .. MaterialValues(result.Structure), .. WeighedPanels(result), .. UnknownDefaults(result)];

    private static IEnumerable<Finding> Properties(TakeoffResult result)
    {
        var weights = result.Lines.Where(l => !l.Weight.IsKnown).Select(l => (l.Material, Lacks: l.Weight.Lacks!, Key: l.Name("weight"), l.From));
        var lines = result.Missing.Where(m => m.Material is not null).Select(m => (Material: m.Material!, m.Lacks, m.Key, m.From));
        foreach (var group in weights.Concat(lines).GroupBy(x => (x.Material.Name, x.Lacks)))
        {
            var (material, lacks, key, from) = group.First();
            // What is stated and can't be is told as that, and is not called missing.
            if (material.Figure(lacks) is not null) continue;
            int others = group.Count() - 1;
            string more = others == 0 ? "" : $" and {others} more";
            // A filler with several consistencies lacks none; the fillet does not say which.
            bool choice = lacks == "consistency" && material.Fact.All("consistency").Any();
            string says = choice ? $"{material.Name} has several consistencies and the fillet names none" : $"{material.Name} states no {lacks}";
            yield return new Finding(TakeoffFindings.PropertyMissing, $"{says}, so {key}{more} can't be had.", choice ? from : material.Fact.NameSpan)
            {
                Subject = material.Name + "." + lacks,
                Hint = choice ? $"Write after the radius: consistency {material.Fact.All("consistency").First().Name}" : Reading(material, lacks),
                Related = [new Wain.Core.Findings.Related(from, "it is used here")],
            };
        }
        foreach (var load in result.Loads)
        {
            if (load.Weight.Lacks is "weighs" or "density") yield return new Finding(TakeoffFindings.PropertyMissing, $"Load {load.Name} does not say what it weighs.", load.Fact.NameSpan) { Subject = load.Name + ".weighs", Hint = $"Add a line such as: weighs {(result.Structure.Spec.Say.Kilograms ? "20 kg" : "40 lb")}." };
        }
    }

    private static string? Reading(Material material, string property) =>
        material.Fact.Shape.Body?.Facts.FirstOrDefault(f => f.Keyword == property) is { } fact ? $"Add a line to {material.Name}: {fact.Reading}." : null;

    private static IEnumerable<Finding> Prices(TakeoffResult result)
    {
        foreach (var line in result.Buy)
        {
            if (line.Why is { } why) yield return new Finding(TakeoffFindings.NotSold, $"What {line.Mark} costs can't be told: {line.Material.Name} does not state {why}.", line.Material.Fact.NameSpan)
                {
                    Subject = line.Material.Name + ".price",
                    // A list that ships can't be written to.
                    Hint = ShippedMaterials.Ships(line.Material.Fact.Span.Source) ? "A list that ships is the same for everyone: make one like it with your price, and use that, as in: sheet my_ply like birch_plywood_12mm { price 79 USD per sheet }" : null,
                };
            else if (line.Pack is { PricedOn: null } pack) yield return new Finding(TakeoffFindings.PriceUndated, $"The price of {line.Mark} has no date.", pack.From) { Subject = line.Material.Name + ".price" };
            else if (line.IsStale) yield return new Finding(TakeoffFindings.PriceStale, $"The price of {line.Mark} is of {line.Pack!.PricedOn!.Value.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)}, older than the spec allows.", line.Pack.From) { Subject = line.Material.Name + ".price" };
        }
    }

    private static IEnumerable<Finding> MaterialValues(Structure structure)
    {
        foreach (var material in structure.Materials)
        {
            if (material.Figure("glass") is { } glass && glass.Value.Value is <= 0 or > 0.8)
            {
                yield return new Finding(TakeoffFindings.GlassContent, $"A glass content of {glass.Value.Value.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture)} by weight can't be laid up; it lies above 0 and at most at 0.8.", glass.From) { Subject = material.Name + ".glass" };
            }
            foreach (var (name, figure) in material.Figures.OrderBy(f => f.Key, StringComparer.Ordinal))
            {
                if (figure.Low is { } low && low.CompareTo(figure.Value) > 0 || figure.High is { } high && high.CompareTo(figure.Value) < 0)
                    yield return new Finding(TakeoffFindings.SpreadOrder, $"The spread of {material.Name}.{name} must run from low over the stated value to high; stated are {Stated(structure, material, name)}.", figure.From) { Subject = material.Name + "." + name };
            }
        }
    }

    // As written, in the units that it is written in.
    private static string Stated(Structure structure, Material material, string name) =>
        material.Fact.Find(name) is { } fact ? string.Join(", ", new[] { ("value", ""), ("low", "low "), ("high", "high ") }.Where(s => fact.Has(s.Item1)).Select(s => s.Item2 + structure.Spec.Evaluator.SlotSpan(fact, s.Item1).Text)) : "";

    private static IEnumerable<Finding> WeighedPanels(TakeoffResult result)
    {
        foreach (var built in result.Built)
        {
            if (built.Weighed is not { } weighed) continue;
            var say = result.Structure.Spec.Say;
            var (estimate, lacks) = Weights.OfBarePanel(result, built.Panel);
            if (!lacks.IsEmpty || weighed >= estimate.Low && weighed <= estimate.High) continue;
            yield return new Finding(TakeoffFindings.WeighedDiffers, $"{built.Panel} weighs {say.Tenths(weighed)} and was estimated at {say.Tenths(estimate.Likely)} ({say.Tenths(estimate.Low)} to {say.Tenths(estimate.High)}).", built.Fact.Find("weighed")!.Span) { Subject = built.Panel + ".weight" };
        }
    }

    private static IEnumerable<Finding> UnknownDefaults(TakeoffResult result)
    {
        foreach (var fact in result.Structure.Spec.All("default"))
        {
            if (fact.Word("name") is { } name && !Defaults.Names.Contains(name))
                yield return new Finding(TakeoffFindings.UnknownDefault, $"There is no default named \"{name}\".{Text.NearestName.Ask(Text.NearestName.Of(name, Defaults.Names))}", result.Structure.Spec.Evaluator.SlotSpan(fact, "name")) { Subject = "default." + name, Fixes = Fixing.Nearest(result.Structure.Spec.Evaluator.SlotSpan(fact, "name"), Text.NearestName.Of(name, Defaults.Names)) };
        }
    }
}
