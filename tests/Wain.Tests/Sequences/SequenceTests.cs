using Linq = System.Linq.Enumerable;

namespace Wain.Tests.Sequences;

/// <summary>The core's query operators against those of the framework, over every kind of source.</summary>
public class SequenceTests
{
    public static TheoryData<int> Seeds => [.. Linq.Range(0, 40)];

    private static int[] Draw(int seed)
    {
        var random = new Random(seed);
        return [.. Linq.Select(Linq.Range(0, seed % 7 == 0 ? 0 : random.Next(1, 30)), _ => random.Next(-5, 6))];
    }

    private static IEnumerable<IEnumerable<int>> Kinds(int[] items) => [items, new List<int>(items), [.. items], new Queue<int>(items), Yielded(items), System.Collections.Immutable.ImmutableArray.Create(items)];

    private static IEnumerable<int> Yielded(int[] items)
    {
        foreach (int item in items) yield return item;
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void OperatorsGiveWhatTheFrameworkGives(int seed)
    {
        var items = Draw(seed);
        foreach (var source in Kinds(items))
        {
            Assert.Equal(Linq.Select(items, x => x * 0.5), source.Select(x => x * 0.5));
            Assert.Equal(Linq.Select(items, (x, i) => x + i), source.Select((x, i) => x + i));
            Assert.Equal(Linq.Where(items, x => x % 2 == 0), source.Where(x => x % 2 == 0));
            Assert.Equal(Linq.Where(items, (x, i) => x > i), source.Where((x, i) => x > i));
            Assert.Equal(Linq.SelectMany(items, x => Linq.Range(0, Math.Abs(x))), source.SelectMany(x => Linq.Range(0, Math.Abs(x))));
            Assert.Equal(Linq.SelectMany(items, x => items, (x, y) => x * y), source.SelectMany(x => items, (x, y) => x * y));
            Assert.Equal(Linq.Concat(items, items), source.Concat(source));
            Assert.Equal(Linq.Append(items, 9), source.Append(9));
            Assert.Equal(Linq.Prepend(items, 9), source.Prepend(9));
            Assert.Equal(Linq.Take(items, seed - 5), source.Take(seed - 5));
            Assert.Equal(Linq.Skip(items, seed - 5), source.Skip(seed - 5));
            Assert.Equal(Linq.Distinct(items), source.Distinct());
            Assert.Equal(Linq.DistinctBy(items, x => x / 2), source.DistinctBy(x => x / 2));
            Assert.Equal(Linq.DefaultIfEmpty(items, 7), source.DefaultIfEmpty(7));
            Assert.Equal(Linq.Zip(items, Linq.Skip(items, 1)), source.Zip(source.Skip(1)));
            Assert.Equal(Linq.Order(items), source.Order());
            Assert.Equal(Linq.ToArray(items), source.ToArray());
            Assert.Equal(Linq.ToList(items), source.ToList());
            Assert.Equal(Linq.ToHashSet(items), source.ToHashSet());
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void AnswersAreThoseOfTheFramework(int seed)
    {
        var items = Draw(seed);
        double[] values = [.. Linq.Select(items, x => x == 3 ? double.NaN : x * 0.1)];
        foreach (var source in Kinds(items))
        {
            Assert.Equal(Linq.Any(items), source.Any());
            Assert.Equal(Linq.Any(items, x => x > 3), source.Any(x => x > 3));
            Assert.Equal(Linq.All(items, x => x > -4), source.All(x => x > -4));
            Assert.Equal(Linq.Count(items), source.Count());
            Assert.Equal(Linq.Count(items, x => x > 0), source.Count(x => x > 0));
            Assert.Equal(Linq.FirstOrDefault(items), source.FirstOrDefault());
            Assert.Equal(Linq.FirstOrDefault(items, x => x > 2), source.FirstOrDefault(x => x > 2));
            Assert.Equal(Linq.LastOrDefault(items, x => x > 2), source.LastOrDefault(x => x > 2));
            Assert.Equal(Linq.Sum(items, x => x * 0.1), source.Sum(x => x * 0.1));
            Assert.Equal(Linq.Sum(items, x => x), source.Sum(x => x));
            Assert.Equal(Linq.Sum(items, x => (long)x), source.Sum(x => (long)x));
            Assert.Equal(Linq.Aggregate(items, "", (s, x) => s + x), source.Aggregate("", (s, x) => s + x));
            if (items.Length == 0)
            {
                Assert.Throws<InvalidOperationException>(() => source.First());
                Assert.Throws<InvalidOperationException>(() => source.Max(x => x));
                Assert.Throws<InvalidOperationException>(() => source.MinBy(x => x));
                continue;
            }
            Assert.Equal(Linq.First(items), source.First());
            Assert.Equal(Linq.Max(items, x => x), source.Max(x => x));
            Assert.Equal(Linq.Min(items, x => x), source.Min(x => x));
            Assert.Equal(Linq.MaxBy(items, x => x / 2), source.MaxBy(x => x / 2));
            Assert.Equal(Linq.MinBy(items, x => x / 2), source.MinBy(x => x / 2));
            Assert.Equal(Linq.Aggregate(items, (a, b) => a - b), source.Aggregate((a, b) => a - b));
        }
        if (items.Length == 0) return;
        Assert.Equal(Linq.Max(values), values.Max());
        Assert.Equal(Linq.Min(values), values.Min());
        Assert.Equal(Linq.Sum(values), values.Sum());
    }

    /// <summary>Equal items keep their order, and a key may be nothing.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void OrdersAreStableAndGroupsComeInTheOrderOfTheirFirstItems(int seed)
    {
        (int Key, string? Name, int Place)[] items = [.. Linq.Select(Draw(seed), (x, i) => (x / 2, x < 0 ? null : "abc"[(x % 3)..(x % 3 + 1)], i))];
        Assert.Equal(Linq.OrderBy(items, x => x.Key), items.OrderBy(x => x.Key));
        Assert.Equal(Linq.OrderByDescending(items, x => x.Key), items.OrderByDescending(x => x.Key));
        Assert.Equal(Linq.ThenBy(Linq.OrderBy(items, x => x.Name), x => x.Key), items.OrderBy(x => x.Name).ThenBy(x => x.Key));
        Assert.Equal(Linq.ThenByDescending(Linq.OrderByDescending(items, x => x.Name, StringComparer.Ordinal), x => x.Key), items.OrderByDescending(x => x.Name, StringComparer.Ordinal).ThenByDescending(x => x.Key));
        var groups = items.GroupBy(x => x.Name, StringComparer.Ordinal);
        var expected = Linq.ToArray(Linq.GroupBy(items, x => x.Name, StringComparer.Ordinal));
        Assert.Equal(Linq.Select(expected, g => g.Key), Linq.Select(groups, g => g.Key));
        for (int i = 0; i < expected.Length; i++) Assert.Equal(Linq.ToArray(expected[i]), groups[i].ToArray());
    }
}
