using System.Numerics;

namespace Wain.Cutting;

/// <summary>Ruin and recreate on sheets that a saw cuts from edge to edge: branches of their trees are cleared, and free leaves filled.</summary>
/// <param name="cooling">How many changes it takes the search to settle the first time.</param>
internal sealed class GuillotinePacking(SheetCore core, StepBudget budget, ulong seed, long cooling = Cooling.Short)
    : RuinRecreate<GuillotineTree>(core, budget, seed, () => new GuillotineTree(), cooling)
{
    private const double MuchAsWell = 1.3;
    private int _fit;

    protected override void ChooseRules() => _fit = Random.Below(3);

    protected override double AddRoom(double sum, GuillotineTree sheet)
    {
        for (var i = 0; i < sheet.FreeLeaves; i++)
        {
            ref readonly var n = ref sheet.At(sheet.FreeLeaf(i));
            var area = (double)n.Width * n.Height * Scale;
            sum += area * area;
        }

        Work += sheet.FreeLeaves * 2;
        return sum;
    }

    protected override void TakeOut(GuillotineTree sheet, int most, int[] removed)
    {
        var before = sheet.Pieces;
        for (var tries = 0; tries < 3 && most - (before - sheet.Pieces) > 0; tries++)
        {
            var node = Random.Below(sheet.NodeCount);
            if (sheet.At(node).Parent != -2 && sheet.At(node).Kind != NodeKind.Free)
                sheet.Clear(node, removed);
        }
    }

    protected override bool MakeRoom(int kind, int[] removed)
    {
        var (bestPlace, bestNode) = (-1, -1);
        int w = Core.Width[kind], h = Core.Height[kind];
        var area = Core.Area(kind);
        var least = area * MuchAsWell;
        for (var place = 0; place < Open.Count; place++)
        {
            Work += Open[place].NodeCount * 3;
            Scan(Open[place], 0, place);
        }

        if (bestPlace < 0)
            return false;
        Open.Writable(bestPlace, ref Work).Clear(bestNode, removed);
        return true;

        // What a branch holds; the room it would leave takes in what is free beside it.
        long Scan(GuillotineTree tree, int node, int place)
        {
            ref readonly var n = ref tree.At(node);
            if (n.Kind == NodeKind.Free)
                return 0;
            var held = n.Kind == NodeKind.Piece ? (long)n.Width * n.Height : 0;
            for (var c = n.First; c >= 0; c = tree.At(c).Next)
                held += Scan(tree, c, place);
            var (width, height) = tree.RoomOf(node);
            var fits = (w <= width && h <= height) || (Core.MayTurn[kind] && h <= width && w <= height);
            if (!fits || (n.Kind == NodeKind.Piece && n.Piece == kind))
                return held;
            var score = held + (area * Random.Unit());
            if (score < least)
                (least, bestPlace, bestNode) = (score, place, node);
            return held;
        }
    }

    protected override bool PlaceOne(int kind, double blink)
    {
        var bestScore = double.MaxValue;
        var (bestPlace, bestLeaf, bestTurned) = (-1, -1, false);
        int w = Core.Width[kind], h = Core.Height[kind];
        var turns = Core.MayTurn[kind] && w != h ? 2 : 1;
        var area = (long)w * h;
        for (var place = 0; place < Open.Count; place++)
        {
            var tree = Open[place];
            var leaves = tree.FreeLeaves;
            Work += leaves;
            for (var from = 0; from < leaves; from += 8)
            {
                var upright = tree.Roomy(from, w, h);
                var lying = turns == 2 ? tree.Roomy(from, h, w) : 0;
                for (var roomy = upright | lying; roomy != 0; roomy &= roomy - 1)
                {
                    var i = BitOperations.TrailingZeroCount(roomy);
                    var leaf = tree.FreeLeaf(from + i);
                    ref readonly var n = ref tree.At(leaf);
                    for (var turn = (upright >> i & 1) != 0 ? 0 : 1; turn < ((lying >> i & 1) != 0 ? 2 : 1); turn++)
                    {
                        var dw = n.Width - (turn == 0 ? w : h);
                        var dh = n.Height - (turn == 0 ? h : w);
                        double score = _fit switch
                        {
                            0 => (long)n.Width * n.Height - area,
                            1 => Math.Min(dw, dh),
                            _ => Math.Max(dw, dh),
                        };
                        if (score >= bestScore || (blink > 0 && Random.Unit() < blink))
                            continue;
                        bestScore = score;
                        (bestPlace, bestLeaf, bestTurned) = (place, leaf, turn == 1);
                    }
                }
            }
        }

        if (bestPlace < 0)
        {
            bestPlace = OpenSheet(kind, blink);
            if (bestPlace < 0)
                return false;
            bestLeaf = 0;
            bestTurned = LiesTurned(kind, Open[bestPlace].Stock);
        }

        var target = Open.Writable(bestPlace, ref Work);
        var (pw, ph) = bestTurned ? (h, w) : (w, h);
        ref readonly var free = ref target.At(bestLeaf);
        // Cutting so that the larger rest stays whole is usually best; now and then the other way.
        var restRight = (long)(free.Width - pw) * free.Height;
        var restTop = (long)(free.Height - ph) * free.Width;
        var columnsFirst = restRight != restTop ? restRight > restTop : Random.Below(2) == 0;
        if (blink > 0 && Random.Below(6) == 0)
            columnsFirst = !columnsFirst;
        target.Insert(bestLeaf, kind, pw, ph, columnsFirst);
        Work += 20;
        return true;
    }
}
