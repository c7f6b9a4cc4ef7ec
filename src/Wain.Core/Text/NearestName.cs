namespace Wain.Core.Text;

/// <summary>Finds the names that a misspelled one was probably meant to be.</summary>
public static class NearestName
{
    /// <summary>Up to three candidates by optimal string alignment distance, at most a third of the length away; nearest first.</summary>
    public static IReadOnlyList<string> Of(string name, IEnumerable<string> candidates)
    {
        int limit = Math.Max(1, name.Length / 3);
        return [.. candidates.Distinct(StringComparer.Ordinal).Where(c => Math.Abs(c.Length - name.Length) <= limit)
            .Select(c => (Name: c, Distance: Distance(name, c))).Where(c => c.Distance <= limit && c.Distance > 0)
            .OrderBy(c => c.Distance).ThenBy(c => c.Name, StringComparer.Ordinal).Take(3).Select(c => c.Name)];
    }

    /// <summary>" Did you mean a or b?" or nothing.</summary>
    public static string Ask(IReadOnlyList<string> names) => names.Count switch
    {
        0 => "",
        1 => $" Did you mean {names[0]}?",
        _ => $" Did you mean {string.Join(", ", names.Take(names.Count - 1))} or {names[^1]}?",
    };

    private static int Distance(string a, string b)
    {
        var rows = new int[a.Length + 1, b.Length + 1];
        for (int i = 0; i <= a.Length; i++) rows[i, 0] = i;
        for (int j = 0; j <= b.Length; j++) rows[0, j] = j;
        for (int i = 1; i <= a.Length; i++)
        {
            for (int j = 1; j <= b.Length; j++)
            {
                int cost = a[i - 1] == b[j - 1] ? 0 : 1;
                int best = Math.Min(Math.Min(rows[i - 1, j] + 1, rows[i, j - 1] + 1), rows[i - 1, j - 1] + cost);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) best = Math.Min(best, rows[i - 2, j - 2] + 1);
                rows[i, j] = best;
            }
        }
        return rows[a.Length, b.Length];
    }
}
