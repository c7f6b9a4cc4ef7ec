using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Pieces;

/// <summary>From placed panels and their frames to the pieces of skin, foam, cloth and film that someone cuts.</summary>
public static class PieceBuilder
{
    /// <summary>Every piece but the sticks, panel by panel and layer by layer from the outside. A mark is built from panel, material and place alone, so it stays when other parts change.</summary>
    /// <param name="chosen">Splices that were chosen for what they cost; each holds while its row is as it was and the rules are kept.</param>
    public static PieceList Build(Structure structure, Frames frames, ImmutableArray<ChosenSplice> chosen = default)
    {
        var materials = new Dictionary<string, Material>(StringComparer.Ordinal);
        foreach (var m in structure.Materials) materials.TryAdd(m.Name, m);
        var made = new Made(structure, chosen.IsDefault ? [] : chosen);
        foreach (var panel in structure.Panels)
        {
            var rules = SpliceRule.Read(structure, panel, materials);
            var shapes = LayerShapes.Of(structure, panel).ToList();
            var keys = Keys(shapes);
            var spliced = new List<(bool AlongU, double At)>();
            for (int k = 0; k < shapes.Count; k++)
            {
                var shape = shapes[k];
                switch (shape.Layer)
                {
                    case { Kind: LayerKind.Sheet, Material: SheetMaterial sheet }: Skins.Cut(made, shape, sheet, keys[k], rules, frames, spliced); break;
                    case { Kind: LayerKind.Foam, Material: SheetMaterial board }: Tiles(made, shape, board, keys[k]); break;
                    case { Kind: LayerKind.Cloth or LayerKind.Membrane, Material: { } rolled }: Lengths(made, shape, rolled, keys[k]); break;
                }
            }
            foreach (var frame in frames.Of(panel))
                foreach (var cavity in frame.Cavities)
                    if (cavity.Fill is SheetMaterial board) Block(made, frame, cavity, board);
        }
        return new PieceList([.. made.Pieces], [.. made.Splices], [.. made.Problems]) 
        {
            Rows = [.. made.Rows.DistinctBy(r => r.Row)],
            // One line may splice many panels, by a loop or a group: it is idle if none of them needs it.
            IdleSplices = [.. made.Idle.Where(i => !made.Needed.Contains(i.Rule.Fact.Span)).DistinctBy(i => i.Rule.Fact.Span)],
        };
    }

    /// <summary>What has been made so far, and how it is marked.</summary>
    internal sealed class Made(Structure structure, ImmutableArray<ChosenSplice> chosen)
    {
        public Dictionary<string, ChosenSplice> Chosen { get; } = chosen.GroupBy(c => c.Row, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);

        public List<IdleSplice> Idle { get; } = [];

        /// <summary>Where the splices stand that a skin can't do without.</summary>
        public HashSet<Span> Needed { get; } = [];

        public List<SpliceRow> Rows { get; } = [];

        public List<Piece> Pieces { get; } = [];

        public List<Splice> Splices { get; } = [];

        public List<PieceProblem> Problems { get; } = [];

        public Structure Structure => structure;

        public string Mark(PlacedPanel panel, string key) => FrameBuilder.MarkOf(structure, panel) + "." + key;
    }

    // Material names tell layers apart; a second layer of the same material counts on from the outside.
    private static string[] Keys(List<LayerShape> shapes)
    {
        var used = new Dictionary<string, int>(StringComparer.Ordinal);
        var keys = new string[shapes.Count];
        for (int k = 0; k < shapes.Count; k++)
        {
            string key = (shapes[k].Zone is { } zone ? zone.Name + "." : "") + (shapes[k].Layer.Material?.Name ?? "air");
            int count = used[key] = used.GetValueOrDefault(key) + 1;
            keys[k] = count == 1 ? key : $"{key}_{count}";
        }
        return keys;
    }

    /// <summary>The parts of the holes that lie within a piece.</summary>
    internal static ImmutableArray<Outline> HolesIn(Outline piece, ImmutableArray<Outline> holes)
    {
        var inside = ImmutableArray.CreateBuilder<Outline>();
        foreach (var hole in holes)
        {
            if (!hole.Bounds.Touches(piece.Bounds)) continue;
            if (piece.Contains(hole)) inside.Add(hole);
            else if (piece.HasArcs || Enumerable.Range(0, piece.Count).Any(i => piece.Segment(i).Chord.Cross(piece.Segment(piece.Next(i)).Chord) < 0)) inside.AddRange(hole.Part(piece).Inside);
            else inside.AddRange(hole.Clip(piece.Sides()));
        }
        return inside.ToImmutable();
    }

    private static Piece PieceOf(Made made, LayerShape shape, string key, Material material, Outline finished, Outline rough, double thickness, Grain grain, int count)
    {
        var routs = RoutsIn(shape.Routs, finished);
        return new Piece(made.Mark(shape.Panel, key), key, shape.Panel, shape.Zone, shape.Layer, material, finished, HolesIn(finished, shape.Holes), rough, thickness, shape.Below, grain, count)
        {
            Routs = routs,
            RoundedOff = shape.RoundedOff(finished, routs) * (thickness / Math.Max(thickness, shape.Thickness)),
        };
    }

    /// <summary>The parts of the routed steps that lie on a piece.</summary>
    internal static ImmutableArray<Rout> RoutsIn(ImmutableArray<Rout> routs, Outline piece) =>
        [.. routs.SelectMany(r => piece.Contains(r.Region) ? [r] : r.Region.Part(piece).Inside.Select(region => r with { Region = region }))];

    // A board core without a frame: as many boards as it takes, butted.
    private static void Tiles(Made made, LayerShape shape, SheetMaterial board, string key)
    {
        var size = board.Sizes.OrderByDescending(s => s.Width * s.Length).FirstOrDefault();
        int at = 0, layers = Layers(board, shape.Thickness);
        foreach (var whole in shape.Finished)
        {
            var tiles = size is null ? [whole] : Grid(whole, size.Length - 2 * board.Trim, size.Width - 2 * board.Trim);
            foreach (var tile in tiles)
                made.Pieces.Add(PieceOf(made, shape, tiles.Count * shape.Finished.Length == 1 ? key : $"{key}.{Text.Letters.Of(at++)}", board, tile, shape.Rough(tile), shape.Thickness / layers, Grain.Free, layers));
        }
        TellLayers(made, shape.Panel, shape.Layer, board, shape.Thickness, layers);
    }

    private static List<Outline> Grid(Outline whole, double length, double width)
    {
        var b = whole.Bounds;
        // The way round that takes fewer boards.
        int Count(double x, double y) => (int)Math.Min(10_000, Math.Ceiling(b.Width / x - 1e-9) * Math.Ceiling(b.Height / y - 1e-9));
        if (length <= 0 || width <= 0 || Count(length, width) >= 10_000) return [whole];
        var (x, y) = Count(length, width) <= Count(width, length) ? (length, width) : (width, length);
        var tiles = new List<Outline>();
        for (double u = b.Min.X; u < b.Max.X - 1e-6; u += x)
            for (double v = b.Min.Y; v < b.Max.Y - 1e-6; v += y) tiles.AddRange(whole.Clip(new Box2(new(u, v), new(u + x, v + y)).Sides()));
        return tiles;
    }

    // Nobody lays up more; a board so thin is a slip of the pen, and told as too thin.
    private const int MostLayers = 100;

    private static int Layers(SheetMaterial board, double depth) => (int)Math.Clamp(Math.Ceiling((depth - 0.5) / board.Thickness), 1, MostLayers);

    private static void Block(Made made, PanelFrame frame, Cavity cavity, SheetMaterial board)
    {
        int layers = Layers(board, cavity.Depth);
        string key = $"{cavity.Key}.{board.Name}";
        var size = board.Sizes.OrderByDescending(s => s.Width * s.Length).FirstOrDefault();
        var tiles = size is null ? [cavity.Outline] : Grid(cavity.Outline, size.Length - 2 * board.Trim, size.Width - 2 * board.Trim);
        for (int k = 0; k < tiles.Count; k++)
        {
            string own = tiles.Count == 1 ? key : $"{key}.{Text.Letters.Of(k)}";
            made.Pieces.Add(new Piece(made.Mark(cavity.Panel, own), own, cavity.Panel, frame.Zone, frame.Layer, board, tiles[k], HolesIn(tiles[k], cavity.Holes), tiles[k], cavity.Depth / layers, cavity.Below, Grain.Free, layers) { Cavity = cavity });
        }
        TellLayers(made, cavity.Panel, frame.Layer, board, cavity.Depth, layers);
    }

    private static void TellLayers(Made made, PlacedPanel panel, StackLayer layer, SheetMaterial board, double depth, int layers)
    {
        if (layers > 1 && !made.Problems.Exists(p => p.Kind == PieceProblemKind.FoamThin && p.Panel == panel && ReferenceEquals(p.Layer, layer)))
            made.Problems.Add(new PieceProblem(PieceProblemKind.FoamThin, panel, layer, null, board.Thickness, depth, $"{layers} layers"));
    }

    // Lengths off a roll run along the longer side and lap each other by what the cloth states.
    private static void Lengths(Made made, LayerShape shape, Material rolled, string key)
    {
        var e = made.Structure.Spec.Evaluator;
        double overlap = rolled.Fact.Find("overlap") is { } o ? Math.Max(0, e.Length(o, "value") ?? 0) : 0;
        var widths = rolled.Fact.All("roll").Select(r => e.Length(r, "width")).OfType<double>().Where(w => w > overlap).ToList();
        int at = 0;
        int whole = shape.Finished.Length;
        foreach (var outline in shape.Finished)
        {
            var rough = shape.Rough(outline);
            var b = rough.Bounds;
            bool along = b.Width >= b.Height;
            double across = along ? b.Height : b.Width, from = along ? b.Min.Y : b.Min.X;
            // The narrowest roll that does it in one length, else the widest.
            double width = widths.Where(w => w >= across - 1e-6).DefaultIfEmpty(widths.DefaultIfEmpty(across).Max()).Min();
            int count = SplicePlanner.LeastPieces(across, width, overlap);
            if (count > 1000) continue;
            for (int k = 0; k < count; k++)
            {
                double low = from + k * (width - overlap), high = k == count - 1 ? from + across : low + width;
                HalfPlane[] band = along ? [new(new(0, low), new(0, 1)), new(new(0, high), new(0, -1))] : [new(new(low, 0), new(1, 0)), new(new(high, 0), new(-1, 0))];
                string own = count * whole == 1 ? key : $"{key}.{Text.Letters.Of(at++)}";
                var finished = count == 1 ? outline : outline.Clip(band).MaxBy(p => p.Area());
                var cut = count == 1 ? rough : rough.Clip(band).MaxBy(p => p.Area());
                if (finished is null || cut is null) continue;
                made.Pieces.Add(PieceOf(made, shape, own, rolled, finished, cut, shape.Thickness, along ? Grain.Along : Grain.Up, Math.Max(1, shape.Layer.Count)));
            }
        }
    }
}
