using System.Collections.Immutable;
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
        "Print at actual size, 100 percent, and measure the scale bars: a page that was scaled to fit spoils every template on it.",
        "Wood, foam, glass and silica dust harm the lungs. Wear a respirator that fits, and keep the dust out of the room.",
        "Epoxy and poured foam (isocyanates) can make you allergic for life. Read the safety data sheets, wear gloves and the right cartridges, and air the room.",
        "A camper that is too heavy, too high or too far back is a danger on the road. Stay within the ratings of axles, tyres and vehicle, and weigh it.",
        "Prop a raised roof or lid before you reach under it. Try lifts and struts with the load blocked first.",
        "Tie-downs, lifting points, gas, wiring and whatever carries people follow local codes. Where a licensed person is asked for, ask one.",
    ];

    /// <param name="sheets">The sheets that follow, by title.</param>
    public static ImmutableArray<LaidSheet> Of(Design design, DrawingOptions options, IReadOnlyList<LaidSheet> sheets)
    {
        var title = options.Title(options.Camper, "", "cover") with { Units = "" };
        var area = SheetFrame.Area(options.Paper, title);
        var pages = ImmutableArray.CreateBuilder<LaidSheet>();

        var heading = new TextMark(new(area.Left, area.Top - 9), Lettering.Shorten($"{options.Camper}: drawings to build from", 7, area.Width, true), 7, Bold: true);
        var lines = new SideBlock.Words("Read before you build", Cautions);
        var words = lines.Draw(new(area.Left, area.Top - 16), area.Width);
        var what = new SideBlock.Words("In this set",
        [
            $"Part list. Views closed and raised. {sheets.Count(s => s.Name.StartsWith("panel-", StringComparison.Ordinal))} sheets of panels, {sheets.Count(s => s.Name.StartsWith("joint-", StringComparison.Ordinal))} sections through joints, then templates at full size.",
            "Wide lines are edges that you see; dashed lines are hidden; long-dashed dotted lines are centres; long-dashed double-dotted lines are other positions.",
            "A frame that is put together face down has a view of its own, mirrored. So has an inside skin.",
        ]).Draw(new(area.Left, area.Top - 20 - lines.HeightAt(area.Width)), area.Width);
        pages.Add(new("cover", new(options.Paper, title, [heading, .. words.Marks, .. what.Marks]), [new(heading.Text, heading.Bounds), .. words.Labels, .. what.Labels]));

        title = title with { View = "part list" };
        // The list is laid out twice: on how many pages it stands decides which sheet comes first after it.
        int before = pages.Count + PartList(design, options, _ => "").Pages(area.Height - 2).Count();
        var first = sheets.Select((s, i) => (s.Name, Number: before + i + 1)).ToDictionary(s => s.Name, s => s.Number.ToString(System.Globalization.CultureInfo.InvariantCulture), StringComparer.Ordinal);
        var table = PartList(design, options, panel => first.GetValueOrDefault("panel-" + panel, ""));
        int page = 0;
        foreach (var part in table.Pages(area.Height - 2))
        {
            var marks = part.Marks(new(area.Left, area.Top));
            string name = ++page == 1 ? "parts" : FormattableString.Invariant($"parts-{page}");
            pages.Add(new(name, new(options.Paper, title, marks), [.. marks.OfType<TextMark>().Select(t => new LabelBox(t.Text, t.Bounds))]));
        }
        return pages.ToImmutable();
    }

    /// <summary>Panels by name, with the first sheet of each; sizes over all on the larger face.</summary>
    private static TableDrawing PartList(Design design, DrawingOptions options, Func<string, string> sheet) => new(
        options.Metric ? "Parts, sizes in millimetres" : "Parts, sizes in inches", [new("Part"), new("Mark"), new("Layers"), new("Wide", true), new("High", true), new("Thick", true), new("Weight", true), new("Members", true), new("Sheet", true)],
        [.. design.Structure.Panels.OrderBy(p => p.Name, StringComparer.Ordinal).Select(p => (ImmutableArray<string>)
            [
                SheetWords.Spoken(p.Name), FrameBuilder.MarkOf(design.Structure, p), SheetWords.Spoken(p.Stack.Name), options.Length(p.Width), options.Length(p.Height), options.Fine(p.Thickness),
                options.Mass(p.Name) is { } kg ? options.Said(kg) : "", design.Frames.Of(p).Sum(f => f.Members.Length) is var n && n > 0 ? n.ToString(System.Globalization.CultureInfo.InvariantCulture) : "",
                sheet(p.Name),
            ])]);
}
