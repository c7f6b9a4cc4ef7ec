namespace Wain.Cutting;

/// <summary>Ruin and recreate on sheets that a saw cuts from edge to edge: branches of their trees are cleared, and free leaves filled.</summary>
internal sealed class GuillotinePacking(SheetCore core, StepBudget budget, ulong seed) : RuinRecreate<GuillotineTree>(core, budget, seed, () => new GuillotineTree())
{
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
            Work += leaves * 2;
            for (var i = 0; i < leaves; i++)
            {
                var leaf = tree.FreeLeaf(i);
                ref readonly var n = ref tree.At(leaf);
                for (var turn = 0; turn < turns; turn++)
                {
                    var dw = n.Width - (turn == 0 ? w : h);
                    var dh = n.Height - (turn == 0 ? h : w);
                    if (dw < 0 || dh < 0)
                        continue;
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
