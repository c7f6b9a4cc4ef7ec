using System.Numerics;

namespace Wain.Cutting;

/// <summary>
/// The most valuable set of pieces for every stock length up to a limit at once. Pieces of one kind are split into bundles of 1, 2, 4, ... copies,
/// which keeps the table small for a thousand equal pieces.
/// </summary>
internal sealed class Knapsack
{
    private double[] _value = [];
    private double[] _next = [];
    private uint[] _taken = [];
    private int _words;
    private int _layers;
    private int[] _kind = [];
    private int[] _copies = [];

    public double Value(int capacity) => _value[capacity];

    /// <summary>Fills the table. Returns the work done.</summary>
    public long Fill(int capacity, ReadOnlySpan<int> length, ReadOnlySpan<int> count, ReadOnlySpan<double> value)
    {
        var size = capacity + 1;
        if (_value.Length < size)
        {
            _value = new double[size];
            _next = new double[size];
        }

        _words = (size + 31) / 32;
        _layers = 0;
        Array.Clear(_value, 0, size);
        long work = size;
        for (var i = 0; i < length.Length; i++)
        {
            if (value[i] <= 1e-12 || length[i] > capacity || count[i] <= 0)
                continue;
            var left = Math.Min(count[i], capacity / length[i]);
            for (var bundle = 1; left > 0; bundle *= 2)
            {
                var copies = Math.Min(bundle, left);
                left -= copies;
                AddLayer(i, copies, (int)Math.Min((long)copies * length[i], size), copies * value[i], size);
                work += size / 2;
            }
        }

        return work;
    }

    /// <summary>The pieces behind <see cref="Value"/>: adds the number of each kind to <paramref name="amounts"/>.</summary>
    public void Trace(int capacity, ReadOnlySpan<int> length, Span<int> amounts)
    {
        for (var layer = _layers - 1; layer >= 0; layer--)
        {
            if ((_taken[layer * _words + (capacity >> 5)] >> (capacity & 31) & 1) == 0)
                continue;
            amounts[_kind[layer]] += _copies[layer];
            capacity -= _copies[layer] * length[_kind[layer]];
        }
    }

    private void AddLayer(int kind, int copies, int length, double value, int size)
    {
        if (_layers == _kind.Length)
        {
            Array.Resize(ref _kind, Math.Max(16, _layers * 2));
            Array.Resize(ref _copies, _kind.Length);
        }

        if ((_layers + 1) * _words > _taken.Length)
            Array.Resize(ref _taken, Math.Max((_layers + 1) * _words, _taken.Length * 2));
        _kind[_layers] = kind;
        _copies[_layers] = copies;
        var taken = _taken.AsSpan(_layers * _words, _words);
        taken.Clear();
        _layers++;
        var from = _value.AsSpan(0, size);
        var to = _next.AsSpan(0, size);
        from[..Math.Min(length, size)].CopyTo(to);
        var c = length;
        // Element by element, so the width of the machine's vectors cannot change a result.
        var gain = new Vector<double>(value);
        var width = Vector<double>.Count;
        for (; c + width <= size; c += width)
        {
            var without = new Vector<double>(from[c..]);
            var with = new Vector<double>(from[(c - length)..]) + gain;
            Vector.Max(without, with).CopyTo(to[c..]);
            if (Vector.GreaterThanAny(with, without))
            {
                for (var k = 0; k < width; k++)
                {
                    if (with[k] > without[k])
                        taken[(c + k) >> 5] |= 1u << ((c + k) & 31);
                }
            }
        }

        for (; c < size; c++)
        {
            var with = from[c - length] + value;
            if (with > from[c])
            {
                to[c] = with;
                taken[c >> 5] |= 1u << (c & 31);
            }
            else
            {
                to[c] = from[c];
            }
        }

        (_value, _next) = (_next, _value);
    }
}
