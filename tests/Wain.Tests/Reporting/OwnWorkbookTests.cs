using System.IO.Compression;
using ClosedXML.Excel;
using Wain.Core.Reporting;
using Wain.Reports.Workbooks;

namespace Wain.Tests.Reporting;

/// <summary>The quick reader of the program's own workbooks, against the package's as the referee.</summary>
public class OwnWorkbookTests
{
    // All of it but a text that looks like the code of a character.
    private static readonly Report Plain = SampleReport.Make() is var report ? report with { Tables = [.. report.Tables.Select(t => t with { Rows = [.. t.Rows.Where(r => !r.Cells.Any(c => c is Cell.Words { Value: "_x0041_" }))] })] } : null!;

    private static byte[] WithEntries()
    {
        using var book = new XLWorkbook(new MemoryStream(Workbook.Make(Plain).Bytes!));
        var page = book.Worksheet("What to buy");
        page.Cell(4, 8).SetValue(2.5);
        page.Cell(4, 13).SetValue("  two blanks before\nand a second line ");
        page.Cell(5, 8).SetValue(new DateTime(2026, 5, 2));
        page.Cell(5, 13).SetValue("0815");
        page.Cell(6, 13).FormulaA1 = "3*4";
        page.Cell(7, 8).SetValue(true);
        using var saved = new MemoryStream();
        book.SaveAs(saved);
        // Carried over, so that the program itself wrote them.
        return Workbook.Make(Plain, saved.ToArray()).Bytes!;
    }

    public static TheoryData<string> Workbooks => [.. new[] { "sample", "entries" }.Concat(Directory.GetFiles(Path.Combine(Repository.Root, "output"), "*.xlsx", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(Repository.Root, f)))];

    [Theory]
    [MemberData(nameof(Workbooks))]
    public void ReadsWhatThePackageReads(string workbook)
    {
        byte[] bytes = workbook switch { "sample" => Workbook.Make(Plain).Bytes!, "entries" => WithEntries(), _ => File.ReadAllBytes(Path.Combine(Repository.Root, workbook)) };
        var own = OwnWorkbook.Read(bytes);
        var any = WorkbookReader.ReadAny(bytes);
        Assert.NotNull(own);
        Assert.Equal(any.Sheets.Select(s => (s.Name, s.IsTable, s.Rows.Length)), own.Sheets.Select(s => (s.Name, s.IsTable, s.Rows.Length)));
        foreach (var (sheet, other) in any.Sheets.Zip(own.Sheets))
            for (int row = 0; row < sheet.Rows.Length; row++)
                Assert.True(sheet.Rows[row].SequenceEqual(other.Rows[row]), $"{sheet.Name}, row {row + 1}: {string.Join(" | ", sheet.Rows[row])} and {string.Join(" | ", other.Rows[row])}");
    }

    [Fact]
    public void LeavesToThePackageWhatIsNotAsItWasWritten()
    {
        byte[] written = WithEntries();
        Assert.Null(OwnWorkbook.Read([]));
        Assert.Null(OwnWorkbook.Read(written[..(written.Length / 2)]));
        // Packed, as every other program saves.
        Assert.Null(OwnWorkbook.Read(Changed(written, (_, text) => text, CompressionLevel.Fastest)));
        Assert.Null(OwnWorkbook.Read(Changed(written, (name, text) => name == "docProps/app.xml" ? text.Replace("Wain", "Other") : text, CompressionLevel.NoCompression)));
        // A code in place of a character, which only the package turns back.
        Assert.Null(OwnWorkbook.Read(Workbook.Make(SampleReport.Make()).Bytes!));
        Assert.Null(OwnWorkbook.Read(Changed(written, (name, text) => name == "xl/worksheets/sheet2.xml" ? text[..(text.Length / 2)] : text, CompressionLevel.NoCompression)));
        Assert.NotNull(OwnWorkbook.Read(Changed(written, (_, text) => text, CompressionLevel.NoCompression)));
    }

    private static byte[] Changed(byte[] workbook, Func<string, string, string> change, CompressionLevel level)
    {
        using var bytes = new MemoryStream();
        using (var source = new ZipArchive(new MemoryStream(workbook)))
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
            foreach (var entry in source.Entries)
            {
                using var reader = new StreamReader(entry.Open());
                var copy = zip.CreateEntry(entry.FullName, level);
                copy.LastWriteTime = entry.LastWriteTime;
                using var writer = new StreamWriter(copy.Open());
                writer.Write(change(entry.FullName, reader.ReadToEnd()));
            }
        return bytes.ToArray();
    }
}
