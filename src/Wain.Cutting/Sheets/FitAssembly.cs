namespace Wain.Cutting;

/// <summary>
/// Joins pieces along equal sides into larger rectangles without waste, which then are packed as if they were pieces. Pieces that were once parts of one
/// rectangle, as those of a cabinet or of a cut-up sheet are, find together again this way where a search that lays piece after piece would not.
/// Joining is quick, so it is done many times with different choices among equals; few and large rectangles at the end are best.
/// </summary>
internal sealed class FitAssembly
{
    private const int MostPieces = 150;
    private const int MostRivals = 6;

    /// <summary>A piece (no parts) or two blocks side by side or one above the other.</summary>
    private sealed record Block(int Width, int Height, bool MayTurn, int Kind, Block? First, Block? Second, bool Beside);

    private readonly SheetCore _core;
    private readonly List<Block> _pieces = [];
    private readonly double _largest;
    private bool _stopAtSheet;

    private FitAssembly(SheetCore core)
    {
        _core = core;
        _largest = Enumerable.Range(0, core.Stocks).Max(core.StockArea);
        for (var k = 0; k < core.Kinds; k++)
        {
            for (var n = 0; n < core.Demand[k]; n++)
                _pieces.Add(new Block(core.Width[k], core.Height[k], core.MayTurn[k], k, null, null, false));
        }
    }

    /// <summary>A core of joined blocks, and how to turn its layouts back into those of the pieces.</summary>
    /// <param name="Full">Blocks that fill a sheet without waste: a sign that the pieces were cut from such sheets.</param>
    internal sealed record Joined(SheetCore Core, Func<SheetLayout, SheetLayout> Expand, int Full);

    /// <summary>The problem with its pieces joined as far as equal sides allow, the best of many tries within so much work; null where too few sides are equal to say anything, or too many.</summary>
    public static Joined? Join(SheetCore core, int tries, long mostWork, ulong seed, StepBudget budget)
    {
        var pieces = core.Demand.Sum(d => (long)d);
        if (pieces is < 2 or > MostPieces)
            return null;
        var assembly = new FitAssembly(core);
        var equal = new List<(int, int, bool, bool, bool, int)>();
        assembly.List(assembly._pieces, equal);
        budget.Spend(pieces * pieces * 8);
        // Each pair is listed from both of its pieces. Where sides are equal by chance all the time, that they are says nothing.
        if (equal.Count == 0 || equal.Count > MostRivals * pieces)
            return null;
        var random = new FixedRandom(seed);
        List<Block>? best = null;
        var bestScore = double.MinValue;
        for (var t = 0; t < tries && mostWork > 0; t++)
        {
            assembly._stopAtSheet = random.Below(8) > 0;
            var blocks = assembly.Once(ref random, out var work);
            mostWork -= work;
            // Half a search would give other blocks than the whole, and a larger budget must not do worse.
            if (!budget.Spend(work))
                return null;
            // A block that fills a sheet of its own is as good as a block gets.
            var score = blocks.Sum(b => (double)b.Width * b.Height * (assembly.FillsSheet(b) ? assembly._largest : (double)b.Width * b.Height));
            if (score > bestScore)
                (best, bestScore) = (blocks, score);
        }

        return best is null || best.Count == pieces ? null : assembly.Express(best);
    }

    private List<Block> Once(ref FixedRandom random, out long work)
    {
        var blocks = new List<Block>(_pieces);
        var options = new List<(int A, int B, bool TurnA, bool TurnB, bool Beside, int Rivals)>();
        work = 0;
        while (blocks.Count > 1)
        {
            options.Clear();
            List(blocks, options);
            work += blocks.Count * (long)blocks.Count * 8;
            if (options.Count == 0)
                break;
            // A side that only one other piece shares is the surest sign.
            var least = options.Min(o => o.Rivals);
            var pool = random.Below(6) == 0 ? options : options.FindAll(o => o.Rivals == least);
            if (pool.Count > 1 && random.Below(4) > 0)
            {
                // That the joined block finds a partner, or the sheet, in turn speaks for it.
                var most = pool.Max(o => Promise(blocks, o));
                pool = pool.FindAll(o => Promise(blocks, o) == most);
                work += pool.Count * blocks.Count;
            }

            var (a, b, turnA, turnB, beside, _) = pool[random.Below(pool.Count)];
            var (first, second) = (Turned(blocks[a], turnA), Turned(blocks[b], turnB));
            var joined = beside
                ? new Block(first.Width + second.Width, first.Height, first.MayTurn && second.MayTurn, -1, first, second, true)
                : new Block(first.Width, first.Height + second.Height, first.MayTurn && second.MayTurn, -1, first, second, false);
            blocks.RemoveAt(Math.Max(a, b));
            blocks.RemoveAt(Math.Min(a, b));
            blocks.Add(joined);
        }

        return blocks;
    }

    private int Promise(List<Block> blocks, (int A, int B, bool TurnA, bool TurnB, bool Beside, int Rivals) option)
    {
        var (a, b) = (Turned(blocks[option.A], option.TurnA), Turned(blocks[option.B], option.TurnB));
        var (w, h) = option.Beside ? (a.Width + b.Width, a.Height) : (a.Width, a.Height + b.Height);
        var promise = 0;
        for (var s = 0; s < _core.Stocks; s++)
            promise += (w == _core.StockWidth[s] ? 2 : 0) + (h == _core.StockHeight[s] ? 2 : 0);
        for (var i = 0; i < blocks.Count; i++)
        {
            if (i != option.A && i != option.B && ((option.Beside && blocks[i].Width == w) || (!option.Beside && blocks[i].Height == h)))
                promise++;
        }

        return Math.Min(promise, 3);
    }

    private void List(List<Block> blocks, List<(int A, int B, bool TurnA, bool TurnB, bool Beside, int Rivals)> options)
    {
        for (var i = 0; i < blocks.Count; i++)
        {
            var a = blocks[i];
            if (_stopAtSheet && FillsSheet(a))
                continue;
            foreach (var turnA in Ways(a))
            {
                // Turning both is turning the pair; the first lies upright, then.
                if (turnA)
                    continue;
                foreach (var beside in BothWays)
                {
                    var side = beside ? a.Height : a.Width;
                    var start = options.Count;
                    for (var j = 0; j < blocks.Count; j++)
                    {
                        if (j == i || (_stopAtSheet && FillsSheet(blocks[j])))
                            continue;
                        foreach (var turnB in Ways(blocks[j]))
                        {
                            var b = blocks[j];
                            var (w, h) = turnB ? (b.Height, b.Width) : (b.Width, b.Height);
                            if ((beside ? h : w) != side)
                                continue;
                            if (Fits(beside ? a.Width + w : a.Width, beside ? a.Height : a.Height + h, a.MayTurn && b.MayTurn))
                                options.Add((i, j, turnA, turnB, beside, 0));
                        }
                    }

                    var rivals = options.Count - start;
                    for (var o = start; o < options.Count; o++)
                        options[o] = options[o] with { Rivals = rivals };
                }
            }
        }
    }

    private bool FillsSheet(Block b)
    {
        for (var s = 0; s < _core.Stocks; s++)
        {
            if (b.Width == _core.StockWidth[s] && b.Height == _core.StockHeight[s])
                return true;
        }

        return false;
    }

    private static readonly bool[] Upright = [false];
    private static readonly bool[] BothWays = [false, true];

    private static bool[] Ways(Block b) => b.MayTurn && b.Width != b.Height ? BothWays : Upright;

    private static Block Turned(Block b, bool turn) => !turn ? b
        : b.First is null ? b with { Width = b.Height, Height = b.Width }
        : b with { Width = b.Height, Height = b.Width, First = Turned(b.First, true), Second = Turned(b.Second!, true), Beside = !b.Beside };

    private bool Fits(int width, int height, bool turn)
    {
        for (var s = 0; s < _core.Stocks; s++)
        {
            if ((width <= _core.StockWidth[s] && height <= _core.StockHeight[s]) || (turn && height <= _core.StockWidth[s] && width <= _core.StockHeight[s]))
                return true;
        }

        return false;
    }

    private Joined Express(List<Block> blocks)
    {
        var groups = blocks.GroupBy(b => b.First is null ? (b.Kind, 0) : (-1, blocks.IndexOf(b))).Select(g => g.ToArray()).ToArray();
        var core = _core with
        {
            Width = [.. groups.Select(g => g[0].Width)],
            Height = [.. groups.Select(g => g[0].Height)],
            Demand = [.. groups.Select(g => g.Length)],
            MayTurn = [.. groups.Select(g => g[0].MayTurn)],
        };
        return new Joined(core, layout =>
        {
            var pieces = new List<Placed>();
            foreach (var p in layout.Pieces)
            {
                var block = groups[p.Kind][0];
                Lay(block.Width == p.Width && block.Height == p.Height ? block : Turned(block, true), p.X, p.Y, pieces);
            }

            // Each joint of two blocks is a cut.
            return layout with { Pieces = [.. pieces], Cuts = layout.Cuts + pieces.Count - layout.Pieces.Length };
        }, blocks.Count(FillsSheet));
    }

    private static void Lay(Block block, int x, int y, List<Placed> pieces)
    {
        if (block.First is null)
        {
            pieces.Add(new Placed(block.Kind, x, y, block.Width, block.Height));
            return;
        }

        Lay(block.First, x, y, pieces);
        Lay(block.Second!, block.Beside ? x + block.First.Width : x, block.Beside ? y : y + block.First.Height, pieces);
    }
}
