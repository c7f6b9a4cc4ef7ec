namespace Wain.Core.Methods;

/// <summary>Straight lines between the entries of a printed table.</summary>
internal static class Tables
{
    /// <summary>Entries by rising x; beyond either end the last entry holds.</summary>
    public static double Interpolate(ReadOnlySpan<(double X, double Y)> table, double x)
    {
        for (var i = 0; i < table.Length; i++)
        {
            if (x <= table[i].X)
            {
                return i == 0 ? table[0].Y : table[i - 1].Y + (table[i].Y - table[i - 1].Y) * (x - table[i - 1].X) / (table[i].X - table[i - 1].X);
            }
        }

        return table[^1].Y;
    }
}
