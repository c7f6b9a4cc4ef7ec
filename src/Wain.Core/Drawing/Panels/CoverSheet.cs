using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Framing;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing.Panels;

/// <summary>The first pages of the printed set: what a person must read before building, and the list of parts.</summary>
public static class CoverSheet
{
    /// <summary>The usual cautions of the trade.</summary>
    public static readonly ImmutableArray<string> Cautions =
    [
        "Check every size with a tape on the work before you cut. Where a part meets one that is built already, the built one rules.",
        "Print at actual size, 100 percent, and measure the scale bar: a page that was scaled to fit spoils every template on it.",
        "Wood, foam, glass and silica dust harm the lungs. Wear a respirator that fits, and keep the dust out of the room.",
        "Epoxy and poured foam (isocyanates) can make you allergic for life. Read the safety data sheets, wear gloves and the right cartridges, and air the room.",
        "A camper that is too heavy, too high or too far back is a danger on the road. Stay within the ratings of axles, tyres and vehicle, and weigh it.",
        "Prop a raised roof or lid before you reach under it. Try lifts and struts with the load blocked first.",
        "Tie-downs, lifting points, gas, wiring and whatever carries people follow local codes. Where a licensed person is asked for, ask one.",
    ];

    // A column of the first page; the heading stands over all of them.
    private const double Column = 122, Heading = 13;

    /// <param name="sheets">The sheets that follow.</param>
    /// <param name="templates">How many pages of templates come after them.</param>
    public static ImmutableArray<LaidSheet> Of(Design design, DrawingOptions options, IReadOnlyList<LaidSheet> sheets, int templates)
    {
        // Both are laid out twice: on how many pages they stand decides which sheet comes first after them.
        int before = Cover(options, SheetList(sheets, 0, 0, templates)).Length, parts = Parts(design, options, _ => "").Length;
        var first = sheets.Select((s, i) => (s.Name, Number: before + parts + i + 1)).ToDictionary(s => s.Name, s => s.Number.ToString(CultureInfo.InvariantCulture), StringComparer.Ordinal);
        return [.. Cover(options, SheetList(sheets, before, parts, templates)), .. Parts(design, options, panel => first.GetValueOrDefault("panel-" + panel, ""))];
    }

    private static ImmutableArray<LaidSheet> Cover(DrawingOptions options, TableDrawing list)
    {
        var title = options.Title(options.Camper, "", "cover") with { Units = "" };
        var area = SheetFrame.Area(options.Paper, title);
        var heading = new TextMark(new(area.Left, area.Top - 8), Lettering.Shorten($"{options.Camper}: drawings to build from", 7, area.Width, true), 7, Bold: true);
        SideBlock[] blocks =
        [
            new SideBlock.Words("Read before you build", Cautions),
            new SideBlock.Words("How to read the sheets",
            [
                $"Every sheet has at its foot the revision and a mark of the values that it shows, and a drawing to scale {(options.Metric ? "a bar" : "two bars")} to check it. Sheets with other marks are not of this set.",
                $"Lengths are in {(options.Metric ? "millimetres" : "inches")}{(options.Brackets ? $"; {SheetWords.Bracketed(options)}" : "")}. All are measured from one corner of the part, the datum, so that rounding never adds up.",
                "A frame is drawn as it lies on the bench, an inside skin as its maker sees it: what is seen from inside is mirrored. What is cut for each layer, foam and cloth too, is in the list of pieces of the workbook.",
            ]),
            Lines(),
            .. list.Pages(area.Height - Heading - 2).Select(part => new SideBlock.Rows(part)),
        ];
        var pages = SheetLayout.Rest("cover", options.Paper, title, blocks, Column, Heading).ToList();
        return [pages[0] with { Sheet = pages[0].Sheet with { Marks = [heading, .. pages[0].Sheet.Marks] }, Labels = [new(heading.Text, heading.Bounds), .. pages[0].Labels] }, .. pages.Skip(1)];
    }

    /// <summary>What each kind of line and mark stands for.</summary>
    private static SideBlock.Drawn Lines()
    {
        const double row = 4.6, sample = 24;
        (Func<Vec2, IEnumerable<Mark>> Draw, string Text)[] kinds =
        [
            (at => [Along(at, Pen.Outline)], "outline of the part and its openings"),
            (at => [Along(at, Pen.Edge)], "edges inside the outline: members, steps, splices"),
            (at => [Along(at, Pen.Hidden)], "hidden: what lies behind the face that you see"),
            (at => [Along(at, Pen.Centre)], "centre lines"),
            (at => [Along(at, Pen.Alternate)], "another position, or a part beside it"),
            (at => [Along(at, Pen.Narrow), Arrows.Head(at + new Vec2(sample, 0), new Vec2(1, 0)), new PathMark(Contour.Circle(at, Arrows.OriginRadius), Pen.Narrow, 1)], "dimensions; the circle is the datum, where 0 is"),
            (at => [new PathMark(Contour.Circle(at + new Vec2(4, 0), 1.9), Pen.Edge, 1), new TextMark(at + new Vec2(4, -0.9), "A", 1.8, Anchor.Middle, Bold: true)], "an edge with a note under its letter; S and a number, a splice; a number, a member"),
        ];
        return new(_ => TextMark.Small * Lettering.Leading + kinds.Length * row + 3, (corner, _) =>
        {
            var marks = ImmutableArray.CreateBuilder<Mark>();
            var head = new TextMark(corner - new Vec2(0, TextMark.Small), "Key to lines (ISO 128) and marks", Bold: true);
            marks.Add(head);
            var labels = ImmutableArray.Create(new LabelBox(head.Text, head.Bounds));
            for (int i = 0; i < kinds.Length; i++)
            {
                var at = corner + new Vec2(1.5, -TextMark.Small * (Lettering.Leading + 0.5) - i * row);
                var text = new TextMark(at + new Vec2(sample + 5, -TextMark.Small / 2), kinds[i].Text);
                marks.AddRange(kinds[i].Draw(at));
                marks.Add(text);
                labels = labels.Add(new(text.Text, text.Bounds));
            }
            return new(marks.ToImmutable(), labels, marks.Aggregate(Box.Empty, (b, m) => b.Union(m.Bounds)));
        });

        static PathMark Along(Vec2 at, Pen pen) => new(Contour.Line(at, at + new Vec2(sample, 0)), pen);
    }

    // More sections than this are told in one line, as the panels are: the list is to stay on the cover.
    private const int MostJoints = 24;

    /// <summary>What stands on which sheet; panels in one line, because the part list has them by name.</summary>
    private static TableDrawing SheetList(IReadOnlyList<LaidSheet> sheets, int cover, int parts, int templates)
    {
        var numbered = sheets.Select((s, i) => (Sheet: s, Number: cover + parts + i + 1)).ToList();
        bool Is(LaidSheet s, string kind) => s.Name.StartsWith(kind, StringComparison.Ordinal);
        var rows = ImmutableArray.CreateBuilder<ImmutableArray<string>>();
        void Add(string what, IReadOnlyList<(LaidSheet Sheet, int Number)> of)
        {
            if (of.Count == 0) return;
            var scales = of.Select(s => s.Sheet.Sheet.Title.Scale).OfType<double>().Order().Distinct().ToList();
            rows.Add([Pages(of[0].Number, of[^1].Number), what, scales.Count == 0 ? "" : scales.Count == 1 ? Scales.Text(scales[0]) : $"{Scales.Text(scales[0])} to {Scales.Text(scales[^1])}"]);
        }
        rows.Add([Pages(1, cover), "cover", ""]);
        rows.Add([Pages(cover + 1, cover + parts), "part list, with the sheets of every panel", ""]);
        foreach (var view in numbered.Where(s => Is(s.Sheet, "views"))) Add(view.Sheet.Sheet.Title.View.Split(": ")[0], [view]);
        var panels = numbered.Where(s => Is(s.Sheet, "panel-")).ToList();
        Add(SheetWords.Several(panels.Select(p => p.Sheet.Sheet.Title.PartMark).Distinct(StringComparer.Ordinal).Count(), "panel") + ", by name", panels);
        Add("sheets, boards and sticks as they are cut, by material", [.. numbered.Where(s => Is(s.Sheet, DrawingBook.CutFolder))]);
        var joints = numbered.Where(s => Is(s.Sheet, "joint-")).GroupBy(s => s.Sheet.Sheet.Title.Name, StringComparer.Ordinal).ToList();
        if (joints.Count > MostJoints) Add(SheetWords.Several(joints.Count, "section") + " through joints, by name", [.. joints.SelectMany(j => j)]);
        else foreach (var joint in joints) Add("joint " + Lettering.Shorten(joint.Key, TextMark.Small, 70), [.. joint]);
        if (templates > 0) rows.Add(["", $"at the end {SheetWords.Several(templates, "page")} of templates", Scales.Text(1)]);
        return new("", [new("Sheet"), new("What"), new("Scale")], rows.ToImmutable());

        static string Pages(int from, int to) => from >= to ? from.ToString(CultureInfo.InvariantCulture) : FormattableString.Invariant($"{from} to {to}");
    }

    private static ImmutableArray<LaidSheet> Parts(Design design, DrawingOptions options, Func<string, string> sheet)
    {
        var title = options.Title(options.Camper, "", "part list") with { Units = "" };
        var area = SheetFrame.Area(options.Paper, title);
        return
        [
            .. PartList(design, options, sheet).Pages(area.Height - 2).Select((part, i) =>
            {
                var marks = part.Marks(new(area.Left, area.Top));
                return new LaidSheet(i == 0 ? "parts" : FormattableString.Invariant($"parts-{i + 1}"), new(options.Paper, title, marks), [.. marks.OfType<TextMark>().Select(t => new LabelBox(t.Text, t.Bounds))]);
            }),
        ];
    }

    /// <summary>Panels by name, with the first sheet of each; sizes over all on the larger face.</summary>
    private static TableDrawing PartList(Design design, DrawingOptions options, Func<string, string> sheet) => new(
        options.Metric ? "Parts, sizes in millimetres" : "Parts, sizes in inches", [new("Part"), new("Mark"), new("Layers"), new("Wide", true), new("High", true), new("Thick", true), new("Weight", true), new("Members", true), new("Sheet", true)],
        [.. design.Structure.Panels.OrderBy(p => p.Name, StringComparer.Ordinal).Select(p => (ImmutableArray<string>)
            [
                SheetWords.Spoken(p.Name), FrameBuilder.MarkOf(design.Structure, p), SheetWords.Spoken(p.Stack.Name), options.Length(p.Width), options.Length(p.Height), options.Fine(p.Thickness),
                options.Mass(p.Name) is { } kg ? options.Said(kg) : "", design.Frames.Of(p).Sum(f => f.Members.Length) is var n && n > 0 ? n.ToString(CultureInfo.InvariantCulture) : "",
                sheet(p.Name),
            ])]);
}
