using System.Runtime.Intrinsics;

namespace Wain.Cutting;

/// <summary>What a node of a guillotine tree is.</summary>
internal enum NodeKind : byte
{
    Free,
    Piece,

    /// <summary>Children stand side by side, all as high as the node.</summary>
    Columns,

    /// <summary>Children lie above one another, all as wide as the node.</summary>
    Rows,
}

/// <summary>
/// One sheet as a tree of edge-to-edge cuts. Columns and rows alternate from level to level, and the order of children does not matter,
/// so all that is free beside one another under one node is kept as one free child: what a removal leaves behind grows together by itself.
/// </summary>
internal sealed class GuillotineTree : IOpenSheet<GuillotineTree>
{
    public struct Node
    {
        public int Width;
        public int Height;
        public int Parent;
        public int First;
        public int Next;
        public int Previous;
        public int Piece;
        public int LeafPlace;
        public NodeKind Kind;
    }

    private Node[] _nodes = new Node[16];
    private int[] _leaves = new int[8];
    private int[] _leafWidths = new int[8];   // of the leaf at the same place, 0 where there is none
    private int[] _leafHeights = new int[8];
    private int _count;
    private int _unused = -1;

    public int Stock { get; private set; }

    public int Pieces { get; private set; }

    public long UsedArea { get; private set; }

    public int FreeLeaves { get; private set; }

    /// <summary>The sides of what would be free if a branch were: what is free beside it grows together with it.</summary>
    public (int Width, int Height) RoomOf(int node)
    {
        ref readonly var n = ref _nodes[node];
        var (width, height) = (n.Width, n.Height);
        for (var c = n.Parent < 0 ? -1 : _nodes[n.Parent].First; c >= 0; c = _nodes[c].Next)
        {
            if (_nodes[c].Kind != NodeKind.Free)
                continue;
            if (_nodes[n.Parent].Kind == NodeKind.Columns)
                width += _nodes[c].Width;
            else
                height += _nodes[c].Height;
        }

        return (width, height);
    }

    public int NodeCount => _count;

    public int Width => _nodes[0].Width;

    public long CopyWork => _count * 4L;

    public ref readonly Node At(int node) => ref _nodes[node];

    public int FreeLeaf(int i) => _leaves[i];

    /// <summary>Which of eight free leaves from a place on are as large as this: a bit for each.</summary>
    public uint Roomy(int from, int width, int height) =>
        (Vector256.GreaterThanOrEqual(Vector256.Create(_leafWidths, from), Vector256.Create(width))
            & Vector256.GreaterThanOrEqual(Vector256.Create(_leafHeights, from), Vector256.Create(height))).ExtractMostSignificantBits();

    public void Reset(int stock, int width, int height)
    {
        Stock = stock;
        Pieces = 0;
        UsedArea = 0;
        FreeLeaves = 0;
        Array.Clear(_leafWidths);
        _count = 0;
        _unused = -1;
        var root = Take();
        _nodes[root] = new Node { Width = width, Height = height, Parent = -1, First = -1, Next = -1, Previous = -1 };
        AddLeaf(root);
    }

    public void CopyFrom(GuillotineTree other)
    {
        Stock = other.Stock;
        Pieces = other.Pieces;
        UsedArea = other.UsedArea;
        FreeLeaves = other.FreeLeaves;
        _count = other._count;
        _unused = other._unused;
        if (_nodes.Length < _count)
            _nodes = new Node[other._nodes.Length];
        if (_leaves.Length < FreeLeaves)
        {
            _leaves = new int[other._leaves.Length];
            _leafWidths = new int[_leaves.Length];
            _leafHeights = new int[_leaves.Length];
        }

        Array.Copy(other._nodes, _nodes, _count);
        Array.Copy(other._leaves, _leaves, FreeLeaves);
        var read = (FreeLeaves + 7) & ~7;
        Array.Copy(other._leafWidths, _leafWidths, read);
        Array.Clear(_leafWidths, read, _leafWidths.Length - read);
        Array.Copy(other._leafHeights, _leafHeights, read);
    }

    /// <summary>Puts a piece into the corner of a free leaf that is large enough, cutting first across the width or first across the height.</summary>
    public void Insert(int leaf, int piece, int width, int height, bool columnsFirst)
    {
        if (columnsFirst)
        {
            leaf = SplitColumns(leaf, width, out _);
            leaf = SplitRows(leaf, height, out _);
        }
        else
        {
            leaf = SplitRows(leaf, height, out _);
            leaf = SplitColumns(leaf, width, out _);
        }

        Put(leaf, piece);
    }

    /// <summary>Makes a free leaf a piece of just its size.</summary>
    public void Put(int leaf, int piece)
    {
        DropLeaf(leaf);
        _nodes[leaf].Kind = NodeKind.Piece;
        _nodes[leaf].Piece = piece;
        Pieces++;
        UsedArea += (long)_nodes[leaf].Width * _nodes[leaf].Height;
    }

    public void Clear(int[] removed) => Clear(0, removed);

    /// <summary>Frees a node with all below it; <paramref name="removed"/> counts the pieces of each kind that come out.</summary>
    public void Clear(int node, int[] removed)
    {
        ReleaseBelow(node, removed);
        ref var n = ref _nodes[node];
        if (n.Kind == NodeKind.Free)
            return;
        if (n.Kind == NodeKind.Piece)
            CountOut(node, removed);
        n.Kind = NodeKind.Free;
        n.First = -1;
        AddLeaf(node);
        GrowTogether(node);
    }

    private void CountOut(int node, int[] removed)
    {
        ref var n = ref _nodes[node];
        removed[n.Piece]++;
        Pieces--;
        UsedArea -= (long)n.Width * n.Height;
    }

    private void ReleaseBelow(int node, int[] removed)
    {
        for (var c = _nodes[node].First; c >= 0;)
        {
            var next = _nodes[c].Next;
            if (_nodes[c].Kind == NodeKind.Piece)
                CountOut(c, removed);
            else if (_nodes[c].Kind == NodeKind.Free)
                DropLeaf(c);
            else
                ReleaseBelow(c, removed);
            Release(c);
            c = next;
        }

        _nodes[node].First = -1;
    }

    private void GrowTogether(int node)
    {
        while (true)
        {
            var parent = _nodes[node].Parent;
            if (parent < 0)
                return;
            for (var c = _nodes[parent].First; c >= 0; c = _nodes[c].Next)
            {
                if (c == node || _nodes[c].Kind != NodeKind.Free)
                    continue;
                if (_nodes[parent].Kind == NodeKind.Columns)
                    _nodes[node].Width += _nodes[c].Width;
                else
                    _nodes[node].Height += _nodes[c].Height;
                _leafWidths[_nodes[node].LeafPlace] = _nodes[node].Width;
                _leafHeights[_nodes[node].LeafPlace] = _nodes[node].Height;
                DropLeaf(c);
                Unlink(c);
                Release(c);
                break;
            }

            if (_nodes[parent].First != node || _nodes[node].Next >= 0)
                return;
            DropLeaf(node);
            Release(node);
            _nodes[parent].First = -1;
            _nodes[parent].Kind = NodeKind.Free;
            AddLeaf(parent);
            node = parent;
        }
    }

    /// <summary>Cuts a free leaf to a width; <paramref name="restLeaf"/> is what remains beside it, -1 if nothing does.</summary>
    public int SplitColumns(int leaf, int width, out int restLeaf)
    {
        restLeaf = -1;
        var rest = _nodes[leaf].Width - width;
        if (rest == 0)
            return leaf;
        var height = _nodes[leaf].Height;
        var parent = _nodes[leaf].Parent;
        if (parent >= 0 && _nodes[parent].Kind == NodeKind.Columns)
        {
            _nodes[leaf].Width = width;
            _leafWidths[_nodes[leaf].LeafPlace] = width;
            restLeaf = AddChild(parent, rest, height);
            return leaf;
        }

        DropLeaf(leaf);
        _nodes[leaf].Kind = NodeKind.Columns;
        restLeaf = AddChild(leaf, rest, height);
        return AddChild(leaf, width, height);
    }

    /// <summary>Cuts a free leaf to a height; <paramref name="restLeaf"/> is what remains beside it, -1 if nothing does.</summary>
    public int SplitRows(int leaf, int height, out int restLeaf)
    {
        restLeaf = -1;
        var rest = _nodes[leaf].Height - height;
        if (rest == 0)
            return leaf;
        var width = _nodes[leaf].Width;
        var parent = _nodes[leaf].Parent;
        if (parent >= 0 && _nodes[parent].Kind == NodeKind.Rows)
        {
            _nodes[leaf].Height = height;
            _leafHeights[_nodes[leaf].LeafPlace] = height;
            restLeaf = AddChild(parent, width, rest);
            return leaf;
        }

        DropLeaf(leaf);
        _nodes[leaf].Kind = NodeKind.Rows;
        restLeaf = AddChild(leaf, width, rest);
        return AddChild(leaf, width, height);
    }

    private int AddChild(int parent, int width, int height)
    {
        var c = Take();
        var first = _nodes[parent].First;
        _nodes[c] = new Node { Width = width, Height = height, Parent = parent, First = -1, Next = first, Previous = -1 };
        if (first >= 0)
            _nodes[first].Previous = c;
        _nodes[parent].First = c;
        AddLeaf(c);
        return c;
    }

    private void Unlink(int node)
    {
        ref var n = ref _nodes[node];
        if (n.Previous >= 0)
            _nodes[n.Previous].Next = n.Next;
        else
            _nodes[n.Parent].First = n.Next;
        if (n.Next >= 0)
            _nodes[n.Next].Previous = n.Previous;
    }

    private int Take()
    {
        if (_unused >= 0)
        {
            var node = _unused;
            _unused = _nodes[node].Next;
            return node;
        }

        if (_count == _nodes.Length)
            Array.Resize(ref _nodes, _count * 2);
        return _count++;
    }

    private void Release(int node)
    {
        _nodes[node].Parent = -2;
        _nodes[node].Kind = NodeKind.Free;
        _nodes[node].Next = _unused;
        _unused = node;
    }

    private void AddLeaf(int node)
    {
        if (FreeLeaves == _leaves.Length)
        {
            Array.Resize(ref _leaves, FreeLeaves * 2);
            Array.Resize(ref _leafWidths, FreeLeaves * 2);
            Array.Resize(ref _leafHeights, FreeLeaves * 2);
        }

        _nodes[node].LeafPlace = FreeLeaves;
        _leafWidths[FreeLeaves] = _nodes[node].Width;
        _leafHeights[FreeLeaves] = _nodes[node].Height;
        _leaves[FreeLeaves++] = node;
    }

    private void DropLeaf(int node)
    {
        var place = _nodes[node].LeafPlace;
        var last = _leaves[--FreeLeaves];
        _leaves[place] = last;
        _leafWidths[place] = _leafWidths[FreeLeaves];
        _leafHeights[place] = _leafHeights[FreeLeaves];
        _leafWidths[FreeLeaves] = 0;
        _nodes[last].LeafPlace = place;
    }

    /// <summary>Places for all pieces: large children first, what is free last, so that free room lies at the right and at the top.</summary>
    public SheetLayout Layout()
    {
        var placed = new List<Placed>(Pieces);
        var cuts = Place(0, 0, 0, placed);
        long largest = 0;
        for (var i = 0; i < FreeLeaves; i++)
            largest = Math.Max(largest, (long)_nodes[_leaves[i]].Width * _nodes[_leaves[i]].Height);
        return new SheetLayout(Stock, [.. placed], 1, largest, cuts);
    }

    /// <summary>Places what is below a node, and counts the cuts that part it.</summary>
    private int Place(int node, int x, int y, List<Placed> placed)
    {
        ref readonly var n = ref _nodes[node];
        if (n.Kind == NodeKind.Piece)
            placed.Add(new Placed(n.Piece, x, y, n.Width, n.Height));
        if (n.First < 0)
            return 0;
        var children = new List<int>();
        for (var c = n.First; c >= 0; c = _nodes[c].Next)
            children.Add(c);
        var columns = n.Kind == NodeKind.Columns;
        children.Sort((a, b) =>
        {
            var free = (_nodes[a].Kind == NodeKind.Free).CompareTo(_nodes[b].Kind == NodeKind.Free);
            if (free != 0)
                return free;
            var size = columns ? _nodes[b].Width.CompareTo(_nodes[a].Width) : _nodes[b].Height.CompareTo(_nodes[a].Height);
            return size != 0 ? size : a.CompareTo(b);
        });
        var cuts = children.Count - 1;
        foreach (var c in children)
        {
            cuts += Place(c, x, y, placed);
            if (columns)
                x += _nodes[c].Width;
            else
                y += _nodes[c].Height;
        }

        return cuts;
    }
}
