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

    /// <summary>Something drawn, as high as it says for a width.</summary>
    public sealed record Drawn(Func<double, double> Height, Func<Vec2, double, DimensionLayout> Paint) : SideBlock
    {
        public override double HeightAt(double width) => Height(width);

        public override DimensionLayout Draw(Vec2 corner, double width) => Paint(corner, width);
    }
}

/// <summary>Shares a sheet between a view and the blocks that go with it: a column at the right or a strip at the foot, whichever lets the view be larger.</summary>
internal static class SheetLayout
{
    /// <summary>Room around the part itself for dimensions and notes, mm.</summary>
    public readonly record struct Margins(double Left, double Below, double Right, double Above);

    /// <summary>Room for notes left and right of the part, and what its dimensions take under and over it beyond the usual, mm.</summary>
    public readonly record struct NoteRoom(double Left, double Right, double Below = 0, double Above = 0)
    {
        public static readonly NoteRoom Least = new(0, LeastRight);

        /// <param name="part">On paper, mm.</param>
        /// <param name="over">What a sheet has over its part in any case, mm.</param>
        public static NoteRoom For(SideNotes notes, IReadOnlyCollection<DimensionLayout> dimensions, Box part, double over) => new(
            notes.Left, notes.Right.IsEmpty ? 0 : NoteGap + Math.Min(WidestNote, notes.Right.SelectMany(n => n.Lines).Max(l => Lettering.Width(l, TextMark.Small))),
            Math.Max(0, part.Bottom - dimensions.Min(d => d.Bounds.Bottom) - Under), Math.Max(0, dimensions.Max(d => d.Bounds.Top) - part.Top - over));

        public bool Holds(NoteRoom needed) => needed.Left <= Left + 0.5 && needed.Right <= Right + 0.5 && needed.Below <= Below + 0.5 && needed.Above <= Above + 0.5;

        public NoteRoom Toward(NoteRoom needed) => new(Toward(Left, needed.Left), Math.Max(LeastRight, Toward(Right, needed.Right)), Toward(Below, needed.Below), Toward(Above, needed.Above));

        private static double Toward(double has, double needed) => has + 0.75 * (needed - has);

        public NoteRoom With(NoteRoom needed) => new(Math.Max(Left, needed.Left), Math.Max(Right, needed.Right), Math.Max(Below, needed.Below), Math.Max(Above, needed.Above));
    }

    /// <param name="Complete">False if the blocks found no room beside the view and stand on no sheet yet.</param>
    public sealed record Plan(View View, Box Area, Sharing? Blocks, bool Complete)
    {
        public IEnumerable<Mark> Marks => Blocks?.Layouts.SelectMany(l => l.Marks) ?? [];

        public IEnumerable<LabelBox> Labels => Blocks?.Layouts.SelectMany(l => l.Labels) ?? [];
    }

    /// <summary>One way to share a sheet: what is left for the view, and the blocks in their columns.</summary>
    public sealed class Sharing(Box drawing, IReadOnlyList<(SideBlock Block, Box Box, double Top)> placed)
    {
        private ImmutableArray<DimensionLayout> _layouts;

        public Box Drawing => drawing;

        public bool IsEmpty => placed.Count == 0;

        /// <summary>Drawn once, however often the view beside it is tried.</summary>
        public ImmutableArray<DimensionLayout> Layouts => _layouts.IsDefault ? _layouts = [.. placed.Select(p => p.Block.Draw(new(p.Box.Left, p.Top), p.Box.Width))] : _layouts;
    }

    /// <summary>A sheet that is laid out with more or less room for notes: how it is shared then, which is quickly known; what its notes need, and all of it, which is made of the best alone.</summary>
    public sealed record Trial(Func<NoteRoom, Plan> Share, Func<Plan, (Func<LaidSheet> Sheet, NoteRoom Needed)> Lay)
    {
        /// <summary>With as little room for notes as there can be: no scale is larger than its, and what has no room for its blocks then never has.</summary>
        public Plan Roomiest { get; } = Share(NoteRoom.Least);
    }

    /// <summary>True if a part is so much smaller beside its words than on a sheet of its own that the words go on a sheet of theirs: the sooner the smaller it is drawn.</summary>
    public static bool IsTooSmall(double beside, double alone) => alone < beside * (beside > 16 ? 0.7 : 0.55);

    /// <summary>What a sheet has under its part in any case, mm.</summary>
    public const double Under = 25;

    private const double Gap = 5, NoteGap = 9, WidestNote = 60, LeastWords = 45, LeastRight = 8;

    /// <summary>The sheet as it lies, or stood upright where that shows a part which is higher than wide at a larger scale.</summary>
    /// <param name="extent">Of the part, mm.</param>
    /// <param name="on">The sheet on a paper.</param>
    /// <param name="beat">A scale that the sheet must be larger than to be of use, with room for all its blocks.</param>
    /// <returns>Null if it can't be of use.</returns>
    public static LaidSheet? Best(Paper paper, Box extent, Func<Paper, Trial> on, double? beat = null)
    {
        bool CanBeat(Trial trial) => beat is null || trial.Roomiest.Complete && trial.Roomiest.View.Scale < beat;
        var lying = on(paper);
        var upright = extent.Height > extent.Width ? on(paper.Turned()) : null;
        if (upright is null || !CanBeat(upright)) return CanBeat(lying) ? Settle(lying) : null;
        if (!CanBeat(lying)) return Settle(upright);
        // Laying out takes long; so the more promising first, and the other only if it could be better still.
        bool uprightFirst = IsBetter(upright.Roomiest.Complete, upright.Roomiest.View.Scale, lying.Roomiest.Complete, lying.Roomiest.View.Scale);
        var first = Settle(uprightFirst ? upright : lying);
        var other = uprightFirst ? lying : upright;
        if (first.Complete && (!other.Roomiest.Complete || other.Roomiest.View.Scale > first.Sheet.Title.Scale || !uprightFirst && other.Roomiest.View.Scale >= first.Sheet.Title.Scale)) return first;
        var second = Settle(other);
        var (laid, stood) = uprightFirst ? (second, first) : (first, second);
        return IsBetter(stood.Complete, stood.Sheet.Title.Scale, laid.Complete, laid.Sheet.Title.Scale) ? stood : laid;
    }

    private static bool IsBetter(bool complete, double? scale, bool thanComplete, double? thanScale) => complete == thanComplete ? scale < thanScale : complete;

    /// <summary>Lays a sheet out with as much room for notes beside the view as its notes turn out to need: how many there are depends on the scale, which depends on the room.</summary>
    private static LaidSheet Settle(Trial trial)
    {
        const int tries = 6;
        (double Scale, Func<LaidSheet> Sheet)? best = null;
        var room = NoteRoom.Least;
        for (int i = 0; ; i++)
        {
            var plan = i == 0 ? trial.Roomiest : trial.Share(room);
            var (sheet, needed) = trial.Lay(plan);
            if (room.Holds(needed) && !(plan.View.Scale >= best?.Scale)) best = (plan.View.Scale, sheet);
            if (best is { } found && (found.Scale <= trial.Roomiest.View.Scale || i >= tries)) return found.Sheet();
            // A view that got less room than it needs may need less than it got when it is smaller, and the other way round; so the room goes most of the way toward what is needed.
            // Later it only grows, and a text is only so wide: so it ends.
            room = i < tries ? room.Toward(needed) : room.With(needed);
        }
    }

    /// <summary>The ways to share a sheet between a view and blocks: a column or two at the right, a strip at the foot.</summary>
    /// <param name="column">Width that the blocks want, mm.</param>
    public static ImmutableArray<Sharing> Sharings(Box area, IReadOnlyList<SideBlock> blocks, double column)
    {
        if (blocks.Count == 0) return [new(area, [])];
        var sizes = new Sizes();
        var sharings = ImmutableArray.CreateBuilder<Sharing>();
        for (int columns = 1; columns <= 2; columns++)
            foreach (double broad in new[] { 1, 1.2, 1.4 })
            {
                double own = column * broad, width = columns * (own + Gap);
                if (Flow(blocks, Columns(area with { Left = area.Right - width + Gap }, Enumerable.Repeat(own, columns)), sizes) is { } placed) sharings.Add(new(area with { Right = area.Right - width }, placed));
            }
        foreach (var widths in Strips(area.Width, column))
            for (double height = 12; height <= area.Height; height += 2)
            {
                if (Flow(blocks, Columns(area with { Top = area.Bottom + height }, widths), sizes) is not { } placed) continue;
                sharings.Add(new(area with { Bottom = area.Bottom + height + Gap }, placed));
                break;
            }
        return sharings.ToImmutable();
    }

    /// <summary>The sharing that lets the view be largest.</summary>
    /// <param name="model">The part's extent, mm.</param>
    public static Plan Share(Box area, ImmutableArray<Sharing> sharings, Box model, Margins margins, bool mirrored)
    {
        Box Inner(Box drawing) => new(drawing.Left + margins.Left, drawing.Bottom + margins.Below, drawing.Right - margins.Right, drawing.Top - margins.Above);
        double Ratio(Box drawing) => Inner(drawing) is { Width: > 10, Height: > 10 } b ? Math.Max(model.Width / b.Width, model.Height / b.Height) : double.PositiveInfinity;

        var best = sharings.IsEmpty ? null : sharings.MinBy(s => Ratio(s.Drawing));
        if (best is null || double.IsPositiveInfinity(Ratio(best.Drawing))) return new(View.Fit(model, Inner(area), mirrored), area, null, Complete: sharings is [{ IsEmpty: true }, ..]);
        return new(View.Fit(model, Inner(best.Drawing), mirrored), best.Drawing, best, Complete: true);
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
                var joined = new SideBlock.Rows(rows.Table.Joined(more.Table));
                double end = last.Top - joined.HeightAt(last.Box.Width);
                if (end >= last.Box.Bottom - 1e-6 && joined.Least <= last.Box.Width + 1e-6)
                {
                    placed[^1] = last with { Block = joined };
                    tops[begun] = end - 2;
                    continue;
                }
            }
            int at = block is SideBlock.Rows ? begun : 0;
            while (at < columns.Count && !(columns[at].Width >= sizes.Least(block) - 1e-6 && tops[at] - sizes.Height(block, columns[at].Width) >= columns[at].Bottom - 1e-6)) at++;
            if (at == columns.Count) return null;
            if (block is SideBlock.Rows) begun = at;
            placed.Add((block, columns[at], tops[at]));
            tops[at] -= sizes.Height(block, columns[at].Width) + 2;
        }
        return placed;
    }
}
