using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Drawing.Panels;

/// <summary>A small section through a stack at its true proportions, the outside face up, each layer named with its thickness.</summary>
public static class StackSection
{
    private const double Width = 16, Line = TextMark.Small * 1.5, Step = TextMark.Small * Lettering.Leading;

    /// <summary>Height that it needs (mm).</summary>
    /// <param name="width">mm that it may take in all.</param>
    public static double HeightOf(Spec spec, Stack stack, double width, DrawingOptions options, double most = 34) => Math.Max(Band(stack, most), Names(spec, stack, width, options).Sum(Tall)) + 12;

    /// <summary>The name of each layer in the lines that it takes: a thickness at its end is never cut off.</summary>
    private static List<IReadOnlyList<string>> Names(Spec spec, Stack stack, double width, DrawingOptions options) =>
        [.. stack.Layers.Select(l => Lettering.Wrap(Describe(spec, l, options), TextMark.Small, width - Width - 8))];

    private static double Tall(IReadOnlyList<string> lines) => Line + (lines.Count - 1) * Step;

    private static double Band(Stack stack, double most) => stack.Thickness / Scale(stack, most);

    private static double Scale(Stack stack, double most) => Scales.AtLeast(Math.Max(1e-6, stack.Thickness / Math.Max(4, most - 10)));

    /// <param name="corner">Upper left, paper mm.</param>
    /// <param name="width">mm that names may take in all.</param>
    public static DimensionLayout Draw(Spec spec, Stack stack, Vec2 corner, double width, DrawingOptions options, double most = 34)
    {
        double scale = Scale(stack, most), total = stack.Thickness / scale, height = HeightOf(spec, stack, width, options, most);
        var names = Names(spec, stack, width, options);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var labels = ImmutableArray.CreateBuilder<LabelBox>();
        void Text(TextMark text)
        {
            marks.Add(text);
            labels.Add(new(text.Text, text.Bounds));
        }
        Text(new(new(corner.X, corner.Y - TextMark.Small), Lettering.Shorten($"{SheetWords.Spoken(stack.Name)}  {Scales.Text(scale)}, outside up", TextMark.Small, width, true), Bold: true));

        double top = corner.Y - 6 - Math.Max(0, (names.Sum(Tall) - total) / 2);
        var middles = new List<double>();
        double y = top;
        foreach (var layer in stack.Layers)
        {
            double next = y - layer.Thickness / scale;
            middles.Add((y + next) / 2);
            if (layer.Thickness > 0)
            {
                foreach (var (from, to, material) in Parts(layer))
                    marks.AddRange(LayerHatch.Marks(Contour.Rectangle(new(corner.X + from * Width, next, corner.X + to * Width, y)), material));
            }
            // Cloth, films and coatings have no thickness to scale; a wide line says that they are there.
            else if (layer.Kind is LayerKind.Cloth or LayerKind.Membrane) marks.Add(new PathMark(Contour.Line(new(corner.X, y), new(corner.X + Width, y)), new(LineType.Continuous, 0.7)));
            y = next;
        }
        int last = names.Count - 1;
        // From the lowest up, by the foot of each name.
        var feet = Spreading.Place([.. Enumerable.Range(0, names.Count).Select(i => middles[last - i] - Tall(names[last - i]) / 2)], i => Tall(names[last - i]), corner.Y - height + 2, corner.Y - 6 + Line / 2 - (last < 0 ? 0 : Tall(names[0])));
        for (int i = 0; i < middles.Count; i++)
        {
            double at = feet[last - i] + Tall(names[i]) / 2;
            double x = corner.X + Width;
            marks.Add(Arrows.Line(new(x - 2, middles[i]), new(x + 3, middles[i]), new(x + 6, at), new(x + 7, at)));
            for (int k = 0; k < names[i].Count; k++) Text(new(new(x + 8, at + ((names[i].Count - 1) / 2.0 - k) * Step - TextMark.Small / 2), names[i][k]));
        }
        var all = marks.ToImmutable();
        return new(all, labels.ToImmutable(), all.Aggregate(Box.Empty, (b, m) => b.Union(m.Bounds)));
    }

    /// <summary>A frame shows a stick at the left and what fills the bay beside it.</summary>
    private static IEnumerable<(double From, double To, CutMaterial Material)> Parts(StackLayer layer) => layer.Kind == LayerKind.Frame
        ? [(0, 0.4, CutMaterial.Wood), (0.4, 1, layer.Fill is null ? CutMaterial.Air : CutMaterial.Foam)]
        : [(0, 1, LayerHatch.Of(layer.Kind))];

    /// <summary>What a layer is, how thick, and what is in it.</summary>
    public static string Describe(Spec spec, StackLayer layer, DrawingOptions options)
    {
        string name = SheetWords.Sold(layer.Material);
        string size = layer.Thickness > 0 ? " " + Thickness(spec, layer, options) : "";
        return layer.Kind switch
        {
            LayerKind.Coating => $"{name}, {layer.Count} {(layer.Count == 1 ? "coat" : "coats")}",
            LayerKind.Cloth => $"{name}, {layer.Count} {(layer.Count == 1 ? "ply" : "plies")}",
            LayerKind.Frame => $"{name} {(layer.Flat ? "flat" : "on edge")}{size}, {(layer.Fill is { } fill ? SheetWords.Sold(fill) : "empty bays")}",
            _ => name + size,
        };
    }

    /// <summary>True of a layer whose thickness is told in both units.</summary>
    public static bool IsInOther(Spec spec, StackLayer layer, DrawingOptions options) =>
        layer.Material is SheetMaterial { MeasuredThickness: null } && SheetWords.InOtherUnit(spec, layer.Material.Fact.Find("thickness"), "true", options);

    private static string Thickness(Spec spec, StackLayer layer, DrawingOptions options)
    {
        bool other = IsInOther(spec, layer, options);
        // Thicknesses of sheets differ by less than a sixteenth.
        return LengthText.Of(layer.Thickness, (other ? options.Both : options.Plain) with { Denominator = 32, MillimetreStep = 0.1 });
    }
}
