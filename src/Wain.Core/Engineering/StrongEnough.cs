using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Methods;
using Wain.Core.Model;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Engineering;

/// <summary>
/// What would keep a panel within a limit that it passes: a thickness, a span, a load, each with the others left as they are. They come from how the formulas
/// of beams grow (bending sag with the fourth power of the span, shear sag with its second; stiffness of a solid sheet with the cube of its thickness, that of
/// skins about with the square of their distance), so each is as good an estimate as the figure that it mends.
/// </summary>
internal static class StrongEnough
{
    /// <summary>2 in: thicker than any sheet that such a panel is made of.</summary>
    private const double Thickest = 50.8;

    /// <param name="Span">m</param>
    /// <param name="Parts">The bending and the shear part of the sag (m); null for a plate.</param>
    public readonly record struct Asked(PlacedPanel Panel, PanelSection Section, CaseLoad Load, double Span, (double Bending, double Shear)? Parts);

    /// <summary>In words, as "it would hold with ...", and as a thickness to write where the panel is one sheet.</summary>
    public static (string? Words, ImmutableArray<Fix> Fixes) Of(Ledger ledger, Asked asked, StrengthRow row)
    {
        if (row is not { Value: > 0 and var value, Allowable: > 0 and var allowable } || row.IsJoint) return (null, []);
        double ratio = allowable / value;
        bool sag = row.Kind == StrengthKind.Deflection, solid = asked.Section.Layers is [{ Core: false }], patch = asked.Load.Force > 0;
        var (bending, shear) = asked.Parts ?? (value, 0);
        var ways = new List<string>();
        var fixes = ImmutableArray<Fix>.Empty;
        if (solid && (sag || row.Kind == StrengthKind.FaceStress))
        {
            double thickness = asked.Section.Layers[0].Thickness * 1000 * (sag ? Least(x => bending / (x * x * x) + shear / x, allowable) : 1 / Math.Sqrt(ratio));
            if (thickness <= Thickest)
            {
                ways.Add($"a sheet {Thick(ledger.Say, asked.Section.Layers[0].Material, thickness)} thick");
                fixes = Thicker(ledger.Spec, asked.Section.Layers[0].Material, thickness);
            }
        }
        else if (asked.Section.Layers.Any(l => l.Core) && (sag || row.Kind == StrengthKind.FaceStress))
        {
            double farther = sag ? 1 / Math.Sqrt(ratio) : 1 / ratio;
            if (farther < 4) ways.Add($"skins about {Say.Number(Math.Ceiling(farther * 10) / 10, "0.0")} times as far apart");
        }
        if (asked.Parts is not null)
        {
            // The limit of a sag is a share of the span, so it shrinks with it.
            double shorter = sag ? 1 / Least(x => patch ? bending / (x * x) + shear : bending / (x * x * x) + shear / x, allowable)
                : row.Kind == StrengthKind.CoreShear ? patch ? 0 : ratio : patch ? ratio : Math.Sqrt(ratio);
            if (shorter > 0.2) ways.Add($"a span of {ledger.Say.AtMost(asked.Span * 1000 * shorter)}");
        }
        if (!asked.Load.IsWind) ways.Add(patch ? $"a load of {ledger.Say.Force(asked.Load.Force * ratio)}" : $"a load of {ledger.Say.Spread(asked.Load.Pressure * ratio)}");
        return (ways.Count == 0 ? null : string.Join(ways.Count == 2 ? " or " : ", or ", ways.Count > 2 ? [string.Join(", ", ways.SkipLast(1)), ways[^1]] : ways), fixes);
    }

    // The least factor by which something that falls as it grows comes down to a limit.
    private static double Least(Func<double, double> of, double limit)
    {
        var (low, high) = (1.0, 1000.0);
        if (of(high) > limit) return double.PositiveInfinity;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (of(middle) > limit) low = middle; else high = middle;
        }
        return high;
    }

    private static bool InMillimetres(Material sheet) => sheet.Fact.Find("thickness") is { } fact && fact.Slots.TryGetValue("true", out var text) && text.Terms[0] is MeasureExpression { Unit: "mm" };

    private static string Thick(Say say, Material sheet, double mm) => InMillimetres(sheet) ? Math.Ceiling(mm - 1e-6).ToString(CultureInfo.InvariantCulture) + " mm" : say.AtLeast(mm);

    // What a sheet is called would no longer fit, so one that has such a name is chosen anew by hand.
    private static ImmutableArray<Fix> Thicker(Spec spec, Material sheet, double mm) =>
        sheet.Fact.Find("thickness") is { } fact && fact.Has("true") && !fact.Has("called") && !fact.Has("measured") ? [Fixing.Write(spec, fact, "true", Thick(spec.Say, sheet, mm))] : [];
}
