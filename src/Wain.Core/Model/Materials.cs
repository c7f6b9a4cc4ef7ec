using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Model;

/// <summary>A figure of a material: its likely value with how far it spreads, the line that it stands on, and where it comes from.</summary>
/// <param name="Source">As the spec says it; null if it says nothing.</param>
public sealed record MaterialFigure(Quantity Value, Quantity? Low, Quantity? High, Span From, string? Source);

/// <summary>What something costs: an amount for a unit or a word of sale ("sheet", "gal"), on a day if that is stated.</summary>
public sealed record Price(Quantity Amount, string Per, DateOnly? On, string? Source, Span From);

/// <summary>A size that a sheet or board is sold in, in mm; the grain runs along the length.</summary>
public sealed record StockSize(double Width, double Length, string? Called, Quantity? Price, DateOnly? PricedOn, int? Count, Span From);

/// <summary>A length that a stick or trim is sold in, in mm.</summary>
public sealed record StockLength(double Length, Quantity? Price, DateOnly? PricedOn, int? Count, Span From);

/// <summary>Something that is bought. What all kinds have in common; figures are read by their keyword.</summary>
public record Material(string Name, string Kind, BoundFact Fact, Price? Price, ImmutableDictionary<string, MaterialFigure> Figures)
{
    /// <summary>A figure by its keyword, such as "density"; null if the spec does not state it.</summary>
    public MaterialFigure? Figure(string keyword) => Figures.GetValueOrDefault(keyword);

    /// <summary>In kg/m3, or null.</summary>
    public double? Density => Figure("density")?.Value.Value;

    /// <summary>Share lost in cutting, mixing and spilling.</summary>
    public double Waste { get; init; }

    public override string ToString() => Name;
}

/// <summary>A sheet or board: true thickness in mm, as measured if it was measured.</summary>
public sealed record SheetMaterial(string Name, string Kind, BoundFact Fact, Price? Price, ImmutableDictionary<string, MaterialFigure> Figures, double TrueThickness, double? MeasuredThickness, string? Called,
    ImmutableArray<StockSize> Sizes, bool HasGrain, double Trim) : Material(Name, Kind, Fact, Price, Figures)
{
    /// <summary>What geometry uses (mm).</summary>
    public double Thickness => MeasuredThickness ?? TrueThickness;
}

/// <summary>A stick: true section in mm, as measured if it was measured.</summary>
public sealed record StickMaterial(string Name, string Kind, BoundFact Fact, Price? Price, ImmutableDictionary<string, MaterialFigure> Figures, double Thickness, double Width, double? Wall, string? Called,
    ImmutableArray<StockLength> Lengths) : Material(Name, Kind, Fact, Price, Figures)
{
    /// <summary>Area of material in the section (mm2), net of the hollow.</summary>
    public double SectionArea => Wall is { } w && 2 * w < Math.Min(Thickness, Width) ? Thickness * Width - (Thickness - 2 * w) * (Width - 2 * w) : Thickness * Width;
}

/// <summary>A bought window, door or hatch (mm).</summary>
public sealed record UnitMaterial(string Name, string Kind, BoundFact Fact, Price? Price, ImmutableDictionary<string, MaterialFigure> Figures, double CutOutWidth, double CutOutHeight, double CutOutCorner,
    double? WallLow, double? WallHigh, double Flange, double ProudOutside, double ProudInside) : Material(Name, Kind, Fact, Price, Figures);

/// <summary>Reads the materials of a spec. A material whose necessary facts are missing or wrong is left out; why is reported.</summary>
public static class Materials
{
    private static readonly string[] PlainKinds = ["foam", "cloth", "tape", "resin", "filler", "coating", "adhesive", "sealant", "seal", "membrane", "trim", "screw", "hardware", "item"];

    /// <summary>All materials by whole name, in the order of the text.</summary>
    public static ImmutableArray<Material> Read(Spec spec)
    {
        var materials = ImmutableArray.CreateBuilder<Material>();
        foreach (var fact in spec.Facts)
        {
            var material = fact.Keyword switch
            {
                "sheet" or "board" when fact.Name is not null => ReadSheet(spec, fact),
                "stick" when fact.Name is not null => ReadStick(spec, fact),
                "unit" when fact.Name is not null => ReadUnit(spec, fact),
                var kind when fact.Name is not null && PlainKinds.Contains(kind) => new Material(fact.Name, kind, fact, ReadPrice(spec, fact), ReadFigures(spec, fact)),
                _ => null,
            };
            if (material is not null) materials.Add(material with { Waste = Number(spec, fact, "waste", "share") ?? 0 });
        }
        return materials.ToImmutable();
    }

    private static SheetMaterial? ReadSheet(Spec spec, BoundFact fact)
    {
        var e = spec.Evaluator;
        var thickness = fact.Find("thickness");
        if (thickness is null) return Lacking<SheetMaterial>(spec, fact, "thickness");
        double? value = Positive(spec, thickness, "true");
        if (value is null) return null;
        var sizes = fact.All("size").Select(s => (Width: Positive(spec, s, "width"), Length: Positive(spec, s, "length"), Fact: s)).Where(s => s.Width is not null && s.Length is not null)
            .Select(s => new StockSize(s.Width!.Value, s.Length!.Value, e.Text(s.Fact, "called"), e.Quantity(s.Fact, "amount"), e.Date(s.Fact, "date"), (int?)e.Number(s.Fact, "count"), s.Fact.Span)).ToImmutableArray();
        return new SheetMaterial(fact.Name!, fact.Keyword, fact, ReadPrice(spec, fact), ReadFigures(spec, fact), value.Value, Positive(spec, thickness, "measured"), e.Text(thickness, "called"), sizes,
            fact.Find("grain")?.Word("grain") is { } g ? g != "none" : fact.Keyword == "sheet" && fact.Find("kind")?.Word("kind") is null or "wood", fact.Find("trimmed") is { } t ? e.Length(t, "edge") ?? 0 : 0);
    }

    private static StickMaterial? ReadStick(Spec spec, BoundFact fact)
    {
        var e = spec.Evaluator;
        var section = fact.Find("section");
        if (section is null) return Lacking<StickMaterial>(spec, fact, "section");
        double? thickness = Positive(spec, section, "measured_thickness") ?? Positive(spec, section, "thickness"), width = Positive(spec, section, "measured_width") ?? Positive(spec, section, "width");
        if (thickness is null || width is null) return null;
        return new StickMaterial(fact.Name!, fact.Keyword, fact, ReadPrice(spec, fact), ReadFigures(spec, fact), thickness.Value, width.Value, fact.Find("wall") is { } w ? Positive(spec, w, "wall") : null, e.Text(section, "called"), ReadLengths(spec, fact));
    }

    /// <summary>The lengths that a stick or trim is sold in.</summary>
    public static ImmutableArray<StockLength> ReadLengths(Spec spec, BoundFact fact)
    {
        var e = spec.Evaluator;
        return [.. fact.All("length").Select(l => (Length: Positive(spec, l, "length"), Fact: l)).Where(l => l.Length is not null)
            .Select(l => new StockLength(l.Length!.Value, e.Quantity(l.Fact, "amount"), e.Date(l.Fact, "date"), (int?)e.Number(l.Fact, "count"), l.Fact.Span))];
    }

    private static UnitMaterial? ReadUnit(Spec spec, BoundFact fact)
    {
        var e = spec.Evaluator;
        var cut = fact.Find("cut_out");
        if (cut is null) return Lacking<UnitMaterial>(spec, fact, "cut_out");
        if (Positive(spec, cut, "width") is not { } width || Positive(spec, cut, "height") is not { } height) return null;
        var wall = fact.Find("wall") is { } w ? e.Bounds(w, "range") : null;
        var proud = fact.Find("proud");
        return new UnitMaterial(fact.Name!, fact.Keyword, fact, ReadPrice(spec, fact), ReadFigures(spec, fact), width, height, e.Length(cut, "corner") ?? 0, wall?.Low?.Millimetres, wall?.High?.Millimetres,
            fact.Find("flange") is { } f ? e.Length(f, "value") ?? 0 : 0, proud is null ? 0 : e.Length(proud, "outside") ?? 0, proud is null ? 0 : e.Length(proud, "inside") ?? 0);
    }

    private static Price? ReadPrice(Spec spec, BoundFact fact)
    {
        if (fact.Find("price") is not { } price || spec.Evaluator.Quantity(price, "amount") is not { } amount) return null;
        return new Price(amount, price.Word("per") ?? "", spec.Evaluator.Date(price, "date"), spec.Evaluator.Text(price, "source"), price.Span);
    }

    private static ImmutableDictionary<string, MaterialFigure> ReadFigures(Spec spec, BoundFact fact)
    {
        string? common = fact.Find("source") is { } s ? spec.Evaluator.Text(s, "text") : null;
        var figures = ImmutableDictionary.CreateBuilder<string, MaterialFigure>(StringComparer.Ordinal);
        foreach (var inner in fact.Body)
        {
            if (inner.Shape.Slots.FirstOrDefault() is not { Name: "value" }) continue;
            if (spec.Evaluator.Quantity(inner, "value") is not { } value) continue;
            if (value.Value < 0 && inner.Keyword is not "data_sheet_temperature")
            {
                spec.Evaluator.Report(new Findings.Finding(BindingFindings.OutOfRange, $"{inner.Keyword} of {fact.Name} can't be negative.", spec.Evaluator.SlotSpan(inner, "value")) { Subject = inner.Path, Fixes = inner.Slots.TryGetValue("value", out var text) ? Fixing.WithoutMinus(text.Terms[0]) : [] });
                continue;
            }
            figures[inner.Keyword] = new MaterialFigure(value, spec.Evaluator.Quantity(inner, "low"), spec.Evaluator.Quantity(inner, "high"), inner.Span, spec.Evaluator.Text(inner, "source") ?? common);
        }
        return figures.ToImmutable();
    }

    private static double? Number(Spec spec, BoundFact fact, string keyword, string slot) => fact.Find(keyword) is { } inner ? spec.Evaluator.Number(inner, slot) : null;

    /// <summary>A length that must be more than nothing, in mm.</summary>
    internal static double? Positive(Spec spec, BoundFact fact, string slot)
    {
        if (spec.Evaluator.Length(fact, slot) is not { } value) return null;
        if (value > 0) return value;
        spec.Evaluator.Report(new Findings.Finding(BindingFindings.OutOfRange, slot == "true" ? $"{fact.Path} must be more than zero." : $"{fact.Path}: the {slot} must be more than zero.", spec.Evaluator.SlotSpan(fact, slot)) { Subject = fact.Path, Fixes = fact.Slots.TryGetValue(slot, out var text) ? Fixing.WithoutMinus(text.Terms[0]) : [] });
        return null;
    }

    private static T? Lacking<T>(Spec spec, BoundFact fact, string keyword) where T : class
    {
        spec.Evaluator.Report(new Findings.Finding(BindingFindings.MissingPart, $"{fact.Keyword} {fact.Name} lacks its {keyword}.", fact.NameSpan) { Subject = fact.Path, Hint = $"It reads: {fact.Shape.Body!.ByKeyword[keyword].Reading}." });
        return null;
    }
}
