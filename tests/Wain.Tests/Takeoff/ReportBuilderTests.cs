using Wain.Core.Framing;
using Wain.Core.Reporting;
using static Wain.Tests.Takeoff.TakeoffSpecs;
using Cells = Wain.Core.Reporting.Figures;

namespace Wain.Tests.Takeoff;

public class ReportBuilderTests
{
    private static (Run Run, Report Report) Make(string text)
    {
        var run = Of(text);
        return (run, ReportBuilder.Of(run.Takeoff, FrameBuilder.Build(run.Structure), run.Figures, run.Findings));
    }

    /// <summary>Where lengths are read in millimetres the drawer holds A4.</summary>
    [Theory]
    [InlineData("inches", Paper.Letter)]
    [InlineData("millimetres", Paper.A4)]
    public void ThePaperFollowsTheUnits(string lengths, Paper paper) =>
        Assert.Equal(paper, Make($"camper \"Sample\" revision \"A\" {{\n lengths {lengths}\n}}\nsheet ply {{\n thickness 6 mm\n size 48 in by 96 in\n}}\nstack board {{ sheet ply }}\npanel lid of board {{\n through (0 m, 0 m, 0 m) along (1 m, 0 m, 0 m) up (0 m, 1 m, 0 m)\n}}\n").Report.Paper);

    /// <summary>Every live formula comes to the program's own figure, from the lines up to the total with tax.</summary>
    [Fact]
    public void FormulasComeToTheFigures()
    {
        var (run, report) = Make(FigureTests.Whole + "built left_wall {\n weighed 5 kg\n paid 60 USD\n}\n");
        var cells = new Cells(report.Tables);
        void Same(double expected, CellValue actual, string what) => Assert.True(actual.Kind == CellValueKind.Number && Math.Abs(expected - actual.Number) <= 1e-9 * Math.Max(1, Math.Abs(expected)), $"{what}: {expected} and {actual}");
        const double pound = 0.45359237;
        foreach (var line in run.Takeoff.Buy)
        {
            Same(line.Packs!.Value, cells["buy", line.Mark, "packs"], line.Mark);
            Same(line.Cost!.Value, cells["buy", line.Mark, "cost"], line.Mark);
        }
        foreach (var line in run.Takeoff.Lines)
        {
            Same(run[line.Name("weight")] / pound, cells[LedgerTables.TableOf(line), line.Key, "weight"], line.Key + " weight");
            Same(run[line.Name("cost")], cells[LedgerTables.TableOf(line), line.Key, "cost"], line.Key + " cost");
        }
        foreach (var panel in run.Takeoff.Panels)
        {
            Same(run[panel.Name + ".weight"] / pound, cells["panels", panel.Name, "weight"], panel.Name);
            Same(run[panel.Name + ".cost"], cells["panels", panel.Name, "cost"], panel.Name);
        }
        Same(run["left_wall.weight_estimated"] / pound, cells["weights", "left_wall", "likely"], "estimate");
        Same(run["walls.weight"] / pound, cells["assemblies", "walls", "weight"], "walls");
        Same(run["walls.cost"], cells["assemblies", "walls", "cost"], "walls");
        foreach (string total in (string[])["total.cost_bought", "total.tax", "total.cost"]) Same(run[total], cells["summary", total, "value"], total);
        foreach (var table in report.Tables)
            for (int row = 0; row <= table.Rows.Length; row++)
                for (int column = 0; column < table.Columns.Length; column++)
                    Assert.NotEqual(CellValueKind.Error, cells[table.Key, row, column].Kind);
    }

    /// <summary>What the builder writes under owned comes off in whole packs; a changed price flows through to the total.</summary>
    [Fact]
    public void OwnedAndPricesFlowThrough()
    {
        var (run, report) = Make(FigureTests.Whole);
        double before = new Cells(report.Tables)["buy", "ply", "packs"].Number;
        var owned = new Cells(Change(report, "buy", "ply", "owned", 1));
        Assert.Equal(before - 1, owned["buy", "ply", "packs"].Number);
        var dearer = new Cells(Change(report, "buy", "ply", "price", 50));
        double tax = 1.07, more = before * 10;
        Assert.Equal(run["total.cost"] + more * tax, dearer["summary", "total.cost", "value"].Number, 6);
        Assert.Equal(run["deck.cost"] + run["left_wall.cost"] + run["right_wall.cost"] + more, dearer["costs", Table.TotalsKey, "counts"].Number, 6);
    }

    /// <summary>Five boards that can't share a sheet take five, whatever their area; two in the shop leave three to buy, and five none.</summary>
    [Theory]
    [InlineData(0, 5)]
    [InlineData(2, 3)]
    [InlineData(1.5, 4)]
    [InlineData(5, 0)]
    [InlineData(9, 0)]
    public void Owned_sheets_come_off_what_a_layout_takes(double owned, int bought)
    {
        string text = "camper \"Owned\" {\n currency USD\n}\nsheet thin {\n thickness 6 mm\n size 48 in by 96 in, price 40 USD, on 2026-01-01\n density 600 kg/m3\n waste 0 %\n}\nstack skin { sheet thin }\n"
            + string.Concat(Enumerable.Range(0, 5).Select(i => $"panel p{i} of skin {{ through (0 in, 0 in, {30 * i} in) along (90 in, 0 in, {30 * i} in) up (0 in, 40 in, {30 * i} in) }}\n"));
        var cells = new Cells(Change(Make(text).Report, "buy", "thin", "owned", owned));
        Assert.Equal(bought, cells["buy", "thin", "packs"].Number);
        Assert.Equal(bought * 40, cells["buy", "thin", "cost"].Number);
    }

    /// <summary>An unknown price is no zero: the cells say so, and the total names what it lacks.</summary>
    [Fact]
    public void UnknownsAreSaid()
    {
        var (_, report) = Make(FigureTests.Whole.Replace(" price 20 USD per sheet on 2026-01-05\n", ""));
        var cells = new Cells(report.Tables);
        Assert.Equal("not known", cells["buy", "foam", "cost"].Text);
        Assert.Equal("not known", cells["layers", "deck.foam", "cost"].Text);
        Assert.Contains("foam.cost", cells["summary", "total.cost", "lacks"].Text);
    }

    /// <summary>Geometry takes the true size; who buys asks for the called one, and reads what the spec notes of it.</summary>
    [Fact]
    public void TheBuyingListSaysWhatThingsAreCalled()
    {
        string ply = Ply.Replace("thickness 6 mm", "thickness 6 mm called \"1/4 in ply\"\n grade \"B/BB\"\n note \"no voids\"", StringComparison.Ordinal);
        var cells = new Cells(Make(ply + "stack skin {\n sheet ply\n}\n" + Deck("a", "skin", "40 in", "30 in")).Report.Tables);
        Assert.Equal("1/4 in ply, sheet 48 in by 96 in", cells["buy", "ply", "sold"].Text);
        Assert.Equal("B/BB; no voids; estimate", cells["buy", "ply", "remark"].Text);
    }

    [Fact]
    public void OrderOfTheSpecDoesNotShow()
    {
        string swapped = Materials(true), straight = Materials(false);
        Assert.Equal(Make(straight).Report.ValuesHash, Make(swapped).Report.ValuesHash);

        static string Materials(bool turned)
        {
            string first = Deck("a", "skin", "40 in", "30 in"), second = Deck("b", "skin", "50 in", "30 in");
            return Ply + "stack skin {\n sheet ply\n}\n" + (turned ? second + first : first + second);
        }
    }

    private static System.Collections.Immutable.ImmutableArray<Table> Change(Report report, string table, string row, string column, double value) =>
        [.. report.Tables.Select(t => t.Key != table ? t : t with { Rows = [.. t.Rows.Select(r => r.Key != row ? r : r with { Cells = r.Cells.SetItem(t.ColumnIndex(column), value) })] })];
}
