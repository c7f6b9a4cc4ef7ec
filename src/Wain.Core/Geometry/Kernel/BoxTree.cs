namespace Wain.Core.Geometry.Kernel;

/// <summary>
/// Finds which of many boxes touch a given one. Built with one sort along a space-filling curve (Morton, 1966), so n log n; a query costs log n and what it finds.
/// </summary>
public sealed class BoxTree
{
    private readonly Box3[] _boxes;
    private readonly int[] _order;
    private readonly Box3[] _nodes;

    public BoxTree(IReadOnlyList<Box3> boxes)
    {
        _boxes = [.. boxes];
        _order = [.. Enumerable.Range(0, _boxes.Length)];
        if (_boxes.Length == 0)
        {
            _nodes = [];
            return;
        }
        var all = _boxes.Aggregate((a, b) => a.Union(b));
        var keys = Array.ConvertAll(_boxes, b => Morton((b.Min + b.Max) / 2, all));
        Array.Sort(keys, _order);
        _nodes = new Box3[4 * _boxes.Length];
        Build(0, 0, _boxes.Length);
    }

    private Box3 Build(int node, int from, int to)
    {
        if (to - from == 1) return _nodes[node] = _boxes[_order[from]];
        var middle = (from + to) / 2;
        return _nodes[node] = Build(2 * node + 1, from, middle).Union(Build(2 * node + 2, middle, to));
    }

    /// <summary>Indices of the boxes that touch one, in no particular order.</summary>
    public List<int> Touching(Box3 box)
    {
        var found = new List<int>();
        if (_boxes.Length == 0) return found;
        var open = new Stack<(int Node, int From, int To)>();
        open.Push((0, 0, _boxes.Length));
        while (open.TryPop(out var at))
        {
            if (!_nodes[at.Node].Touches(box)) continue;
            if (at.To - at.From == 1) { found.Add(_order[at.From]); continue; }
            var middle = (at.From + at.To) / 2;
            open.Push((2 * at.Node + 1, at.From, middle));
            open.Push((2 * at.Node + 2, middle, at.To));
        }
        return found;
    }

    private static ulong Morton(Vec3 p, Box3 all)
    {
        static ulong Spread(double value, double min, double max)
        {
            var x = max > min ? (ulong)((value - min) / (max - min) * 0x1FFFFF) : 0;
            x = (x | x << 32) & 0x1F00000000FFFF;
            x = (x | x << 16) & 0x1F0000FF0000FF;
            x = (x | x << 8) & 0x100F00F00F00F00F;
            x = (x | x << 4) & 0x10C30C30C30C30C3;
            return (x | x << 2) & 0x1249249249249249;
        }
        return Spread(p.X, all.Min.X, all.Max.X) | Spread(p.Y, all.Min.Y, all.Max.Y) << 1 | Spread(p.Z, all.Min.Z, all.Max.Z) << 2;
    }
}
