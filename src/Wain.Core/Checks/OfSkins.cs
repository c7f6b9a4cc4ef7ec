namespace Wain.Core.Checks;

/// <summary>One line of the spec splices every skin of a panel: what is wrong with it is told of the skin where it is worst, with the others named.</summary>
internal static class OfSkins
{
    /// <summary>One of each group, that with the greatest measure, and words to set after the material of its skin.</summary>
    /// <param name="key">What is one slip.</param>
    public static IEnumerable<(T Worst, string Others)> Worst<T>(IEnumerable<T> told, Func<T, object> key, Func<T, string> material, Func<T, double> measure)
    {
        foreach (var group in told.GroupBy(key))
        {
            var worst = group.MaxBy(measure)!;
            var others = group.Select(material).Distinct().Where(m => m != material(worst)).ToList();
            yield return (worst, others.Count == 0 ? "" : $" (as in {string.Join(" and ", others)})");
        }
    }
}
