using Wain.Core.Reporting;

namespace Wain.Tests.Reporting;

public class FiguresTests
{
    private static readonly Report Sample = SampleReport.Make();

    private static readonly Figures Figures = new(Sample.Tables);

    [Fact]
    public void SumsByKeyTellCaseApartAndTakeNoWildcard()
    {
        Assert.Equal(CellValue.Rounded(31.0 / 3) + 70.1, Figures["buy", "ply_6mm", "need"].Number, 12);
        Assert.Equal(1.25, Figures["buy", "Ply_6mm", "need"].Number);
        Assert.Equal(2.5, Figures["buy", "<5*?", "need"].Number);
        Assert.Equal(2, Figures["totals", "layers of ply", "figure"].Number);
    }

    [Theory]
    [InlineData(96, 32, 3)]
    [InlineData(96.000001, 32, 4)]
    [InlineData(0.3, 0.1, 3)] // 0.3 / 0.1 is 2.9999999999999996 in binary
    [InlineData(0.1 + 0.2, 0.1, 3)] // and this 3.0000000000000004
    [InlineData(0, 5, 0)]
    public void WholePacksIgnoreTheLastBit(double need, double pack, double expected)
    {
        var table = new Table("t", "T", [new("k", "K"), new("v", "V", ColumnKind.Number)], [new("a", ["a", Formula.Packs(need, pack)])]);
        Assert.Equal(expected, new Figures([table])["t", "a", "v"].Number);
    }

    // Halves away from zero at the digits shown, as ROUND is specified (OpenFormula 1.3 part 4, 6.17.5 ROUND).
    [Theory]
    [InlineData(2.5, 0, 3)]
    [InlineData(-2.5, 0, -3)]
    [InlineData(1.005, 2, 1.01)]
    [InlineData(-1.005, 2, -1.01)]
    public void RoundTakesHalvesAwayFromZero(double value, int digits, double expected) => Assert.Equal(expected, Figures.RoundHalfAway(value, digits));

    [Fact]
    public void ErrorsTravelAsASpreadsheetTellsThem()
    {
        Assert.Equal("#DIV/0!", Figures["totals", "divided by none", "figure"].Text);
        Assert.Equal("#N/A", Figures["totals", "not listed", "figure"].Text);
        var table = new Table("t", "T", [new("k", "K"), new("v", "V", ColumnKind.Number)], [new("a", ["a", new Formula.Here("k") * 2])]);
        Assert.Equal("#VALUE!", new Figures([table])["t", "a", "v"].Text);
    }

    [Fact]
    public void AFormulaThatDependsOnItselfIsRefused()
    {
        var table = new Table("t", "T", [new("k", "K"), new("v", "V", ColumnKind.Number)], [new("a", ["a", new Formula.Sum("t", "v")])]);
        Assert.Contains("depends on itself", Assert.Throws<ArgumentException>(() => new Figures([table])["t", "a", "v"]).Message);
    }

    [Fact]
    public void ANumberIsTakenAtTwelveDigits()
    {
        var table = new Table("t", "T", [new("k", "K"), new("v", "V", ColumnKind.Number)], [new("a", ["a", Math.PI])]);
        Assert.Equal(3.14159265359, new Figures([table])["t", "a", "v"].Number);
    }

    // ECMA-376 part 1, 18.17.4.1: in the 1900 date base system 1 March 1900 is day 61.
    [Fact]
    public void DatesCountAsSpreadsheetsDo() => Assert.Equal(61, CellValue.Serial(new DateOnly(1900, 3, 1)));

    [Fact]
    public void TenThousandSumsOverTenThousandRowsStayFast()
    {
        var rows = Enumerable.Range(0, 10_000).Select(i => new Row($"r{i}", [$"r{i}", (double)i])).ToArray();
        var source = new Table("s", "S", [new("k", "K"), new("v", "V", ColumnKind.Number)], [.. rows]);
        var sums = new Table("t", "T", [new("k", "K"), new("v", "V", ColumnKind.Number)],
            [.. rows.Select(r => new Row(r.Key, [r.Key, new Formula.SumIf("s", "k", new Formula.Here("k"), "v")]))]);
        var clock = System.Diagnostics.Stopwatch.StartNew();
        var figures = new Figures([source, sums]);
        for (int i = 0; i < rows.Length; i++) Assert.Equal(i, figures["t", i, 1].Number);
        Assert.True(clock.Elapsed < TimeSpan.FromSeconds(2), $"took {clock.Elapsed}; a sum that scans takes far longer");
    }

    [Fact]
    public void TheHashFollowsTheValuesAndNothingElse()
    {
        string hash = ReportHash.Of(Sample.Tables);
        Assert.Equal(hash, ReportHash.Of(SampleReport.Make().Tables));
        Assert.Matches("^[0-9a-f]{12}$", hash);
        var dearer = Sample.With("buy", t => t with { Rows = t.Rows.SetItem(0, t.Rows[0] with { Cells = t.Rows[0].Cells.SetItem(5, 41.26) }) });
        Assert.NotEqual(hash, ReportHash.Of(dearer.Tables));
        var moved = Sample.With("buy", t => t with { Rows = t.Rows.SetItem(0, t.Rows[0] with { Cells = t.Rows[0].Cells.SetItem(5, t.Rows[0].Cells[5].From(null)) }) });
        Assert.Equal(hash, ReportHash.Of(moved.Tables));
    }

    [Fact]
    public void ATableThatBreaksARuleIsNamed()
    {
        var twice = new Table("t", "T", [new("k", "K")], [new("a", ["a"]), new("a", ["a"])]);
        Assert.Contains("row a stands twice", Assert.Throws<ArgumentException>(() => new Figures([twice])).Message);
        var shortRow = new Table("t", "T", [new("k", "K"), new("v", "V")], [new("a", ["a"])]);
        Assert.Contains("1 cells for 2 columns", Assert.Throws<ArgumentException>(() => new Figures([shortRow])).Message);
        Assert.Contains("not a key", Assert.Throws<ArgumentException>(() => new Figures([new Table("A1", "T", [new("k", "K")], [])])).Message);
    }
}
