using System.Collections.Immutable;
using Wain.Core.Engineering.Methods;
using Wain.Core.Model;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>Glass cloth by area with the laps between its lengths, and the resin that wets, fills and floods it.</summary>
internal static class ClothTakeoff
{
    public static void Add(LineList lines, string subject, ImmutableArray<string> panels, LayerSlice slice, Material cloth)
    {
        var layer = slice.Layer;
        string key = lines.Key(subject, cloth.Name);
        double face = slice.OuterArea / 1e6;
        var bounds = (slice.Zone?.Region ?? slice.Panel.Outline).Bounds;
        double laps = LapArea(lines, cloth, bounds.Width, bounds.Height) / 1e6;
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
        if (cloth.Figure("glass") is not { } glass || glass.Value.Value is <= 0 or > 1)
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

    /// <summary>
    /// Laps between lengths of the roll (mm2) for a face of a given extent, laid the way that needs fewer seams; none if the roll's width or the lap is
    /// not stated.
    /// </summary>
    internal static double LapArea(LineList lines, Material cloth, double width, double height)
    {
        var e = lines.Spec.Evaluator;
        if (cloth.Fact.Find("overlap") is not { } fact || e.Length(fact, "value") is not { } lap || lap <= 0) return 0;
        double roll = cloth.Fact.All("roll").Select(r => e.Length(r, "width") ?? 0).DefaultIfEmpty(0).Max();
        if (roll <= lap) return 0;
        double Laps(double across, double along) => Math.Max(0, Math.Ceiling((across - lap) / (roll - lap) - 1e-9) - 1) * lap * along;
        return Math.Min(Laps(width, height), Laps(height, width));
    }
}
