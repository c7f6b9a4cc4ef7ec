namespace Wain.Cutting;

/// <summary>
/// One sheet with pieces anywhere on it. What is free is kept as all the rectangles that hold no piece and cannot grow; they overlap, and whatever has room
/// on the sheet has room in one of them.
/// </summary>
/// <param name="least">Free rectangles with a side below this are of no use.</param>
internal sealed class FreeSheet(int least) : IOpenSheet<FreeSheet>
{
    public struct Rectangle
    {
        public int X1;
        public int Y1;
        public int X2;
        public int Y2;

        public readonly int Width => X2 - X1;

        public readonly int Height => Y2 - Y1;

        public readonly bool Holds(in Rectangle other) => X1 <= other.X1 && Y1 <= other.Y1 && X2 >= other.X2 && Y2 >= other.Y2;
    }

    private Placed[] _pieces = new Placed[16];
    private Rectangle[] _free = new Rectangle[16];
    private int _width;
    private int _height;

    public int Stock { get; private set; }

    public int Width => _width;

    public int Height => _height;

    public int Pieces { get; private set; }

    public long UsedArea { get; private set; }

    public long CopyWork => 2L * (Pieces + FreeCount);

    public int FreeCount { get; private set; }

    /// <summary>No free rectangle is wider.</summary>
    public int Widest { get; private set; }

    /// <summary>No free rectangle is higher.</summary>
    public int Highest { get; private set; }

    public ref readonly Rectangle Free(int i) => ref _free[i];

    public ref readonly Placed Piece(int i) => ref _pieces[i];

    public void Reset(int stock, int width, int height)
    {
        (Stock, _width, _height) = (stock, width, height);
        (Pieces, UsedArea) = (0, 0);
        Whole();
        Measure();
    }

    private void Whole()
    {
        FreeCount = 0;
        if (_width > 0 && _height > 0)
            _free[FreeCount++] = new Rectangle { X2 = _width, Y2 = _height };
    }

    public void CopyFrom(FreeSheet other)
    {
        (Stock, _width, _height) = (other.Stock, other._width, other._height);
        (Pieces, UsedArea, FreeCount) = (other.Pieces, other.UsedArea, other.FreeCount);
        (Widest, Highest) = (other.Widest, other.Highest);
        if (_pieces.Length < Pieces)
            _pieces = new Placed[other._pieces.Length];
        if (_free.Length < FreeCount)
            _free = new Rectangle[other._free.Length];
        Array.Copy(other._pieces, _pieces, Pieces);
        Array.Copy(other._free, _free, FreeCount);
    }

    public void Insert(in Placed piece, ref long work)
    {
        if (Pieces == _pieces.Length)
            Array.Resize(ref _pieces, Pieces * 2);
        _pieces[Pieces++] = piece;
        UsedArea += (long)piece.Width * piece.Height;
        Occupy(piece, ref work);
        Measure();
    }

    /// <summary>Takes pieces out by their places in the list, which are in rising order.</summary>
    public void Remove(ReadOnlySpan<int> places, int[] removed, ref long work)
    {
        var (next, kept) = (0, 0);
        for (var i = 0; i < Pieces; i++)
        {
            if (next < places.Length && places[next] == i)
            {
                next++;
                removed[_pieces[i].Kind]++;
                UsedArea -= (long)_pieces[i].Width * _pieces[i].Height;
                continue;
            }

            _pieces[kept++] = _pieces[i];
        }

        Pieces = kept;
        Whole();
        for (var i = 0; i < Pieces; i++)
            Occupy(_pieces[i], ref work);
        Measure();
    }

    public void Clear(int[] removed)
    {
        for (var i = 0; i < Pieces; i++)
            removed[_pieces[i].Kind]++;
        Reset(Stock, _width, _height);
    }

    private void Occupy(in Placed p, ref long work)
    {
        int x1 = p.X, y1 = p.Y, x2 = p.X + p.Width, y2 = p.Y + p.Height;
        var old = 0;
        var count = FreeCount;
        // What stays moves to the front; what is struck is cut up, and its parts lie behind all the others until they are looked at.
        var parts = count;
        for (var i = 0; i < count; i++)
        {
            var f = _free[i];
            if (x1 >= f.X2 || x2 <= f.X1 || y1 >= f.Y2 || y2 <= f.Y1)
            {
                _free[old++] = f;
                continue;
            }

            if (parts + 4 > _free.Length)
                Array.Resize(ref _free, _free.Length * 2);
            if (x1 - f.X1 >= least)
                _free[parts++] = f with { X2 = x1 };
            if (f.X2 - x2 >= least)
                _free[parts++] = f with { X1 = x2 };
            if (y1 - f.Y1 >= least)
                _free[parts++] = f with { Y2 = y1 };
            if (f.Y2 - y2 >= least)
                _free[parts++] = f with { Y1 = y2 };
        }

        work += 2 * (count + (parts - count) * (long)(old + 2));
        var kept = old;
        for (var i = count; i < parts; i++)
        {
            var f = _free[i];
            var inside = false;
            for (var j = 0; j < kept && !inside; j++)
                inside = _free[j].Holds(f);
            for (var j = i + 1; j < parts && !inside; j++)
                inside = _free[j].Holds(f);
            if (!inside)
                _free[kept++] = f;
        }

        FreeCount = kept;
    }

    /// <summary>How much of a rectangle's outline would lie against pieces and the edges of the sheet.</summary>
    public long Touch(in Placed p)
    {
        long sum = 0;
        int x2 = p.X + p.Width, y2 = p.Y + p.Height;
        if (p.X == 0)
            sum += p.Height;
        if (x2 == _width)
            sum += p.Height;
        if (p.Y == 0)
            sum += p.Width;
        if (y2 == _height)
            sum += p.Width;
        for (var i = 0; i < Pieces; i++)
        {
            ref readonly var q = ref _pieces[i];
            int qx = q.X + q.Width, qy = q.Y + q.Height;
            if (q.X == x2 || qx == p.X)
                sum += Math.Max(0, Math.Min(y2, qy) - Math.Max(p.Y, q.Y));
            if (q.Y == y2 || qy == p.Y)
                sum += Math.Max(0, Math.Min(x2, qx) - Math.Max(p.X, q.X));
        }

        return sum;
    }

    private void Measure()
    {
        (Widest, Highest) = (0, 0);
        for (var i = 0; i < FreeCount; i++)
        {
            Widest = Math.Max(Widest, _free[i].Width);
            Highest = Math.Max(Highest, _free[i].Height);
        }
    }

    public SheetLayout Layout()
    {
        long largest = 0;
        for (var i = 0; i < FreeCount; i++)
            largest = Math.Max(largest, (long)_free[i].Width * _free[i].Height);
        // Two lines or so free a piece, since neighbours share theirs.
        return new SheetLayout(Stock, _pieces[..Pieces], 1, largest, 2 * Pieces);
    }
}
