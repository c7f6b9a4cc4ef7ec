using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Model;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>One way that a material is sold.</summary>
/// <param name="Word">What the trade calls it: sheet, length, roll, gal, box.</param>
/// <param name="Size">How much one holds.</param>
/// <param name="Run">Its length where it is sold by the run as well, such as cloth off a roll (m); null otherwise.</param>
/// <param name="Price">For one; null if no price is stated or it is not by anything that one holds.</param>
/// <param name="Width">Of a sheet (mm), or 0.</param>
/// <param name="Length">Of a sheet or stick (mm), or 0.</param>
/// <param name="SizeUnit">The unit that the spec says its size in.</param>
public sealed record Pack(string Word, Quantity Size, double? Run, string? Called, Quantity? Price, DateOnly? PricedOn, string? Source, Span From, double Width = 0, double Length = 0, string? SizeUnit = null);

/// <summary>Reads how materials are sold, and turns quantities of one kind into another.</summary>
internal static class Packs
{
    /// <summary>Words of sale that mean one whole thing and not a measure.</summary>
    private static readonly string[] OneOf = ["each", "piece", "one"];

    /// <summary>Every pack of a material; empty if the spec does not say how it is sold.</summary>
    public static ImmutableArray<Pack> Of(Spec spec, Material material)
    {
        var e = spec.Evaluator;
        switch (material)
        {
            case SheetMaterial sheet when sheet.Sizes.Length > 0:
                return [.. sheet.Sizes.Select(s => Priced(material, new Pack("sheet", Weighing.Area(s.Width * s.Length), null, s.Called, s.Price, s.PricedOn, null, s.From, s.Width, s.Length)))];
            case StickMaterial stick when stick.Lengths.Length > 0:
                return [.. stick.Lengths.Select(l => Priced(material, new Pack("length", Quantity.FromMillimetres(l.Length), null, null, l.Price, l.PricedOn, null, l.From, 0, l.Length)))];
        }
        if (material.Kind == "trim")
        {
            var lengths = Materials.ReadLengths(spec, material.Fact);
            if (lengths.Length > 0) return [.. lengths.Select(l => Priced(material, new Pack("length", Quantity.FromMillimetres(l.Length), null, null, l.Price, l.PricedOn, null, l.From, 0, l.Length)))];
        }
        if (material.Kind is "cloth" or "membrane" or "tape")
        {
            var rolls = material.Fact.All("roll").Select(r => Roll(e, material, r)).OfType<Pack>().Select(p => Priced(material, p)).ToImmutableArray();
            if (rolls.Length > 0) return rolls;
        }
        return Plain(spec, material) is { } pack ? [pack] : [];
    }

    private static Pack? Roll(Evaluator e, Material material, BoundFact roll)
    {
        double? width = roll.Has("width") ? e.Length(roll, "width") : null, length = e.Length(roll, "length");
        var price = e.Quantity(roll, "amount");
        if (material.Kind == "tape") return length is { } l ? new Pack("roll", Quantity.FromMillimetres(l), l / 1000, null, price, e.Date(roll, "date"), null, roll.Span) : null;
        if (width is not { } w) return null;
        // A roll of no stated length is sold off by the unit that its price is for.
        if (length is null && material.Price is { } by && UnitTable.Find(by.Per) is { } unit && unit.Dimension == Dimension.OfLength) length = unit.Factor.ToDouble() * 1000;
        return length is { } along ? new Pack(roll.Has("length") ? "roll" : material.Price!.Per, Weighing.Area(w * along), along / 1000, null, price, e.Date(roll, "date"), null, roll.Span, w, along) : null;
    }

    private static Pack? Plain(Spec spec, Material material)
    {
        var e = spec.Evaluator;
        if (material.Fact.Find("sold") is { } sold && sold.Word("package") is { } word)
        {
            var size = e.Quantity(sold, "size") ?? (UnitTable.Find(word) is { } unit ? UnitTable.ToBase(1, unit) : Quantity.Count(1));
            return size.Value > 0 ? Priced(material, new Pack(word, size, null, null, null, null, null, sold.Span, SizeUnit: sold.Slots.TryGetValue("size", out var stated) ? Requirements.UnitIn(stated.Terms[0]) : null)) : null;
        }
        if (material.Price is not { } price)
        {
            // What is counted is sold one by one.
            return material.Kind is "unit" or "hardware" or "item" ? new Pack("each", Quantity.Count(1), null, null, null, null, null, material.Fact.NameSpan) : null;
        }
        if (UnitTable.Find(price.Per) is { } by && !UnitTable.IsCurrency(price.Per)) return Priced(material, new Pack(price.Per, UnitTable.ToBase(1, by), null, null, null, null, null, price.From));
        return OneOf.Contains(price.Per) || material.Kind is "unit" or "hardware" or "item" or "screw" ? Priced(material, new Pack(price.Per, Quantity.Count(1), null, null, null, null, null, price.From)) : null;
    }

    /// <summary>Puts the material's own price on a pack that has none: by the pack, by each thing in it, or by the unit.</summary>
    private static Pack Priced(Material material, Pack pack)
    {
        if (pack.Price is not null || material.Price is not { } price) return pack;
        double? times = null;
        if (UnitTable.Find(price.Per) is { } unit && !UnitTable.IsCurrency(price.Per))
        {
            if (unit.Dimension == pack.Size.Dimension) times = pack.Size.Value / unit.Factor.ToDouble();
            else if (unit.Dimension == Dimension.OfLength && pack.Run is { } run) times = run / unit.Factor.ToDouble();
            else if (Convert(material, pack.Size, unit.Dimension) is { } converted) times = converted.Value / unit.Factor.ToDouble();
        }
        else if (OneOf.Contains(price.Per)) times = pack.Size.Dimension.IsNone ? pack.Size.Value : 1;
        else times = 1;
        return times is { } t ? pack with { Price = new Quantity(price.Amount.Value * t, price.Amount.Dimension), PricedOn = price.On, Source = price.Source, From = price.From } : pack;
    }

    /// <summary>A quantity of a material as another kind of quantity, by what the material states; null if it does not state what that takes.</summary>
    public static Quantity? Convert(Material material, Quantity quantity, Dimension to)
    {
        if (quantity.Dimension == to) return quantity;
        double? factor = (Kind(quantity.Dimension), Kind(to)) switch
        {
            ('V', 'M') => Density(material),
            ('M', 'V') => 1 / Density(material),
            ('A', 'V') => Thickness(material),
            ('V', 'A') => 1 / Thickness(material),
            ('A', 'M') => material.Figure("weight")?.Value.Value ?? Thickness(material) * material.Density,
            ('M', 'A') => 1 / (material.Figure("weight")?.Value.Value ?? Thickness(material) * material.Density),
            ('L', 'M') => material.Figure("weight")?.Value.Value ?? Section(material) * material.Density,
            ('M', 'L') => 1 / (material.Figure("weight")?.Value.Value ?? Section(material) * material.Density),
            ('L', 'V') => Section(material),
            ('V', 'L') => 1 / Section(material),
            ('C', 'M') => material.Figure("weight")?.Value.Value,
            ('M', 'C') => 1 / material.Figure("weight")?.Value.Value,
            _ => null,
        };
        return factor is { } f && double.IsFinite(f) ? new Quantity(quantity.Value * f, to) : null;
    }

    private static char Kind(Dimension d) =>
        d == Dimension.OfLength ? 'L' : d == Dimension.OfArea ? 'A' : d == Dimension.OfVolume ? 'V' : d == Dimension.OfMass ? 'M' : d.IsNone ? 'C' : '?';

    /// <summary>As it is bought: loose powder for a filler.</summary>
    private static double? Density(Material material) => material.Kind == "filler" ? material.Figure("bulk_density")?.Value.Value : material.Kind == "foam" ? null : material.Density;

    private static double? Thickness(Material material) => material is SheetMaterial sheet ? sheet.Thickness / 1000 : null;

    private static double? Section(Material material) => material is StickMaterial stick ? stick.SectionArea / 1e6 : null;
}
