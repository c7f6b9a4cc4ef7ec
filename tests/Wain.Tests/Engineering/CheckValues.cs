using System.Globalization;
using System.Text;
using Wain.Core.Methods;

namespace Wain.Tests.Engineering;

/// <summary>One figure held against something outside the project.</summary>
/// <param name="Method">What is checked, by its name in the code.</param>
/// <param name="Source">Where the expected figure comes from; "from memory" and "independent method" are said so.</param>
/// <param name="Case">The inputs and the unit, short.</param>
/// <param name="Computed">Runs the method; NaN if it gave a reason instead.</param>
/// <param name="Tolerance">Absolute, in the unit of the expected figure: half its last printed digit unless the case says why not.</param>
public sealed record CheckValue(string Method, string Source, string Case, double Expected, Func<double> Computed, double Tolerance)
{
    public override string ToString() => $"{Method}: {Case}";
}

/// <summary>The check values of all engineering methods: the tests run them, and <see cref="Markdown"/> lists them for the developers.</summary>
public static partial class CheckValues
{
    // Made on first use: the order in which the parts of a partial class are initialised is not defined.
    private static readonly Lazy<CheckValue[]> Made = new(() => [.. Weights, .. Woods, .. Loads, .. Lifts, .. Panels, .. Fastening, .. Climate, .. Mixes]);

    public static IReadOnlyList<CheckValue> All => Made.Value;

    /// <summary>A table in Markdown: method, case, source, expected, computed, tolerance.</summary>
    public static string Markdown()
    {
        var table = new StringBuilder("| Method | Case | Source | Expected | Computed | Tolerance |\n|---|---|---|---:|---:|---:|\n");
        foreach (var check in All)
        {
            table.Append(CultureInfo.InvariantCulture,
                $"| {check.Method} | {check.Case.Replace("|", "\\|")} | {check.Source} | {Show(check.Expected)} | {Show(check.Computed())} | {Show(check.Tolerance)} |\n");
        }

        return table.ToString();
    }

    internal static double Figure(this Result<double> result) => result.Or(double.NaN);

    internal static double Figure<T>(this Result<T> result, Func<T, double> part) => result.TryGet(out var value) ? part(value) : double.NaN;

    private static string Show(double value) => value.ToString(Math.Abs(value) is >= 1e6 or (< 1e-3 and > 0) ? "0.####E+0" : "G5", CultureInfo.InvariantCulture);
}

public class CheckValueTests
{
    public static TheoryData<int, string> Cases()
    {
        var cases = new TheoryData<int, string>();
        foreach (var (index, check) in CheckValues.All.Index())
        {
            cases.Add(index, check.ToString());
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Agrees(int index, string name)
    {
        var check = CheckValues.All[index];
        var computed = check.Computed();
        Assert.True(Math.Abs(computed - check.Expected) <= check.Tolerance, $"{name}: {check.Source} has {check.Expected}, computed {computed}, tolerance {check.Tolerance}");
    }

    /// <summary>Each method is held against at least two figures, so that one lucky agreement is not taken for proof.</summary>
    [Fact]
    public void EveryMethodHasTwoCheckValues() =>
        Assert.DoesNotContain(CheckValues.All.GroupBy(c => c.Method), group => group.Count() < 2);

    [Fact]
    public void TableHasOneLineForEachCheckValue() =>
        Assert.Equal(CheckValues.All.Count + 2, CheckValues.Markdown().Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
}
