using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Model;
using Wain.Core.Pieces;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>Members by length, what fills the bays, and what holds the members together.</summary>
internal static class FrameTakeoff
{
    public static void Add(LineList lines, string subject, ImmutableArray<string> panels, LayerSlice slice, PanelFrame frame, List<Piece> blocks)
    {
        foreach (var group in frame.Members.GroupBy(m => m.Stick.Name, StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            var stick = group.First().Stick;
            string key = lines.Key(subject, stick.Name);
            double length = group.Sum(m => m.LongPoint) / 1000, volume = group.Sum(m => m.Volume) / 1e9;
            lines.Add(new TakeoffLine(key, subject, panels, LineKind.Member, stick, "length", new Quantity(length, Dimension.OfLength), stick.Waste, "its members as cut, end to end", [], slice.Layer.Fact.Span)
            {
                Pieces = [.. group.Select(m => m.LongPoint / 1000)],
                Also =
                [
                    new Measured("members", Quantity.Count(group.Count()), "as framed", []),
                    new Measured("volume", new Quantity(volume, Dimension.OfVolume), "its members with their cut ends", []),
                ],
                // By the volume that is left: a ripped or tapered member weighs less than its length says.
                Weight = stick.Figure("weight") is not null && group.All(m => !m.IsRipped) ? Weighing.Times(key + ".length", length, stick, "weight") : ByVolume(stick, key, volume),
            });
        }
        foreach (var fill in frame.Cavities.Where(c => c.Fill is not null).GroupBy(c => c.Fill!.Name, StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal))
            AddFill(lines, subject, panels, slice.Layer, [.. fill], fill.First().Fill!, [.. blocks.Where(b => b.Cavity is not null && b.Material.Name == fill.Key)]);
        foreach (var group in frame.Meetings.Where(m => m.Screw is not null && m.Driven > 0).GroupBy(m => m.Screw!))
        {
            Fastenings.AddCount(lines, subject, panels, LineKind.Screws, group.Key, group.Sum(m => m.Driven), "by the meetings of its members", slice.Layer.Fact.Span);
        }
        foreach (var group in frame.Meetings.Where(m => m.Glue is not null).GroupBy(m => m.Glue!))
        {
            Fastenings.AddGlue(lines, subject, panels, group.Key, group.Sum(m => m.Area), "where its members meet", slice.Layer.Fact.Span);
        }
    }

    // Mass by length holds for the whole section; for what is ripped the same figure is spread over the section.
    private static LineWeight ByVolume(StickMaterial stick, string key, double volume)
    {
        if (stick.Figure("weight") is not { } byLength) return Weighing.Times(key + ".volume", volume, stick, "density");
        string input = stick.Name + ".weight", section = stick.Name + ".section_area";
        return new LineWeight([new Methods.CausedSpread(input, Weighing.SpreadOf(byLength).Times(volume / (stick.SectionArea / 1e6)))], $"{key}.volume * {input} / {section}", [key + ".volume", input, section], null);
    }

    private static void AddFill(LineList lines, string subject, ImmutableArray<string> panels, StackLayer layer, List<Cavity> bays, Material fill, List<Piece> blocks)
    {
        string key = lines.Key(subject, fill.Name);
        var span = layer.Fact.Span;
        double volume = bays.Sum(b => b.Volume) / 1e9;
        var count = new Measured("bays", Quantity.Count(bays.Count), "as framed", []);
        var volumeOf = new Measured("volume", new Quantity(volume, Dimension.OfVolume), "the bays over the depth of the frame", []);
        if (fill is SheetMaterial board)
        {
            var boards = Weighing.Area(blocks.Sum(PanelTakeoff.AsCut));
            volume = blocks.Sum(b => b.Volume * b.Count) / 1e9;
            lines.Add(new TakeoffLine(key, subject, panels, LineKind.FoamBoard, board, "area", boards, board.Waste, "its blocks as cut, in as many layers as the depth of the frame takes", [], span)
            {
                Pieces = [.. blocks.SelectMany(b => Enumerable.Repeat(PanelTakeoff.AsCut(b) / b.Count / 1e6, b.Count))],
                Also = [new Measured("blocks", Quantity.Count(blocks.Sum(b => b.Count)), "as cut", []), count, new Measured("volume", new Quantity(volume, Dimension.OfVolume), "its blocks", [])],
                Weight = Weighing.OfSheet(board, key, volume),
            });
            return;
        }
        AddPour(lines, key, subject, panels, fill, volume, [volumeOf, count], span);
    }

    /// <summary>
    /// Foam that is poured: free-rise density and over-pack say what goes in, and a closed bay keeps it. A foam that states its density in place alone is
    /// taken at that.
    /// </summary>
    private static void AddPour(LineList lines, string key, string subject, ImmutableArray<string> panels, Material foam, double volume, ImmutableArray<Measured> also, Text.Span span)
    {
        var e = lines.Spec.Evaluator;
        double? overpack = foam.Fact.Find("overpack") is { } fact ? e.Number(fact, "share") : null;
        string property = foam.Figure("free_rise") is not null && overpack is not null ? "free_rise" : "density";
        if (foam.Figure(property) is not { } density)
        {
            string lacks = foam.Figure("free_rise") is not null ? "overpack" : "density";
            lines.Lack(key, subject, panels, LineKind.Fill, foam, lacks, span);
            return;
        }
        string volumeName = key + ".volume", figure = $"{foam.Name}.{property}";
        double factor = property == "free_rise" ? 1 + overpack!.Value : 1;
        string formula = property == "free_rise" ? $"{volumeName} * {figure} * (1 + {foam.Name}.overpack)" : $"{volumeName} * {figure}";
        ImmutableArray<string> inputs = property == "free_rise" ? [volumeName, figure, foam.Name + ".overpack"] : [volumeName, figure];
        var spread = Weighing.SpreadOf(density).Times(volume * factor);
        lines.Add(new TakeoffLine(key, subject, panels, LineKind.Fill, foam, "mass", Weighing.Mass(spread.Likely), foam.Waste, formula, inputs, span)
        {
            Also = also,
            Weight = new LineWeight([new Methods.CausedSpread(figure, spread)], key + ".mass", [key + ".mass"], null),
        });
    }
}
