using System.Globalization;
using System.IO.Compression;
using System.Xml.Linq;
using ClosedXML.Excel;
using Wain.Core.Reporting;
using Wain.Reports.Workbooks;

namespace Wain.Tests.Reporting;

public class WorkbookTests
{
    private static readonly Report Sample = SampleReport.Make();

    private static readonly WorkbookResult Made = Workbook.Make(Sample);

    private static XLWorkbook Open(byte[] bytes) => new(new MemoryStream(bytes));

    private static string Part(byte[] bytes, string name)
    {
        using var zip = new ZipArchive(new MemoryStream(bytes));
        using var reader = new StreamReader(zip.GetEntry(name)!.Open());
        return reader.ReadToEnd();
    }

    [Fact]
    public void TwoBuildsAreTheSameBytesInAnyCultureAndThread()
    {
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NumberGroupSeparator = ".";
        comma.NumberFormat.NegativeSign = "~";
        comma.DateTimeFormat.DateSeparator = "/";
        byte[]? other = null;
        var thread = new Thread(() => other = Workbook.Make(SampleReport.Make()).Bytes) { CurrentCulture = comma, CurrentUICulture = comma };
        thread.Start();
        thread.Join();
        Assert.Equal(Made.Bytes, other);
    }

    // A process of its own has other hash seeds, and here another time zone.
    [Fact]
    public void AnotherProcessInAnotherTimeZoneMakesTheSameBytes()
    {
        string file = Path.GetTempFileName();
        try
        {
            var child = Child.Run(["workbook", file], ("TZ", "Pacific/Kiritimati"));
            Assert.True(child.ExitCode == 0, child.Error);
            Assert.Equal(Made.Bytes, File.ReadAllBytes(file));
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Fact]
    public void TheCachedValueOfEveryFormulaIsTheProgramsFigure()
    {
        var figures = new Figures(Sample.Tables);
        using var book = Open(Made.Bytes!);
        int formulas = 0;
        foreach (var table in Sample.Tables)
        {
            var page = book.Worksheets.Single(p => p.Cell(1, 1).GetString() == "DRAFT: " + table.Title);
            for (int row = 0; row < table.Rows.Length; row++)
            {
                for (int column = 0; column < table.Columns.Length; column++)
                {
                    if (table.Rows[row].Cells[column] is not Cell.Live) continue;
                    var cell = page.Cell(row + 4, column + 1);
                    Assert.True(cell.HasFormula);
                    Assert.Equal(figures[table.Key, row, column].ToString(), Convert.ToString(cell.CachedValue, CultureInfo.InvariantCulture));
                    formulas++;
                }
            }
        }
        Assert.Equal(4 * 5 + 9, formulas);
    }

    [Theory]
    [InlineData("What to buy", 4, 2, "=1+1")]
    [InlineData("What to buy", 5, 2, "+plus")]
    [InlineData("What to buy", 6, 2, "@at | bar \\ slash")]
    [InlineData("What to buy", 7, 2, "'quoted\nsecond line\t.")]
    [InlineData("Totals & more- 1-2 -all-", 5, 3, "-1")]
    [InlineData("Totals & more- 1-2 -all-", 6, 3, "1/2")]
    [InlineData("Totals & more- 1-2 -all-", 7, 3, "2026-05-02")]
    [InlineData("Totals & more- 1-2 -all-", 8, 3, "TRUE")]
    [InlineData("Totals & more- 1-2 -all-", 10, 3, "\ufffd and \ufffd")]
    [InlineData("Totals & more- 1-2 -all-", 11, 3, "007")]
    public void TextStaysText(string sheet, int row, int column, string expected)
    {
        using var book = Open(Made.Bytes!);
        var cell = book.Worksheet(sheet).Cell(row, column);
        Assert.False(cell.HasFormula);
        Assert.Equal(XLDataType.Text, cell.DataType);
        Assert.Equal(expected, cell.GetString().ReplaceLineEndings("\n"));
        Assert.Equal(expected[0] is '=' or '+' or '-' or '@' or '\'', cell.Style.IncludeQuotePrefix);
    }

    // ECMA-376 part 1, 22.9.2.19 ST_Xstring: an underscore that would begin an escape is written as one itself.
    [Fact]
    public void TextThatLooksLikeAnEscapeIsEscaped() => Assert.Contains(">_x005F_x0041_<", Part(Made.Bytes!, "xl/sharedStrings.xml"));

    // Number format codes after ECMA-376 part 1, 18.8.31.
    [Theory]
    [InlineData("length", "# ??/16")]
    [InlineData("need", "0.00")]
    [InlineData("price", "#,##0.00")]
    [InlineData("priced", "yyyy-mm-dd")]
    [InlineData("packs", "0")]
    [InlineData("share", "0.0%")]
    public void NumbersHaveTheirFormat(string column, string format)
    {
        using var book = Open(Made.Bytes!);
        int index = Sample.Tables[1].ColumnIndex(column) + 1;
        Assert.Equal(format, book.Worksheet("What to buy").Cell(4, index).Style.NumberFormat.Format);
    }

    /// <summary>A length on a coarser line of the tape is shown by that line's denominator: the first condition that holds gives it, and the rules are worked out here by hand.</summary>
    [Fact]
    public void FractionsAreShownReduced()
    {
        string letter = ((char)('A' + Sample.Tables[1].ColumnIndex("length"))).ToString(), sheet = Part(Made.Bytes!, "xl/worksheets/sheet3.xml"), styles = Part(Made.Bytes!, "xl/styles.xml");
        string[] formats = [.. System.Text.RegularExpressions.Regex.Matches(styles, "<x:dxf><x:numFmt numFmtId=\"([0-9]+)\" formatCode=\"([^\"]+)\"").Select(m => m.Groups[2].Value)];
        var rules = System.Text.RegularExpressions.Regex.Matches(sheet, $"dxfId=\"([0-9]+)\" priority=\"([0-9]+)\"[^>]*><x:formula>MOD[(]ROUND[(]{letter}4[*]16,0[)],([0-9]+)[)]=0</x:formula>")
            .Select(m => (Format: formats[int.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture)], Priority: int.Parse(m.Groups[2].Value, CultureInfo.InvariantCulture), Of: int.Parse(m.Groups[3].Value, CultureInfo.InvariantCulture)))
            .OrderBy(r => r.Priority).ToList();
        Assert.Equal(3, rules.Count);
        foreach (var (sixteenths, expected) in new[] { (8, "# ?/2"), (24, "# ?/2"), (4, "# ?/4"), (12, "# ?/4"), (6, "# ?/8"), (14, "# ?/8"), (7, ""), (15, "") })
            Assert.Equal(expected, rules.Find(r => sixteenths % r.Of == 0).Format ?? "");
        // No format of a condition has the number of a cell's.
        string[] numbers = [.. System.Text.RegularExpressions.Regex.Matches(styles, "numFmtId=\"([0-9]+)\" formatCode").Select(m => m.Groups[1].Value)];
        Assert.Equal(numbers.Length, numbers.Distinct().Count());
    }

    [Fact]
    public void EverySheetIsSetUpForReadingAndPrint()
    {
        using var book = Open(Made.Bytes!);
        foreach (var page in book.Worksheets)
        {
            Assert.True(page.PageSetup.PagesWide == 1 || page.PageSetup.Scale == PrintLayout.Most);
            Assert.Contains("DRAFT", page.PageSetup.Header.Center.GetText(XLHFOccurrence.OddPages));
            Assert.Equal($"Sample && Son, revision C, values {Sample.ValuesHash}", page.PageSetup.Footer.Left.GetText(XLHFOccurrence.OddPages));
        }
        string sheet = Part(Made.Bytes!, "xl/worksheets/sheet3.xml");
        Assert.Contains("ySplit=\"3\"", sheet);
        Assert.Contains("<x:autoFilter ref=\"A3:M7\"", sheet);
        string names = Part(Made.Bytes!, "xl/workbook.xml");
        Assert.Contains("'What to buy'!$3:$3<", names);
        Assert.Contains("<x:definedName name=\"buy_cost\">'What to buy'!$J$4:$J$7</x:definedName>", names);
        Assert.Contains("fullCalcOnLoad=\"1\"", names);
        Assert.Equal("DRAFT: errors stand. Do not build from it.", book.Worksheet(1).Cell(3, 1).GetString());
    }

    /// <summary>At 7 points a lying page shows some 156 digits side by side and an upright one some 108, measured in LibreOffice: a table is no wider, or goes on over pages that are not, each with the column of its marks.</summary>
    [Fact]
    public void EveryTableOfTheDemoIsReadableOnPaper()
    {
        var design = Drawing.Panels.Samples.Heron;
        var report = ReportBuilder.Of(design.Takeoff, design.Frames, design.Figures, [], design.Engineering.Tables);
        var sheets = WorkbookPlan.Of(report).Sheets.Where(s => s.Table is not null).ToList();
        byte[] bytes = Workbook.Make(report).Bytes!;
        using var book = Open(bytes);
        int beside = 0;
        foreach (var sheet in sheets)
        {
            var (page, print) = (book.Worksheet(sheet.Name), sheet.Print!);
            int columns = PrintLayout.Printed(sheet.Table!);
            double Wide(int from, int to) => Enumerable.Range(from, to - from).Sum(i => page.Column(i + 1).Width);
            if (print.Breaks.IsEmpty)
            {
                Assert.True(page.PageSetup.PagesWide == 1 || page.PageSetup.Scale == PrintLayout.Most);
                // At 9 points there is room for 7/9 as many digits.
                double room = (page.PageSetup.PageOrientation == XLPageOrientation.Portrait ? PrintLayout.UprightWidth : PrintLayout.PageWidth) * (page.PageSetup.PagesWide == 1 ? 1 : (double)PrintLayout.Least / PrintLayout.Most);
                Assert.InRange(Wide(0, columns), 1, room + 0.5 + columns);
                continue;
            }
            beside++;
            Assert.Equal(print.Breaks.ToArray(), page.PageSetup.ColumnBreaks.Order().ToArray());
            Assert.InRange(page.PageSetup.Scale, 64, 100);
            int[] ends = [0, .. print.Breaks, columns];
            for (int i = 0; i + 1 < ends.Length; i++) Assert.InRange(Wide(ends[i], ends[i + 1]) + (i == 0 ? 0 : Wide(0, 1)), 1, 143.5 + columns);
        }
        Assert.True(beside > 0, "no table of the demo is wider than a page");
        // The column of the marks is repeated: in a defined name (ECMA-376 part 1, 18.2.6), whose references are absolute.
        Assert.Contains("Buy!$A:$A,Buy!$3:$3<", Part(bytes, "xl/workbook.xml"));
        // What is not printed lies beside the print area; a mark in the joints is never broken.
        Assert.Contains("Layers!$A$1:$J$", Part(bytes, "xl/workbook.xml"));
        var joints = sheets.Single(s => s.Name == "Joints");
        Assert.All(joints.Table!.Rows, r => Assert.True(SheetFormat.Lines(r.Key, (int)joints.Print!.Widths[0]) == 1, r.Key));
    }

    [Fact]
    public void AnEmptyTableSaysSo()
    {
        var empty = new Table("vents", "Vents", [new("vent", "Vent"), new("width", "Width", ColumnKind.Number)], []) { Note = "As cut." };
        using var book = Open(Workbook.Make(Sample with { Tables = Sample.Tables.Add(empty) }).Bytes!);
        Assert.Equal("There are none. As cut.", book.Worksheet("Vents").Cell(2, 1).GetString());
    }

    [Fact]
    public void ABuildersEntriesFollowTheirPart()
    {
        byte[] edited = Edited(Made.Bytes!, book =>
        {
            var page = book.Worksheet("What to buy");
            page.Cell(4, 8).SetValue(2);
            page.Cell(4, 13).SetValue("on the shelf");
            page.Cell(5, 13).SetValue("sold out");
            page.Cell(6, 13).FormulaA1 = "3*4";
            });
        var other = Sample.With("buy", t => t with { Rows = t.Rows.RemoveAt(1).Reverse().ToArray() is var rows ? [.. rows] : [] });
        other = other.With("totals", t => t with { Rows = t.Rows.RemoveAt(0) });
        var result = Workbook.Make(other, edited);
        Assert.Null(result.Error);
        using (var book = Open(result.Bytes!))
        {
            var page = book.Worksheet("What to buy");
            Assert.Equal("ply_6mm", page.Cell(6, 1).GetString());
            Assert.Equal(2, page.Cell(6, 8).GetDouble());
            Assert.Equal("on the shelf", page.Cell(6, 13).GetString());
            Assert.Equal("1", Convert.ToString(page.Cell(6, 9).CachedValue, CultureInfo.InvariantCulture)); // 80.43 sq ft are 3 packs of 32; 2 are owned
            Assert.Equal("sold out", book.Worksheet("Kept notes").Cell(4, 5).GetString());
        }
        Assert.Contains(result.Notices, notice => notice.Message.Contains("mar1"));
        // Built again on its own output nothing moves, and what was kept goes back when the part returns.
        Assert.Equal(result.Bytes, Workbook.Make(other, result.Bytes).Bytes);
        using (var back = Open(Workbook.Make(Sample, result.Bytes).Bytes!))
        {
            Assert.Equal("sold out", back.Worksheet("What to buy").Cell(5, 13).GetString());
            Assert.False(back.Worksheets.Contains("Kept notes"));
        }
    }

    [Fact]
    public void ABrokenEarlierWorkbookIsRefusedSinceItsNotesWouldBeLost()
    {
        var result = Workbook.Make(Sample, [1, 2, 3]);
        Assert.Null(result.Bytes);
        Assert.Contains("notes in it would be lost", result.Error);
    }

    [Fact]
    public void OnlyChangesOutsideTheBuildersColumnsAreEdits()
    {
        byte[] noted = Edited(Made.Bytes!, book =>
        {
            book.Worksheet("What to buy").Cell(4, 8).SetValue(1);
            book.Worksheet("What to buy").Cell(5, 13).SetValue("note");
            book.Worksheet("What to buy").Column(2).Width = 60;
        });
        Assert.NotEqual(Made.Bytes, noted);
        Assert.Equal(WorkbookText.Essence(Made.Bytes!), WorkbookText.Essence(noted));
        Assert.Empty(WorkbookText.Edits(Made.Bytes!, noted, Sample));

        byte[] priced = Edited(Made.Bytes!, book => book.Worksheet("What to buy").Cell(4, 6).SetValue(39.95));
        Assert.NotEqual(WorkbookText.Essence(Made.Bytes!), WorkbookText.Essence(priced));
        var edit = Assert.Single(WorkbookText.Edits(Made.Bytes!, priced, Sample));
        Assert.Contains("41.25", edit.Was);
        Assert.Contains("39.95", edit.Now);
        Assert.Equal("sample.wain:3:17", Assert.Single(edit.Places).ToString());

        byte[] frozen = Edited(Made.Bytes!, book => book.Worksheet("What to buy").Cell(4, 10).SetValue(99));
        Assert.Contains("=[Packs]*[Price (USD)]", Assert.Single(WorkbookText.Edits(Made.Bytes!, frozen, Sample)).Was);
    }

    /// <summary>A spreadsheet program that saves a workbook writes the name of a sheet without the quotes that it doesn't need: no one has edited it for that.</summary>
    [Fact]
    public void NamesOfSheetsWithoutNeedlessQuotesAreNoEdits()
    {
        var report = Sample.With("buy", t => t with { Title = "Buy" });
        byte[] written = Workbook.Make(report).Bytes!;
        int unquoted = 0;
        byte[] saved = Edited(written, book =>
        {
            foreach (var cell in book.Worksheets.SelectMany(sheet => sheet.CellsUsed(c => c.HasFormula && c.FormulaA1.Contains("'Buy'!", StringComparison.Ordinal))))
            {
                cell.FormulaA1 = cell.FormulaA1.Replace("'Buy'!", "Buy!", StringComparison.Ordinal);
                unquoted++;
            }
        });
        Assert.True(unquoted > 0);
        Assert.Equal(WorkbookText.Essence(written), WorkbookText.Essence(saved));
        Assert.Empty(WorkbookText.Edits(written, saved, report));
    }

    [Fact]
    public void TheTextFormReadFromTheFileIsTheOneWrittenBeside()
    {
        Assert.Equal(Made.Text, WorkbookText.Of(Made.Bytes!));
        Assert.Equal(Made.Essence, WorkbookText.Essence(Made.Bytes!));
    }

    [Fact]
    public void ANewRowIsOneNewLineOfTheTextForm()
    {
        var more = Sample.With("layers", t => t with { Rows = t.Rows.Insert(0, new("extra", ["extra", "glass", 1])) });
        var before = Made.Text!.Split('\n');
        var after = Workbook.Make(more with { ValuesHash = Sample.ValuesHash }).Text!.Split('\n');
        Assert.Equal(["extra | glass | 1"], after.Except(before).Where(line => !line.StartsWith("Total", StringComparison.Ordinal)));
    }

    // A cell holds 32,767 characters, a sheet 1,048,576 rows (ECMA-376 part 1, 18.3.1.73 and the published limits of spreadsheet programs).
    [Fact]
    public void ATextTooLongForACellIsCutAndTold()
    {
        var result = Workbook.Make(Sample.With("layers", t => t with { Rows = t.Rows.Add(new("long", ["long", new string('x', 40_000), 1])) }));
        using var book = Open(result.Bytes!);
        Assert.Equal(32_767, book.Worksheet("Layers").Cell(9, 2).GetString().Length);
        Assert.Contains(result.Notices, notice => notice.Message.Contains("40,000 characters was cut") && notice.Message.Contains("long, Material"));
    }

    [Fact]
    public void TooManyRowsAreRefused()
    {
        var row = new Row("a", ["a", "b", 1]);
        var result = Workbook.Make(Sample.With("layers", t => t with { Rows = [.. Enumerable.Repeat(row, 1_048_573)] }));
        Assert.Null(result.Bytes);
        Assert.Contains("1,048,576", result.Error);
    }

    // Rules of sheet names: 31 characters, none of : \ / ? * [ ], no apostrophe at either end, "History" kept back, unique without case.
    [Theory]
    [InlineData("a:b\\c/d?e*f[g]", "a-b-c-d-e-f-g-")]
    [InlineData("'quoted'", "quoted")]
    [InlineData("history", "history list")]
    [InlineData("", "Sheet")]
    [InlineData("taken", "taken (2)")]
    [InlineData("1234567890123456789012345678901234567890", "1234567890123456789012345678901")]
    public void SheetNamesFollowTheRules(string title, string expected) => Assert.Equal(expected, SheetText.SheetName(title, new HashSet<string> { "TAKEN" }));

    [Fact]
    public void EveryPartIsWellFormedAndNothingTellsOfTheMachine()
    {
        using var zip = new ZipArchive(new MemoryStream(Made.Bytes!));
        Assert.Equal("[Content_Types].xml", zip.Entries[0].FullName);
        foreach (var entry in zip.Entries)
        {
            Assert.Equal(new DateTime(1980, 1, 1), entry.LastWriteTime.DateTime);
            using var stream = entry.Open();
            string text = XDocument.Load(stream).ToString();
            Assert.DoesNotContain(Environment.UserName + "@", text);
            Assert.DoesNotContain(DateTime.UtcNow.Year.ToString(CultureInfo.InvariantCulture) + "-" + DateTime.UtcNow.Month.ToString("00", CultureInfo.InvariantCulture) + "-", text);
        }
    }

    private static byte[] Edited(byte[] workbook, Action<XLWorkbook> edit)
    {
        using var book = Open(workbook);
        edit(book);
        using var stream = new MemoryStream();
        book.SaveAs(stream);
        return stream.ToArray();
    }
}
