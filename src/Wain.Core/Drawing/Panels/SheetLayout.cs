using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing.Panels;

/// <summary>Blocks of text and tables beside a view or under it: a piece of a sheet that knows how high it is at a width.</summary>
internal abstract record SideBlock
{
    public abstract double HeightAt(double width);

    /// <summary>The least width that it can be drawn in, mm.</summary>
    public virtual double Least => 0;

    public abstract DimensionLayout Draw(Vec2 corner, double width);

    /// <summary>Paragraphs under a heading.</summary>
    public sealed record Words(string Heading, ImmutableArray<string> Paragraphs) : SideBlock
    {
        private const double Line = TextMark.Small * Lettering.Leading;

        private IEnumerable<(string Text, bool Bold)> Lines(double width)
        {
            yield return (Heading, true);
            foreach (string paragraph in Paragraphs)
                foreach (string line in Lettering.Wrap(paragraph, TextMark.Small, width)) yield return (line, false);
        }

        public override double HeightAt(double width) => Paragraphs.IsEmpty ? 0 : Lines(width).Count() * Line + 3;

        public override DimensionLayout Draw(Vec2 corner, double width)
        {
            if (Paragraphs.IsEmpty) return new([], [], Box.Empty);
            var texts = Lines(width).Select((l, i) => new TextMark(new(corner.X, corner.Y - TextMark.Small - i * Line), l.Text, Bold: l.Bold)).ToList();
            return new([.. texts], [.. texts.Select(t => new LabelBox(t.Text, t.Bounds))], texts.Aggregate(Box.Empty, (b, t) => b.Union(t.Bounds)));
        }
    }

    /// <summary>A part of a table, which goes on below or in the next column; parts that come to stand under one another are drawn as one.</summary>
    public sealed record Rows(TableDrawing Table) : SideBlock
    {
        public override double HeightAt(double width) => Table.Height + 1;

        public override double Least => Table.Width;

        public override DimensionLayout Draw(Vec2 corner, double width)
        {
            var marks = Table.Marks(corner);
            return new(marks, [.. marks.OfType<TextMark>().Select(t => new LabelBox(t.Text, t.Bounds))], marks.Aggregate(Box.Empty, (b, m) => b.Union(m.Bounds)));
        }
    }

    /// <summary>Something drawn, of a height that does not follow the width.</summary>
    public sealed record Drawn(double Height, Func<Vec2, double, DimensionLayout> Paint) : SideBlock
    {
        public override double HeightAt(double width) => Height;

        public override DimensionLayout Draw(Vec2 corner, double width) => Paint(corner, width);
    }
}

/// <summary>Shares a sheet between a view and the blocks that go with it: a column at the right or a strip at the foot, whichever lets the view be larger.</summary>
internal static class SheetLayout
{
    /// <summary>Room around the part itself for dimensions and notes, mm.</summary>
    public readonly record struct Margins(double Left, double Below, double Right, double Above);

    /// <summary>Room for notes left and right of the part, mm.</summary>
    public readonly record struct NoteRoom(double Left, double Right)
    {
        public static NoteRoom For(SideNotes notes) =>
            new(notes.Left, notes.Right.IsEmpty ? 0 : NoteGap + Math.Min(WidestNote, notes.Right.SelectMany(n => n.Lines).Max(l => Lettering.Width(l, TextMark.Small))));
    }

    /// <param name="Complete">False if the blocks found no room beside the view and stand on no sheet yet.</param>
    public sealed record Plan(View View, Box Area, ImmutableArray<Mark> Marks, ImmutableArray<LabelBox> Labels, bool Complete);

    private const double Gap = 5, NoteGap = 9, WidestNote = 45, LeastWords = 45, LeastRight = 8;

    /// <summary>The sheet as it lies, or stood upright where that shows a part which is higher than wide at a larger scale.</summary>
    /// <param name="extent">Of the part, mm.</param>
    /// <param name="lay">As <see cref="Settle"/> has it, on a paper.</param>
    public static LaidSheet Best(Paper paper, Box extent, Func<Paper, NoteRoom, (LaidSheet Sheet, NoteRoom Needed)> lay)
    {
        var lying = Settle(room => lay(paper, room));
        if (extent.Height <= extent.Width) return lying;
        var upright = Settle(room => lay(paper.Turned(), room));
        bool better = upright.Complete == lying.Complete ? upright.Sheet.Title.Scale < lying.Sheet.Title.Scale : upright.Complete;
        return better ? upright : lying;
    }

    /// <summary>Lays a sheet out with as much room for notes beside the view as its notes turn out to need: how many there are depends on the scale, which depends on the room.</summary>
    private static LaidSheet Settle(Func<NoteRoom, (LaidSheet Sheet, NoteRoom Needed)> lay)
    {
        const int tries = 6;
        LaidSheet? best = null;
        var room = new NoteRoom(0, LeastRight);
        double? largest = null;
        for (int i = 0; ; i++)
        {
            var (sheet, needed) = lay(room);
            // Nothing has more room than the first, so no scale is larger than its.
            largest ??= sheet.Sheet.Title.Scale;
            bool fits = needed.Left <= room.Left + 0.5 && needed.Right <= room.Right + 0.5;
            if (fits && (best is null || sheet.Sheet.Title.Scale < best.Sheet.Title.Scale)) best = sheet;
            if (best is not null && (best.Sheet.Title.Scale <= largest || i >= tries)) return best;
            // A view that got less room than it needs may need less than it got when it is smaller, and the other way round; so the room goes halfway toward what is needed.
            // Later it only grows, and a text is only so wide: so it ends.
            room = i < tries ? new((room.Left + needed.Left) / 2, Math.Max(LeastRight, (room.Right + needed.Right) / 2)) : new(Math.Max(room.Left, needed.Left), Math.Max(room.Right, needed.Right));
        }
    }

    /// <param name="model">The part's extent, mm.</param>
    /// <param name="column">Width that the blocks want, mm.</param>
    public static Plan Share(Box area, Box model, Margins margins, IReadOnlyList<SideBlock> blocks, double column, bool mirrored)
    {
        Box Inner(Box drawing) => new(drawing.Left + margins.Left, drawing.Bottom + margins.Below, drawing.Right - margins.Right, drawing.Top - margins.Above);
        double Ratio(Box drawing) => Inner(drawing) is { Width: > 10, Height: > 10 } b ? Math.Max(model.Width / b.Width, model.Height / b.Height) : double.PositiveInfinity;

        var sizes = new Sizes();
        var candidates = new List<(Box Drawing, List<Box> Columns)>();
        for (int columns = 1; columns <= 2; columns++)
            foreach (double broad in new[] { 1, 1.2, 1.4 })
            {
                double own = column * broad, width = columns * (own + Gap);
                var boxes = Columns(area with { Left = area.Right - width + Gap }, Enumerable.Repeat(own, columns));
                if (Flow(blocks, boxes, sizes) is not null) candidates.Add((area with { Right = area.Right - width }, boxes));
            }
        foreach (var widths in Strips(area.Width, column))
            for (double height = 12; height <= area.Height; height += 2)
            {
                var boxes = Columns(area with { Top = area.Bottom + height }, widths);
                if (Flow(blocks, boxes, sizes) is null) continue;
                candidates.Add((area with { Bottom = area.Bottom + height + Gap }, boxes));
                break;
            }
        var (drawing, chosen) = candidates.Count > 0 ? candidates.MinBy(c => Ratio(c.Drawing)) : (area, []);
        if (double.IsPositiveInfinity(Ratio(drawing))) (drawing, chosen) = (area, []);
        bool complete = blocks.Count == 0 || chosen.Count > 0;
        var placed = chosen.Count == 0 ? null : Flow(blocks, chosen, sizes);
        var layouts = placed is null ? [] : placed.Select(p => p.Block.Draw(new(p.Box.Left, p.Top), p.Box.Width)).ToList();
        return new(View.Fit(model, Inner(drawing), mirrored), drawing, [.. layouts.SelectMany(l => l.Marks)], [.. layouts.SelectMany(l => l.Labels)], complete);
    }

    // Columns of one width; or as many as there can be of the least width, and words in what those leave, if that is narrower.
    private static IEnumerable<IReadOnlyList<double>> Strips(double width, double column)
    {
        int across = Math.Max(1, (int)((width + Gap) / (column + Gap)));
        yield return [.. Enumerable.Repeat((width - (across - 1) * Gap) / across, across)];
        double left = width - across * (column + Gap);
        if (left < LeastWords && across > 1) left = width - --across * (column + Gap);
        if (left >= LeastWords && left < column) yield return [.. Enumerable.Repeat(column, across), left];
    }

    private static List<Box> Columns(Box area, IEnumerable<double> widths)
    {
        var boxes = new List<Box>();
        double at = area.Left;
        foreach (double width in widths)
        {
            boxes.Add(new(at, area.Bottom, at + width, area.Top));
            at += width + Gap;
        }
        return boxes;
    }

    /// <summary>Blocks that found no room beside their view, on as many sheets as they take.</summary>
    /// <param name="above">Room that the first page keeps free at its top, mm.</param>
    public static IEnumerable<LaidSheet> Rest(string name, Paper paper, TitleBlock title, IReadOnlyList<SideBlock> blocks, double column, double above = 0)
    {
        var area = SheetFrame.Area(paper, title);
        area = area with { Top = area.Top - above };
        int across = Math.Max(1, (int)((area.Width + Gap) / (column + Gap)));
        double wide = (area.Width - (across - 1) * Gap) / across;
        var columns = Columns(area, Enumerable.Repeat(wide, across));
        var left = new Queue<SideBlock>(blocks.SelectMany(b => b is SideBlock.Words words ? Parted(words, wide, area.Height) : [b]));
        var sizes = new Sizes();
        for (int page = 1; left.Count > 0; page++)
        {
            if (page == 2) columns = Columns(area with { Top = area.Top + above }, columns.Select(c => c.Width));
            var here = new List<SideBlock> { left.Dequeue() };
            while (left.Count > 0 && Flow([.. here, left.Peek()], columns, sizes) is not null) here.Add(left.Dequeue());
            var layouts = (Flow(here, columns, sizes) ?? [(here[0], columns[0], columns[0].Top)]).Select(p => p.Block.Draw(new(p.Box.Left, p.Top), p.Box.Width)).ToList();
            yield return new(page == 1 ? name : FormattableString.Invariant($"{name}-{page}"), new(paper, title with { Scale = null }, [.. layouts.SelectMany(l => l.Marks)]), [.. layouts.SelectMany(l => l.Labels)]);
        }
    }

    // What is longer than a column goes on in the next.
    private static IEnumerable<SideBlock> Parted(SideBlock.Words words, double width, double height)
    {
        var part = words with { Paragraphs = [] };
        foreach (string paragraph in words.Paragraphs)
        {
            var longer = part with { Paragraphs = part.Paragraphs.Add(paragraph) };
            if (part.Paragraphs.IsEmpty || longer.HeightAt(width) <= height) part = longer;
            else
            {
                yield return part;
                part = new SideBlock.Words(words.Heading + ", continued", [paragraph]);
            }
        }
        yield return part;
    }

    /// <summary>Sizes of blocks once measured: while a sheet is laid out they are asked for again and again, always at a few widths.</summary>
    private sealed class Sizes
    {
        private readonly Dictionary<(SideBlock, double), double> _heights = [];
        private readonly Dictionary<SideBlock, double> _least = [];

        public double Height(SideBlock block, double width)
        {
            if (!_heights.TryGetValue((block, width), out double height)) _heights[(block, width)] = height = block.HeightAt(width);
            return height;
        }

        public double Least(SideBlock block)
        {
            if (!_least.TryGetValue(block, out double least)) _least[block] = least = block.Least;
            return least;
        }
    }

    /// <summary>Each block in the first column that has room for it after those before, parts of a table in their order; null if one finds none.</summary>
    private static List<(SideBlock Block, Box Box, double Top)>? Flow(IReadOnlyList<SideBlock> blocks, List<Box> columns, Sizes sizes)
    {
        var tops = columns.Select(c => c.Top).ToArray();
        var placed = new List<(SideBlock Block, Box Box, double Top)>();
        int begun = 0;
        foreach (var block in blocks)
        {
            if (block is SideBlock.Rows more && placed.Count > 0 && placed[^1] is { Block: SideBlock.Rows rows } last && last.Box == columns[begun])
            {
                var joined = new SideBlock.Rows(rows.Table with { Rows = rows.Table.Rows.AddRange(more.Table.Rows) });
                double end = last.Top - joined.HeightAt(last.Box.Width);
                if (end >= last.Box.Bottom - 1e-6 && joined.Least <= last.Box.Width + 1e-6)
                {
                    placed[^1] = last with { Block = joined };
                    tops[begun] = end - 2;
                    continue;
                }
            }
            int at = columns.FindIndex(block is SideBlock.Rows ? begun : 0, c => c.Width >= sizes.Least(block) - 1e-6 && tops[columns.IndexOf(c)] - sizes.Height(block, c.Width) >= c.Bottom - 1e-6);
            if (at < 0) return null;
            if (block is SideBlock.Rows) begun = at;
            placed.Add((block, columns[at], tops[at]));
            tops[at] -= sizes.Height(block, columns[at].Width) + 2;
        }
        return placed;
    }
}
