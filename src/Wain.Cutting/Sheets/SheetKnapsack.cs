using System.Numerics;
using System.Runtime.Intrinsics;

namespace Wain.Cutting;

/// <summary>
/// The pieces of most worth that edge-to-edge cuts can take from one sheet, for all stocks at once. Every rectangle whose sides are sums of sides of pieces is
/// filled by the best of one piece alone and of two smaller rectangles side by side or one above the other (Gilmore and Gomory 1965, without stages). A
/// rectangle remembers what it holds, and two that together hold more of a kind than is wanted are not joined (after Christofides and Hadjiconstantinou 1995);
/// only by that may a better filling be missed.
/// </summary>
internal sealed class SheetKnapsack
{
    private const long MostJoins = 1_000_000;
    private const int LongestSide = 20_000;
    private const int None = 0;
    private const int AsLeft = 1;
    private const int AsBelow = 2;
    private const int Cut = 3;

    private readonly record struct Lie(int Kind, int Width, int Height, int I, int J);

    private readonly SheetCore _core;
    private readonly int[] _xs;
    private readonly int[] _ys;
    private readonly int[] _rest;          // place of the largest sum within width x_i less x_a, at i nx + a
    private readonly int[] _restY;
    private readonly int[] _top;           // how many heights matter at a width
    private readonly Lie[] _lies;
    private readonly double[] _value;
    private readonly Vector256<ulong>[] _held;
    private readonly int[] _choice;
    private readonly Vector256<ulong>[] _unit;
    private Vector256<ulong> _guard;
    private Vector256<ulong> _bias;

    private SheetKnapsack(SheetCore core, int[] xs, int[] ys)
    {
        (_core, _xs, _ys) = (core, xs, ys);
        _rest = Rests(xs);
        _restY = Rests(ys);
        _top = [.. xs.Select(x => Enumerable.Range(0, core.Stocks).Where(s => core.StockWidth[s] >= x).Select(s => Below(ys, core.StockHeight[s]) + 1).DefaultIfEmpty(0).Max())];
        var lies = new List<Lie>();
        for (var k = 0; k < core.Kinds; k++)
        {
            Add(k, core.Width[k], core.Height[k]);
            if (core.MayTurn[k] && core.Width[k] != core.Height[k])
                Add(k, core.Height[k], core.Width[k]);
        }

        _lies = [.. lies];
        _value = new double[xs.Length * ys.Length];
        _held = new Vector256<ulong>[_value.Length];
        _choice = new int[_value.Length];
        _unit = new Vector256<ulong>[core.Kinds];

        void Add(int k, int w, int h)
        {
            int i = Array.BinarySearch(xs, w), j = Array.BinarySearch(ys, h);
            if (i >= 0 && j >= 0 && j < _top[i])
                lies.Add(new Lie(k, w, h, i, j));
        }
    }

    /// <summary>Null where there are too many rectangles to look at, or too many kinds to keep count of.</summary>
    public static SheetKnapsack? For(SheetCore core)
    {
        if (core.Stocks == 0)
            return null;
        var xs = Sums(core.StockWidth.Max(), Enumerable.Range(0, core.Kinds).SelectMany(k => core.MayTurn[k] ? new[] { core.Width[k], core.Height[k] } : [core.Width[k]]));
        var ys = Sums(core.StockHeight.Max(), Enumerable.Range(0, core.Kinds).SelectMany(k => core.MayTurn[k] ? new[] { core.Width[k], core.Height[k] } : [core.Height[k]]));
        // Every cell is joined from half of its column and half of its row, and those are half the sheet in the mean.
        if (xs is null || ys is null || (long)xs.Length * ys.Length * (xs.Length + ys.Length) / 8 > MostJoins)
            return null;
        var knapsack = new SheetKnapsack(core, xs, ys);
        return knapsack.Fields(core.Demand) ? knapsack : null;
    }

    /// <summary>All sums of sides up to the longest sheet's, with 0.</summary>
    private static int[]? Sums(int most, IEnumerable<int> sides)
    {
        if (most > LongestSide)
            return null;
        var reached = new bool[most + 1];
        reached[0] = true;
        var distinct = sides.Distinct().ToArray();
        for (var at = 0; at <= most; at++)
        {
            if (!reached[at])
                continue;
            foreach (var side in distinct)
            {
                if (at + side <= most)
                    reached[at + side] = true;
            }
        }

        return [.. Enumerable.Range(0, most + 1).Where(at => reached[at])];
    }

    private static int Below(int[] sums, int size)
    {
        var at = Array.BinarySearch(sums, size);
        return at >= 0 ? at : ~at - 1;
    }

    private static int[] Rests(int[] sums)
    {
        var rests = new int[sums.Length * sums.Length];
        for (var i = 0; i < sums.Length; i++)
        {
            for (var a = 0; a <= i; a++)
                rests[(i * sums.Length) + a] = Below(sums, sums[i] - sums[a]);
        }

        return rests;
    }

    /// <summary>Reckons all rectangles.</summary>
    /// <param name="wanted">No more of each kind than this is taken; no more than the demand.</param>
    /// <param name="worth">Of one piece of each kind.</param>
    public void Solve(int[] wanted, double[] worth, ref long work)
    {
        Fields(wanted);
        int nx = _xs.Length, ny = _ys.Length;
        Array.Clear(_value, 0, ny);
        Array.Clear(_held, 0, ny);
        Array.Clear(_choice, 0, ny);
        for (var i = 1; i < nx; i++)
        {
            var top = _top[i];
            var row = i * ny;
            _value[row] = 0;
            _held[row] = default;
            _choice[row] = None;
            for (var j = 1; j < top; j++)
            {
                _value[row + j] = _value[row - ny + j];
                _held[row + j] = _held[row - ny + j];
                _choice[row + j] = AsLeft;
            }

            foreach (var lie in _lies)
            {
                if (lie.I == i && wanted[lie.Kind] > 0 && worth[lie.Kind] > _value[row + lie.J])
                {
                    _value[row + lie.J] = worth[lie.Kind];
                    _held[row + lie.J] = _unit[lie.Kind];
                    _choice[row + lie.J] = -1 - lie.Kind;
                }
            }

            for (var a = 1; ; a++)
            {
                var b = _rest[(i * nx) + a];
                if (b < a)
                    break;
                Columns(row, a * ny, b * ny, top, Cut + (2 * a));
            }

            for (var j = 1; j < top; j++)
            {
                if (_value[row + j - 1] > _value[row + j])
                {
                    _value[row + j] = _value[row + j - 1];
                    _held[row + j] = _held[row + j - 1];
                    _choice[row + j] = AsBelow;
                }

                var best = _value[row + j];
                for (var a = 1; ; a++)
                {
                    var b = _restY[(j * ny) + a];
                    if (b < a)
                        break;
                    var value = _value[row + a] + _value[row + b];
                    if (value > best && Join(row + j, row + a, row + b, value, Cut + 1 + (2 * a)))
                        best = value;
                }
            }

            work += (top * (i / 8L)) + (top * (long)top / 3) + _lies.Length + top;
        }
    }

    private void Columns(int row, int a, int b, int top, int choice)
    {
        var j = 0;
        var width = Vector<double>.Count;
        for (; j + width <= top; j += width)
        {
            var value = new Vector<double>(_value, a + j) + new Vector<double>(_value, b + j);
            if (!Vector.GreaterThanAny(value, new Vector<double>(_value, row + j)))
                continue;
            for (var n = j; n < j + width; n++)
                One(n);
        }

        for (; j < top; j++)
            One(j);

        void One(int n)
        {
            var value = _value[a + n] + _value[b + n];
            if (value > _value[row + n])
                Join(row + n, a + n, b + n, value, choice);
        }
    }

    private bool Join(int cell, int a, int b, double value, int choice)
    {
        var held = _held[a] + _held[b];
        if (((held + _bias) & _guard) != Vector256<ulong>.Zero)
            return false;
        _value[cell] = value;
        _held[cell] = held;
        _choice[cell] = choice;
        return true;
    }

    /// <summary>Fields of a few bits for the amount of each kind, each with a bit above that is set once there are too many.</summary>
    private bool Fields(int[] wanted)
    {
        var bits = 0;
        (_guard, _bias) = (default, default);
        for (var k = 0; k < _core.Kinds; k++)
        {
            if (wanted[k] == 0)
                continue;
            var most = Math.Min(wanted[k], 1 << 20);
            // Two amounts that are each within the bounds add to less than twice the field.
            var field = BitOperations.Log2((uint)most) + 1;
            var at = (bits & 63) + field + 1 > 64 ? (bits | 63) + 1 : bits;
            if (at + field + 1 > 256)
                return false;
            bits = at + field + 1;
            var part = at >> 6;
            at &= 63;
            _guard = _guard.WithElement(part, _guard.GetElement(part) | (1UL << (at + field)));
            _bias = _bias.WithElement(part, _bias.GetElement(part) | ((ulong)((1 << field) - 1 - most) << at));
            _unit[k] = Vector256<ulong>.Zero.WithElement(part, 1UL << at);
        }

        return true;
    }

    /// <summary>What the best filling of a stock is worth.</summary>
    public double Value(int stock) => _value[Cell(stock)];

    private int Cell(int stock) => (Below(_xs, _core.StockWidth[stock]) * _ys.Length) + Below(_ys, _core.StockHeight[stock]);

    /// <summary>Lays the best filling of its stock on an empty sheet.</summary>
    /// <param name="left">What is laid is taken off.</param>
    public void Lay(GuillotineTree tree, int[] left) => Lay(tree, 0, Cell(tree.Stock), left);

    private void Lay(GuillotineTree tree, int leaf, int cell, int[] left)
    {
        int ny = _ys.Length;
        int i = cell / ny, j = cell % ny;
        while (_choice[(i * ny) + j] is AsLeft or AsBelow)
        {
            if (_choice[(i * ny) + j] == AsLeft)
                i--;
            else
                j--;
        }

        var choice = _choice[(i * ny) + j];
        if (choice == None)
            return;
        // What the filling does not need stays in one piece at the side where there is more of it.
        var (width, height) = (tree.At(leaf).Width, tree.At(leaf).Height);
        leaf = (width - _xs[i]) * (long)height >= (height - _ys[j]) * (long)width
            ? tree.SplitRows(tree.SplitColumns(leaf, _xs[i], out _), _ys[j], out _)
            : tree.SplitColumns(tree.SplitRows(leaf, _ys[j], out _), _xs[i], out _);
        if (choice < 0)
        {
            tree.Put(leaf, -1 - choice);
            left[-1 - choice]--;
            return;
        }

        var a = (choice - Cut) / 2;
        int rest;
        if ((choice - Cut) % 2 == 0)
        {
            leaf = tree.SplitColumns(leaf, _xs[a], out rest);
            Lay(tree, leaf, (a * ny) + j, left);
            Lay(tree, rest, (_rest[(i * _xs.Length) + a] * ny) + j, left);
        }
        else
        {
            leaf = tree.SplitRows(leaf, _ys[a], out rest);
            Lay(tree, leaf, (i * ny) + a, left);
            Lay(tree, rest, (i * ny) + _restY[(j * ny) + a], left);
        }
    }
}
