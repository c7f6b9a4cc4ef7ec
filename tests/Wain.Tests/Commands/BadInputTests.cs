using System.Globalization;
using ClosedXML.Excel;
using Wain.Cli;
using Wain.Cli.Output;

namespace Wain.Tests.Commands;

/// <summary>The command line met by bad input, by a hand in its outputs, and by its own faults.</summary>
public sealed class BadInputTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("wain-commands-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Out => Path.Combine(_folder, "out");

    private (int Code, string Told) Run(params string[] args)
    {
        var told = new StringWriter();
        return (Entry.Run(args, told, told), told.ToString());
    }

    private string Spec(string name, string text)
    {
        string path = Path.Combine(_folder, name);
        File.WriteAllText(path, text);
        return path;
    }

    private static string First => File.ReadAllText(Path.Combine(Repository.Root, "specs", "first", "first.wain"));

    [Fact]
    public void Bad_input_is_told_with_its_exit_code_and_writes_nothing()
    {
        // Stack size in hexadecimal, as the runtime reads it: 1 MB.
        var (exit, output, error) = Child.Run(["commands", _folder], ("DOTNET_DefaultStackSize", "100000"), ("DOTNET_Thread_DefaultStackSize", "100000"));
        Assert.True(exit == 0, output + error);
    }

    [Fact]
    public void A_fault_of_the_program_is_exit_code_3_without_a_stack_trace()
    {
        var errors = new StringWriter();
        Assert.Equal(3, Entry.Run(["explain", "WN4001"], new BrokenWriter(), errors));
        Assert.Contains("a fault of the program itself", errors.ToString());
        Assert.DoesNotContain("   at ", errors.ToString());
    }

    /// <summary>What the builder writes into the workbook goes by part mark from build to build, while prices, quantities and rows change around it.</summary>
    [Fact]
    public void The_builders_columns_are_carried_over()
    {
        string spec = Spec("a.wain", First);
        Assert.Equal(0, Run("build", spec, "--out", Out).Code);
        string path = Path.Combine(Out, "a", "workbook.xlsx");
        using (var book = new XLWorkbook(path))
        {
            var (page, row) = Row(book, "ply_5mm");
            page.Cell(row, Column(page, "Owned")).Value = 1;
            page.Cell(row, Column(page, "Paid")).Value = 29.5;
            page.Cell(row, Column(page, "Note")).Value = "=from the yard, one corner bruised";
            book.Save();
        }
        // Another price, another material before it in the list, one part fewer.
        File.WriteAllText(spec, First.Replace("price 31 USD", "price 33 USD", StringComparison.Ordinal).Replace("foam_board", "a_board", StringComparison.Ordinal));
        var (code, told) = Run("build", spec, "--out", Out);
        Assert.True(code == 0, told);
        using var again = new XLWorkbook(path);
        var (sheet, at) = Row(again, "ply_5mm");
        Assert.Equal(1.0, sheet.Cell(at, Column(sheet, "Owned")).GetDouble());
        Assert.Equal(29.5, sheet.Cell(at, Column(sheet, "Paid")).GetDouble());
        Assert.Equal("=from the yard, one corner bruised", sheet.Cell(at, Column(sheet, "Note")).GetString());
        Assert.False(sheet.Cell(at, Column(sheet, "Note")).HasFormula);
        Assert.Equal(33.0, sheet.Cell(at, Column(sheet, "Price")).GetDouble());
        Assert.True(Row(again, "a_board").Row < at);
    }

    [Fact]
    public void A_hand_in_a_computed_cell_stops_the_build_and_is_told_with_the_spec_line_it_belongs_to()
    {
        string spec = Spec("a.wain", First);
        Assert.Equal(0, Run("build", spec, "--out", Out).Code);
        string path = Path.Combine(Out, "a", "workbook.xlsx");
        using (var book = new XLWorkbook(path))
        {
            var (page, row) = Row(book, "ply_5mm");
            page.Cell(row, Column(page, "Price")).Value = 27;
            book.Save();
        }
        byte[] edited = File.ReadAllBytes(path);
        var (code, told) = Run("build", spec, "--out", Out);
        Assert.Equal(2, code);
        string line = First.ReplaceLineEndings("\n").Split('\n').Index().First(l => l.Item.Contains("price 31 USD", StringComparison.Ordinal)).Index.ToString(CultureInfo.InvariantCulture);
        Assert.True(told.Contains("31 became 27", StringComparison.Ordinal), told[told.IndexOf("wain: ", StringComparison.Ordinal)..]);
        Assert.Contains($"a.wain:{int.Parse(line, CultureInfo.InvariantCulture) + 1}:", told);
        Assert.Contains("--replace", told);
        Assert.Equal(edited, File.ReadAllBytes(path));
        Assert.Equal(0, Run("build", spec, "--out", Out, "--replace").Code);
        using var again = new XLWorkbook(path);
        var (sheet, at) = Row(again, "ply_5mm");
        Assert.Equal(31.0, sheet.Cell(at, Column(sheet, "Price")).GetDouble());
    }

    [Fact]
    public void Two_builds_at_once_do_no_harm()
    {
        string spec = Spec("a.wain", First);
        string folder = Directory.CreateDirectory(Path.Combine(Out, "a")).FullName;
        using (OutputLock.TryTake(folder, out _))
        {
            var (code, told) = Run("build", spec, "--out", Out);
            Assert.Equal((2, true), (code, told.Contains("Another build is writing", StringComparison.Ordinal)));
        }
        Assert.Equal(0, Run("build", spec, "--out", Out).Code);
    }

    [Fact]
    public void A_section_of_a_page_is_refreshed_and_nothing_else()
    {
        string spec = Spec("a.wain", First);
        string page = Path.Combine(_folder, "README.md");
        File.WriteAllBytes(page, [0xEF, 0xBB, 0xBF, .. "before \u00e9\r\n<!-- wain:begin summary -->\r\nold\r\n<!-- wain:end summary -->\r\nafter"u8]);
        Assert.Equal(0, Run("build", spec, "--out", Out, "--into", page).Code);
        byte[] bytes = File.ReadAllBytes(page);
        Assert.True(bytes.AsSpan().StartsWith((byte[])[0xEF, 0xBB, 0xBF, .. "before \u00e9\r\n<!-- wain:begin summary -->\r\n# Sandpiper, revision A\r\n"u8]));
        Assert.True(bytes.AsSpan().EndsWith("<!-- wain:end summary -->\r\nafter"u8));
        Assert.Equal<string>(["README.md", "a.wain", "out"], Directory.EnumerateFileSystemEntries(_folder).Select(p => Path.GetFileName(p)!).Order(StringComparer.Ordinal).ToArray());
    }

    [Fact]
    public void A_csv_of_hostile_names_runs_nothing()
    {
        string spec = Spec("a.wain", First.Replace("source \"ASTM C578, type IV minimum\"", "source \"=HYPERLINK(\\\"x\\\")\"", StringComparison.Ordinal));
        var (code, told) = Run("query", spec, "sources", "--as", "csv");
        Assert.Equal(0, code);
        Assert.Contains("\"'=HYPERLINK(\"\"x\"\")\"", told);
        Assert.All(told.Split('\n').SelectMany(l => l.Split(',')), field => Assert.DoesNotMatch("^\"?[=@+]", field));
    }

    private static (IXLWorksheet Page, int Row) Row(XLWorkbook book, string part)
    {
        var page = book.Worksheets.Single(p => p.Name == "Buy");
        int row = 1;
        while (page.Cell(row, 1).GetString() != part) Assert.True(++row < 200, $"{part} is not in the list");
        return (page, row);
    }

    private static int Column(IXLWorksheet page, string heading)
    {
        for (int row = 1; row < 8; row++) for (int column = 1; column < 30; column++) if (page.Cell(row, column).GetString().Split(" (")[0] == heading) return column;
        throw new InvalidOperationException($"there is no column {heading}");
    }

    private sealed class BrokenWriter : StringWriter
    {
        public override void WriteLine(string? value) => throw new InvalidOperationException("as if the program were wrong");
    }
}
