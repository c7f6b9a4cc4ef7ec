using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Methods;
using Wain.Core.Model;
using Wain.Core.Pieces;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>Glass cloth by area with the laps between its lengths, and the resin that wets, fills and floods it.</summary>
internal static class ClothTakeoff
{
    public static void Add(LineList lines, string subject, ImmutableArray<string> panels, LayerSlice slice, Material cloth, List<Piece> lengths)
    {
        var layer = slice.Layer;
        string key = lines.Key(subject, cloth.Name);
        double face = slice.OuterArea / 1e6;
        double laps = Laps(lengths) / 1e6;
        if (laps < 1e-9) laps = 0;
        var area = new Quantity((face + laps) * layer.Count, Dimension.OfArea);
        var dry = Weighing.Times(key + ".area", area.Value, cloth, "weight");
        lines.Add(new TakeoffLine(key, subject, panels, LineKind.Cloth, cloth, "area", area, cloth.Waste, $"({key}.face_area + {key}.lap_area) * {key}.plies",
            [key + ".face_area", key + ".lap_area", key + ".plies"], layer.Fact.Span)
        {
            Also =
            [
                new Measured("face_area", new Quantity(face, Dimension.OfArea), "the face that it lies on, net of openings", []),
                new Measured("lap_area", new Quantity(laps, Dimension.OfArea), "where one length of the roll laps the next", []),
                new Measured("plies", Quantity.Count(layer.Count), "as the spec says", []),
            ],
            Weight = dry,
        });
        if (layer.Resin is { } resin) AddResin(lines, subject, panels, key, dry, face, layer, cloth, resin);
    }

    /// <summary>Where lengths off the roll lie over each other (mm2), net of openings. Where they run on over a zone of the same cloth, they are larger than the face of the panel's own layers.</summary>
    private static double Laps(List<Piece> lengths)
    {
        double sum = 0;
        for (int i = 0; i < lengths.Count; i++)
            for (int j = i + 1; j < lengths.Count; j++)
            {
                var (a, b) = (lengths[i], lengths[j]);
                if (a.Finished.Bounds.Touches(b.Finished.Bounds)) sum += Overlap.Area(a.Finished, b.Finished) - a.Holes.Sum(h => Overlap.Area(h, b.Finished));
            }
        return sum;
    }

    /// <summary>Resin of one lay-up (kg): wet-out of the dry glass by its glass content, and each fill or flood coat by its mass over the face.</summary>
    private static void AddResin(LineList lines, string subject, ImmutableArray<string> panels, string clothKey, LineWeight dry, double face, StackLayer layer, Material cloth, Material resin)
    {
        string key = lines.Key(subject, resin.Name);
        var span = layer.Fact.Span;
        if (!dry.IsKnown)
        {
            lines.Lack(key, subject, panels, LineKind.Resin, cloth, "weight", span);
            return;
        }
        if (cloth.Figure("glass") is not { } glass || glass.Value.Value is <= 0 or > 0.8)
        {
            lines.Lack(key, subject, panels, LineKind.Resin, cloth, "glass", span);
            return;
        }
        string content = cloth.Name + ".glass", weight = clothKey + ".weight";
        var (mass, parts) = Weighing.WetOut(dry, content, glass);
        var terms = new List<string> { $"{weight} * (1 - {content}) / {content}" };
        var inputs = new List<string> { weight, content };
        var also = new List<Measured>();
        var causes = parts.ToList();
        foreach (var (property, count) in new[] { ("fill_coat", layer.FillCoats), ("flood_coat", layer.FloodCoats) })
        {
            if (count == 0) continue;
            if (resin.Figure(property) is not { } coat)
            {
                lines.Lack(key, subject, panels, LineKind.Resin, resin, property, span);
                return;
            }
            string figure = $"{resin.Name}.{property}", coats = $"{key}.{property}s";
            also.Add(new Measured(property + "s", Quantity.Count(count), "as the spec says", []));
            terms.Add($"{clothKey}.face_area * {coats} * {figure}");
            inputs.AddRange([clothKey + ".face_area", coats, figure]);
            causes.Add(new CausedSpread(figure, Weighing.SpreadOf(coat).Times(face * count)));
            mass += face * count * coat.Value.Value;
        }
        lines.Add(new TakeoffLine(key, subject, panels, LineKind.Resin, resin, "mass", Weighing.Mass(mass), resin.Waste, string.Join(" + ", terms), [.. inputs.Distinct(StringComparer.Ordinal)], span)
        {
            Also = [.. also],
            Weight = new LineWeight([.. causes], key + ".mass", [key + ".mass"], null),
        });
    }
}
