namespace Wain.Cutting;

/// <summary>A sheet of a plan in the making.</summary>
internal interface IOpenSheet<TSheet>
{
    int Stock { get; }

    /// <summary>0 for a sheet that was handed back.</summary>
    int Width { get; }

    int Pieces { get; }

    long UsedArea { get; }

    /// <summary>What a copy costs, in simple operations.</summary>
    long CopyWork { get; }

    /// <summary>An empty sheet of a stock.</summary>
    void Reset(int stock, int width, int height);

    void CopyFrom(TSheet other);

    /// <summary>Takes all pieces out; <paramref name="removed"/> counts them by kind.</summary>
    void Clear(int[] removed);

    /// <summary>The pieces in their places.</summary>
    SheetLayout Layout();
}

/// <summary>
/// The sheets that a search has opened, with what they cost and what stock is left. A change works on copies of the sheets that it touches, so it can be
/// kept or taken back as one.
/// </summary>
/// <param name="make">Makes a sheet that is not laid out yet.</param>
internal sealed class OpenSheets<TSheet>(SheetCore core, Func<TSheet> make)
    where TSheet : class, IOpenSheet<TSheet>
{
    private readonly List<TSheet> _open = [];
    private readonly Stack<TSheet> _pool = new();
    private readonly List<(int Place, TSheet Old)> _journal = [];
    private readonly HashSet<TSheet> _fresh = [];
    private readonly int[] _stockLeft = (int[])core.Counts.Clone();
    private readonly int[] _stockBefore = new int[core.Stocks];
    private int _countBefore;
    private long _costBefore;

    public int Count => _open.Count;

    /// <summary>Cost of all open sheets.</summary>
    public long Cost { get; private set; }

    public TSheet this[int place] => _open[place];

    /// <summary>How many sheets of a stock are left, -1 for as many as wanted.</summary>
    public int Left(int stock) => _stockLeft[stock];

    public bool HasLeft(int stock) => _stockLeft[stock] != 0;

    public void Begin()
    {
        Array.Copy(_stockLeft, _stockBefore, _stockLeft.Length);
        (_countBefore, _costBefore) = (_open.Count, Cost);
    }

    /// <summary>Keeps the change.</summary>
    /// <param name="removed">Counts the pieces of sheets that are closed; empty ones have none.</param>
    public void Keep(int[] removed)
    {
        foreach (var (_, old) in _journal)
            _pool.Push(old);
        Settle();
        for (var i = _open.Count - 1; i >= 0; i--)
        {
            if (_open[i].Pieces == 0)
                Close(i, removed);
        }
    }

    /// <summary>Takes the change back.</summary>
    public void Undo()
    {
        for (var i = _open.Count - 1; i >= _countBefore; i--)
        {
            _pool.Push(_open[i]);
            _open.RemoveAt(i);
        }

        foreach (var (place, old) in _journal)
        {
            _pool.Push(_open[place]);
            _open[place] = old;
        }

        Array.Copy(_stockBefore, _stockLeft, _stockLeft.Length);
        Cost = _costBefore;
        Settle();
    }

    /// <summary>Forgets which sheets are copies: what is there now is the plan.</summary>
    public void Settle()
    {
        _journal.Clear();
        _fresh.Clear();
    }

    /// <summary>The sheet as this change may write it.</summary>
    /// <param name="work">Counts the work of copying.</param>
    public TSheet Writable(int place, ref long work)
    {
        var tree = _open[place];
        if (_fresh.Contains(tree))
            return tree;
        var copy = Spare();
        copy.CopyFrom(tree);
        work += tree.CopyWork;
        _journal.Add((place, tree));
        _open[place] = copy;
        _fresh.Add(copy);
        return copy;
    }

    /// <summary>Opens a sheet of a stock of which there is one left, and says at which place.</summary>
    public int Open(int stock)
    {
        var tree = Spare();
        tree.Reset(stock, core.StockWidth[stock], core.StockHeight[stock]);
        _open.Add(tree);
        _fresh.Add(tree);
        Cost += core.Costs[stock];
        if (_stockLeft[stock] > 0)
            _stockLeft[stock]--;
        return _open.Count - 1;
    }

    public void Close(int place, int[] removed)
    {
        var tree = _open[place];
        tree.Clear(removed);
        // A sheet of no width was handed back when it was emptied.
        if (tree.Width > 0)
            Return(tree.Stock);
        _pool.Push(tree);
        _open.RemoveAt(place);
    }

    /// <summary>Hands an emptied sheet back, which may come again as another size: until the change is kept it stays as a sheet without room.</summary>
    public void HandBack(TSheet tree)
    {
        Return(tree.Stock);
        tree.Reset(tree.Stock, 0, 0);
    }

    private void Return(int stock)
    {
        Cost -= core.Costs[stock];
        if (_stockLeft[stock] >= 0)
            _stockLeft[stock]++;
    }

    private TSheet Spare() => _pool.Count > 0 ? _pool.Pop() : make();
}
