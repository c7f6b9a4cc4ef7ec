namespace Wain.Cutting;

/// <summary>A way to cut one stock piece: how many of each kind it gives.</summary>
internal sealed record Column(int Stock, int[] Kinds, int[] Amounts, double Cost)
{
    public string Key => $"{Stock}:{string.Join(',', Kinds)}:{string.Join(',', Amounts)}";
}
