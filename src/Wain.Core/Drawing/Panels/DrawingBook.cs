using System.Collections.Immutable;
using Wain.Core.Geometry;

namespace Wain.Core.Drawing.Panels;

/// <param name="Pictures">Names are file names with their folder and without an ending.</param>
/// <param name="Pages">In the order of the printed set.</param>
public sealed record DrawingSet(ImmutableArray<(string Name, Picture Picture)> Pictures, ImmutableArray<Picture> Pages);

/// <summary>All drawings of a design: as single pictures, and as the pages of one printable set. Pure: the same design and options give the same drawings.</summary>
public static class DrawingBook
{
    /// <summary>Views, panels, what is cut from what, and joint sections, for one file each; and cover, part list, all of those and the templates as pages of one set.</summary>
    public static DrawingSet Of(Design design, DrawingOptions options)
    {
        var templates = TemplatePages(design, options);
        var sheets = Sheets(design, options, templates.Length).Select(s => (s.Name, Picture: s.Sheet.ToPicture())).ToImmutableArray();
        return new(
            [.. sheets.Where(s => !s.Name.StartsWith("cover", StringComparison.Ordinal) && !s.Name.StartsWith("parts", StringComparison.Ordinal)).Select(s => (s.Name.StartsWith(CutFolder, StringComparison.Ordinal) ? s.Name : "drawings/" + s.Name, s.Picture))],
            [.. sheets.Select(s => s.Picture), .. templates]);
    }

    internal const string CutFolder = "cutting/";

    /// <summary>Every sheet in its order, numbered, with its labels.</summary>
    public static ImmutableArray<LaidSheet> Sheets(Design design, DrawingOptions options) => Sheets(design, options, TemplatePages(design, options).Length);

    private static ImmutableArray<Picture> TemplatePages(Design design, DrawingOptions options) => [.. ShopTemplates.Of(design, options).SelectMany(t => Templates.Tile(t, options.Paper, options.Metric))];

    private static ImmutableArray<LaidSheet> Sheets(Design design, DrawingOptions options, int templates)
    {
        options = options with { Brackets = HasBrackets(design, options) };
        var panels = design.Structure.Panels.OrderBy(p => p.Name, StringComparer.Ordinal);
        List<LaidSheet> drawn =
        [
            .. Views(design.Structure, options),
            .. panels.SelectMany(p => PanelSheet.Outside(design, p, options).Concat(FrameSheet.Of(design, p, options)).Concat(PanelSheet.Inside(design, p, options))),
            .. options.Cutting(options).Select(s => s with { Name = CutFolder + s.Name }),
            .. JointTypes.Of(design.Structure).SelectMany(t => JointSection.Of(design, t, options)),
        ];
        List<LaidSheet> all = [.. CoverSheet.Of(design, options, drawn, templates), .. drawn];
        return [.. all.Select((s, i) => s with { Sheet = s.Sheet with { Title = s.Sheet.Title with { Number = FormattableString.Invariant($"{i + 1} of {all.Count}") } } })];
    }

    private static bool HasBrackets(Design design, DrawingOptions options) => design.Structure.Panels.Any(p =>
        p.Stack.Layers.Concat(p.Zones.SelectMany(z => z.Stack.Layers)).Any(l => StackSection.IsInOther(design.Spec, l, options)) || p.Openings.Any(o => PanelSketch.IsInOther(design.Spec, o, options)));

    /// <summary>Plan, left side and rear: closed, raised, and both over each other.</summary>
    public static IEnumerable<LaidSheet> Views(Structure structure, DrawingOptions options)
    {
        var faces = StructureFaces.Of(structure);
        var moving = structure.Panels.Where(p => p.Lift is not null && structure.Lifts.Any(l => l.Name == p.Lift)).Select(p => p.Name).ToHashSet(StringComparer.Ordinal);
        yield return View("views-closed", "views, closed", [.. faces.Where(f => !f.Alternate)]);
        if (moving.Count == 0) yield break;
        yield return View("views-raised", "views, raised", [.. faces.Where(f => f.Alternate || !moving.Contains(f.Name)).Select(f => f with { Alternate = false })]);
        yield return View("views", "views, both states: raised in long-dashed double-dotted lines", faces);

        LaidSheet View(string name, string view, ImmutableArray<Face> shown)
        {
            var title = options.Title(options.Camper, "", view) with { Units = options.Metric ? "Millimetres." : "Inches." };
            var sheet = ViewDrawing.ThreeViews(options.Paper, title, shown, options.Plain);
            return new(name, sheet, [.. Labels(sheet.Marks)]);
        }
    }

    private static IEnumerable<LabelBox> Labels(IEnumerable<Mark> marks) =>
        marks.SelectMany(m => m switch { GroupMark g => Labels(g.Marks), TextMark t => [new LabelBox(t.Text, t.Bounds)], _ => [] });
}
