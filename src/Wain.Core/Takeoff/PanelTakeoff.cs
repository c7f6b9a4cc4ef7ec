using System.Collections.Immutable;
using Wain.Core.Methods;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Pieces;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>What the layers of a panel and its zones take.</summary>
internal static class PanelTakeoff
{
    public static void Add(LineList lines, PlacedPanel panel, IReadOnlyList<PanelFrame> frames, IReadOnlyList<Piece> pieces, IReadOnlyList<Splice> splices)
    {
        foreach (string name in panel.Openings.Select(o => o.Name).Concat(panel.Zones.Select(z => z.Name))) lines.Reserve(panel.Name + "." + name);
        var slices = LayerAreas.Of(panel);
        foreach (var slice in slices)
        {
            string subject = slice.Zone is null ? panel.Name : panel.Name + "." + slice.Zone.Name;
            var frame = slice.Layer.Kind == LayerKind.Frame ? frames.FirstOrDefault(f => ReferenceEquals(f.Layer, slice.Layer) && f.Zone?.Name == slice.Zone?.Name) : null;
            List<Piece> cut = [.. pieces.Where(p => ReferenceEquals(p.Layer, slice.Layer) && p.Zone?.Name == slice.Zone?.Name)];
            AddLayer(lines, subject, slice, frame, cut, splices);
        }
        GlueLines.Add(lines, panel, slices, frames);
        foreach (var finish in PanelFacts.All(panel, "finish")) AddFinish(lines, panel, slices, finish);
        foreach (var opening in panel.Openings) if (opening.Unit is { } unit) AddUnit(lines, panel, opening, unit);
    }

    private static void AddLayer(LineList lines, string subject, LayerSlice slice, PanelFrame? frame, List<Piece> cut, IReadOnlyList<Splice> splices)
    {
        var (panel, layer) = (slice.Panel, slice.Layer);
        ImmutableArray<string> panels = [panel.Name];
        switch (layer.Kind)
        {
            case LayerKind.Sheet or LayerKind.Foam when layer.Material is SheetMaterial sheet:
                // None where a skin of the panel runs on under the zone.
                if (cut.Count > 0) AddSheet(lines, subject, panels, slice, sheet, cut, [.. splices.Where(s => slice.Zone is null && ReferenceEquals(s.Layer, layer))]);
                break;
            case LayerKind.Membrane when layer.Material is { } film:
                {
                    string key = lines.Key(subject, film.Name);
                    var area = Weighing.Area(slice.Area);
                    lines.Add(new TakeoffLine(key, subject, panels, LineKind.Membrane, film, "area", area, film.Waste, "its layer, net of openings", [], layer.Fact.Span)
                    {
                        Weight = Weighing.Times(key + ".area", area.Value, film, "weight"),
                    });
                    break;
                }
            case LayerKind.Coating when layer.Material is { } coating:
                AddCoating(lines, subject, panels, coating, slice.OuterArea, layer.Count, layer.Fact.Span);
                break;
            case LayerKind.Cloth when layer.Material is { } cloth:
                ClothTakeoff.Add(lines, subject, panels, slice, cloth, cut);
                break;
            case LayerKind.Frame when frame is not null:
                FrameTakeoff.Add(lines, subject, panels, slice, frame, cut);
                break;
        }
    }

    /// <summary>A skin or a foam layer by its pieces as cut: laps between them, long points of bevels and what is trimmed flush are bought; what stays is weighed.</summary>
    private static void AddSheet(LineList lines, string subject, ImmutableArray<string> panels, LayerSlice slice, SheetMaterial sheet, List<Piece> cut, List<Splice> splices)
    {
        string key = lines.Key(subject, sheet.Name);
        var kind = slice.Layer.Kind == LayerKind.Foam ? LineKind.FoamBoard : LineKind.Skin;
        double lapped = splices.Sum(s => s.Overlap * s.Length);
        var area = Weighing.Area(cut.Sum(AsCut));
        var volume = Weighing.Volume(cut.Sum(p => p.Volume * p.Count));
        var also = ImmutableArray.CreateBuilder<Measured>();
        also.Add(new Measured("pieces", Quantity.Count(cut.Sum(p => p.Count)), "as cut", []));
        if (lapped > 0) also.Add(new Measured("lap_area", Weighing.Area(lapped), "where its pieces lap, counted in its area", []));
        also.Add(new Measured("volume", volume, "its pieces, less what bevels, laps, rabbets and recesses take", []));
        lines.Add(new TakeoffLine(key, subject, panels, kind, sheet, "area", area, sheet.Waste, "its pieces as cut, net of openings", [], slice.Layer.Fact.Span)
        {
            Also = also.ToImmutable(),
            Pieces = [.. cut.SelectMany(p => Enumerable.Repeat(AsCut(p) / p.Count / 1e6, p.Count))],
            Weight = Weighing.OfSheet(sheet, key, volume.Value),
        });
        foreach (var splice in splices)
        {
            if (splice.Rule.Glue is { } glue) Fastenings.AddGlue(lines, subject, panels, glue, splice.GlueArea, "where pieces of the skin join", splice.Rule.Fact.Span);
            if (splice.Rule.Kind == SpliceKind.Butt && splice.Rule.Backing > 0) AddStrip(lines, subject, panels, sheet, splice);
        }
    }

    /// <summary>mm2 of all that are alike, net of openings.</summary>
    internal static double AsCut(Piece piece) => (piece.Rough.Area() - piece.Holes.Sum(h => h.Area())) * piece.Count;

    // The strip behind a butt is of the skin that it backs.
    private static void AddStrip(LineList lines, string subject, ImmutableArray<string> panels, SheetMaterial sheet, Splice splice)
    {
        string key = lines.Key(subject, sheet.Name);
        var area = Weighing.Area(splice.Rule.Backing * splice.Length);
        var volume = Weighing.Volume(splice.Rule.Backing * splice.Length * sheet.Thickness);
        lines.Add(new TakeoffLine(key, subject, panels, LineKind.Gusset, sheet, "area", area, sheet.Waste, "the strip behind the butt", [], splice.Rule.Fact.Span)
        {
            Also = [new Measured("volume", volume, $"{key}.area * {sheet.Name}.thickness", [key + ".area", sheet.Name + ".thickness"])],
            Weight = Weighing.OfSheet(sheet, key, volume.Value),
        });
    }

    private static void AddFinish(LineList lines, PlacedPanel panel, ImmutableArray<LayerSlice> slices, Binding.BoundFact finish)
    {
        if (lines.Of(finish, "coating") is not { } coating) return;
        int coats = (int)Math.Clamp(lines.Spec.Evaluator.Number(finish, "coats") ?? 1, 1, 100);
        string? face = finish.Word("face");
        double area = 0;
        if (face is null or "outside") area += FaceArea(panel, slices, outside: true);
        if (face is null or "inside") area += FaceArea(panel, slices, outside: false);
        AddCoating(lines, panel.Name, [panel.Name], coating, area, coats, finish.Span);
    }

    /// <summary>A whole face with its zones (mm2).</summary>
    private static double FaceArea(PlacedPanel panel, ImmutableArray<LayerSlice> slices, bool outside)
    {
        double area = LayerAreas.AreaAt(panel, null, outside ? 1e-6 : panel.Thickness - 1e-6);
        foreach (var zone in panel.Zones) if (!zone.Added) area += LayerAreas.AreaAt(panel, zone, outside ? zone.Offset + 1e-6 : zone.Offset + zone.Stack.Thickness - 1e-6);
        return area;
    }

    /// <summary>Coats over an area (mm2): volume by coverage; what stays when it is dry by density and solids.</summary>
    private static void AddCoating(LineList lines, string subject, ImmutableArray<string> panels, Material coating, double area, int coats, Text.Span from)
    {
        string key = lines.Key(subject, coating.Name);
        if (coating.Figure("coverage") is not { } coverage)
        {
            lines.Lack(key, subject, panels, LineKind.Coating, coating, "coverage", from);
            return;
        }
        var coated = Weighing.Area(area);
        var volume = new Quantity(coated.Value * coats / coverage.Value.Value, Dimension.OfVolume);
        string name = key + ".volume";
        string[] needs = [coating.Name + ".density", coating.Name + ".solids"];
        var weight = coating.Figure("density") is null ? LineWeight.Missing("density")
            : coating.Figure("solids") is not { Value.Value: > 0 and <= 1 } solids ? LineWeight.Missing("solids")
            : new LineWeight(
                [
                    new CausedSpread(needs[0], Weighing.SpreadOf(coating.Figure("density")!).Times(volume.Value * solids.Value.Value)),
                    new CausedSpread(needs[1], Around(Weighing.SpreadOf(solids)).Times(volume.Value * coating.Density!.Value)),
                    new CausedSpread(coating.Name + ".coverage", ByCoverage(coverage, volume.Value * coating.Density!.Value * solids.Value.Value)),
                ], $"{name} * {needs[0]} * {needs[1]}", [name, .. needs], null);
        lines.Add(new TakeoffLine(key, subject, panels, LineKind.Coating, coating, "volume", volume, coating.Waste,
            $"{key}.area * {key}.coats / {coating.Name}.coverage", [key + ".area", key + ".coats", coating.Name + ".coverage"], from)
        {
            Also = [new Measured("area", coated, "its face, net of openings", []), new Measured("coats", Quantity.Count(coats), "as the spec says", [])],
            Weight = weight,
        });
    }

    // The spread alone, without the likely value, which another cause already carries.
    private static Spread Around(Spread spread) => new(spread.Low - spread.Likely, 0, spread.High - spread.Likely);

    private static Spread ByCoverage(MaterialFigure coverage, double mass)
    {
        var (low, likely, high) = (Weighing.SpreadOf(coverage).Low, coverage.Value.Value, Weighing.SpreadOf(coverage).High);
        return new Spread(mass * (likely / high - 1), 0, mass * (low > 0 ? likely / low - 1 : 0));
    }

    private static void AddUnit(LineList lines, PlacedPanel panel, PlacedOpening opening, UnitMaterial unit)
    {
        string subject = panel.Name + "." + opening.Name;
        string key = lines.Key(subject, unit.Name);
        lines.Add(new TakeoffLine(key, subject, [panel.Name], LineKind.Unit, unit, "count", Quantity.Count(1), 0, "one in its opening", [], opening.Fact.Span)
        {
            Weight = Weighing.Each(key + ".count", 1, unit),
        });
    }
}
