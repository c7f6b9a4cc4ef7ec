using System.Globalization;
using ClosedXML.Excel;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>A laid-out workbook as the bytes of an xlsx file.</summary>
internal static class WorkbookFile
{
    public static byte[] Write(Report report, WorkbookPlan plan)
    {
        using var book = new XLWorkbook { FullCalculationOnLoad = true };
        foreach (var sheet in plan.Sheets)
        {
            var page = book.Worksheets.Add(sheet.Name);
            // Columns are dressed while they are empty, each in one go; what a cell asks for itself comes on top.
            if (sheet.Table is { } columns) DressColumns(page, sheet, columns);
            Fill(page, sheet);
            if (sheet.Table is { } table) DressTable(book, page, sheet, table);
            else DressFirst(page, sheet);
            SetUpPrint(page, report, sheet);
        }
        using var raw = new MemoryStream();
        // The cached values are the program's own figures, put in afterwards, so the package need not evaluate anything.
        book.SaveAs(raw, new SaveOptions { EvaluateFormulasBeforeSaving = false, GenerateCalculationChain = false, ValidatePackage = false });
        return Package.Normalised(raw, report, plan);
    }

    private static void Fill(IXLWorksheet page, SheetPlan sheet)
    {
        for (int row = 1; row <= sheet.Rows.Length; row++)
        {
            var cells = sheet.Rows[row - 1];
            for (int column = 1; column <= cells.Length; column++) Fill(page, row, column, cells[column - 1]);
        }
    }

    private static void Fill(IXLWorksheet page, int row, int column, SheetCell source)
    {
        if (source.Formula is null && source.Value.Kind == CellValueKind.Blank) return;
        var cell = page.Cell(row, column);
        if (source.Formula is { } formula) cell.FormulaA1 = formula;
        else if (source.Value.Kind == CellValueKind.Number) cell.SetValue(source.Value.Number);
        else
        {
            string text = source.Value.Text;
            cell.SetValue(text);
            cell.DataType = XLDataType.Text;
            // The mark keeps it text even after a person opens the cell and presses Enter.
            if (text[0] is '=' or '+' or '-' or '@' or '\'' or '\t') cell.Style.IncludeQuotePrefix = true;
        }
        if (source.Style is { } own && SheetFormat.Of(own) is { Length: > 0 } format) cell.Style.NumberFormat.Format = format;
        if (source.IsDate) cell.Style.NumberFormat.Format = SheetFormat.Of(new NumberStyle.Date());
    }

    private static void DressColumns(IXLWorksheet page, SheetPlan sheet, Table table)
    {
        for (int i = 0; i < table.Columns.Length; i++)
        {
            var column = table.Columns[i];
            var style = XLWorkbook.DefaultStyle;
            if (SheetFormat.Of(column.NumberStyle) is { Length: > 0 } format && !sheet.Rows.Any(row => row.Length > i && row[i].IsDate)) style.NumberFormat.Format = format;
            style.Alignment.SetVertical(XLAlignmentVerticalValues.Top);
            // What is not printed has one line a row, so that it takes no room on paper.
            if (column is { Kind: ColumnKind.Text or ColumnKind.Builder, Printed: true }) style.Alignment.SetWrapText();
            // A step in from the figures of the column before, which stand against its right edge.
            if (column.Kind is ColumnKind.Text or ColumnKind.Builder && i > 0) style.Alignment.SetIndent(1);
            page.Range(sheet.FirstDataRow, i + 1, sheet.TotalsRow, i + 1).Style = style;
        }
    }

    // Of a title's letters to those of the rows, bold.
    private const double TitleSize = 1.45;

    private static void DressTable(XLWorkbook book, IXLWorksheet page, SheetPlan sheet, Table table)
    {
        int last = table.Columns.Length;
        page.Cell(1, 1).Style.Font.SetBold().Font.SetFontSize(14);
        page.Row(1).Height = SheetFormat.LineHeight * 1.5 * TitleLines(page, sheet);
        DressNote(page, sheet, table);
        var head = page.Range(SheetPlan.HeadRow, 1, SheetPlan.HeadRow, last);
        // The filters' buttons stand at the bottom of the headings, where a line is left for them.
        head.Style.Font.SetBold().Alignment.SetWrapText().Alignment.SetVertical(XLAlignmentVerticalValues.Top);
        head.Style.Border.SetBottomBorder(XLBorderStyleValues.Medium);
        for (int i = 0; i < last; i++)
        {
            var column = table.Columns[i];
            page.Column(i + 1).Width = sheet.Print!.Widths[i];
            if (column.Kind is ColumnKind.Number or ColumnKind.Money or ColumnKind.Date) page.Cell(SheetPlan.HeadRow, i + 1).Style.Alignment.SetHorizontal(XLAlignmentHorizontalValues.Right);
            if (column.Kind is ColumnKind.Text or ColumnKind.Builder && i > 0) page.Cell(SheetPlan.HeadRow, i + 1).Style.Alignment.SetIndent(1);
            if (column.Kind == ColumnKind.Builder) page.Range(SheetPlan.HeadRow, i + 1, sheet.LastDataRow, i + 1).Style.Fill.SetBackgroundColor(XLColor.FromArgb(255, 248, 220));
            book.NamedRanges.Add(FormulaText.ColumnName(table.Key, column.Key), page.Range(sheet.FirstDataRow, i + 1, sheet.LastDataRow, i + 1));
        }
        if (table.Totals is not null)
        {
            var totals = page.Range(sheet.TotalsRow, 1, sheet.TotalsRow, last);
            totals.Style.Font.SetBold().Border.SetTopBorder(XLBorderStyleValues.Thin);
        }
        ReduceFractions(page, sheet, table);
        SetHeights(page, sheet, table);
        page.SheetView.FreezeRows(SheetPlan.HeadRow);
        page.SheetView.FreezeColumns(1);
        page.Range(SheetPlan.HeadRow, 1, sheet.LastDataRow, last).SetAutoFilter();
        page.PageSetup.SetRowsToRepeatAtTop(SheetPlan.HeadRow, SheetPlan.HeadRow);
        if (PrintLayout.Printed(table) is var printed && printed < last) page.PageSetup.PrintAreas.Add(1, 1, table.Totals is null ? sheet.LastDataRow : sheet.TotalsRow, printed);
    }

    // On the pages beside the first a title is seen as far as the first column goes, which stands on each of them: there it wraps.
    private static int TitleLines(IXLWorksheet page, SheetPlan sheet)
    {
        if (sheet.Print!.Breaks.IsEmpty) return 1;
        page.Cell(1, 1).Style.Alignment.SetWrapText().Alignment.SetVertical(XLAlignmentVerticalValues.Top);
        return SheetFormat.Lines(sheet.Rows[0][0].Value.Text, (int)(sheet.Print.Widths[0] / TitleSize));
    }

    // Over the width of the first page and no wider: a long line would shrink all of it.
    private static void DressNote(IXLWorksheet page, SheetPlan sheet, Table table)
    {
        if (sheet.Rows[1].IsEmpty) return;
        int first = sheet.Rows[1].Length, last = sheet.Print!.Breaks.IsEmpty ? PrintLayout.Printed(table) : sheet.Print.Breaks[0];
        var note = page.Range(2, first, 2, last);
        if (last > first) note.Merge();
        note.Style.Font.SetItalic().Alignment.SetWrapText().Alignment.SetVertical(XLAlignmentVerticalValues.Top);
        page.Row(2).Height = SheetFormat.LineHeight * SheetFormat.Lines(sheet.Rows[1][^1].Value.Text, sheet.Print.Widths.Take(last).Skip(first - 1).Sum(w => (int)w));
    }

    // A number format has one denominator, or any: 6/16 for 3/8, or 5/29 where the tape has none. So the figure's own format is the finest of the tape, and a
    // condition shows what lies on a coarser line of it by that one. A program without such conditions still shows 6/16, which is no error.
    private static void ReduceFractions(IXLWorksheet page, SheetPlan sheet, Table table)
    {
        for (int i = 0; i < table.Columns.Length; i++)
        {
            if (table.Columns[i].NumberStyle is not NumberStyle.Fraction tape) continue;
            var cells = page.Range(sheet.FirstDataRow, i + 1, sheet.TotalsRow, i + 1);
            string first = FormulaText.Letters(i + 1) + sheet.FirstDataRow.ToString(CultureInfo.InvariantCulture);
            for (int denominator = 2; denominator < tape.Denominator; denominator *= 2)
            {
                var condition = cells.AddConditionalFormat();
                condition.SetStopIfTrue();
                condition.WhenIsTrue(FormattableString.Invariant($"MOD(ROUND({first}*{tape.Denominator},0),{tape.Denominator / denominator})=0")).NumberFormat.Format = SheetFormat.Of(new NumberStyle.Fraction(denominator));
            }
        }
    }

    // A file holds the heights of wrapped rows; not every program works them out when it opens one.
    private static void SetHeights(IXLWorksheet page, SheetPlan sheet, Table table)
    {
        int[] widths = [.. sheet.Print!.Widths.Select(w => (int)w)];
        for (int row = SheetPlan.HeadRow; row <= sheet.Rows.Length; row++)
        {
            var cells = sheet.Rows[row - 1];
            int lines = 1;
            for (int i = 0; i < cells.Length; i++)
            {
                if (cells[i].Value.Kind == CellValueKind.Text && (table.Columns[i].Printed || row == SheetPlan.HeadRow)) lines = Math.Max(lines, SheetFormat.Lines(cells[i].Value.Text, widths[i] - (row == SheetPlan.HeadRow ? 0 : 1)));
            }
            if (row == SheetPlan.HeadRow) lines++;
            if (lines > 1) page.Row(row).Height = SheetFormat.LineHeight * lines;
        }
    }

    private static readonly int[] FirstSheetWidths = [11, 9, 26, 52, 36, 20];

    private static void DressFirst(IXLWorksheet page, SheetPlan sheet)
    {
        int wide = FirstSheetWidths.Sum();
        for (int i = 0; i < FirstSheetWidths.Length; i++) page.Column(i + 1).Width = FirstSheetWidths[i];
        page.Cell(1, 1).Style.Font.SetBold().Font.SetFontSize(18);
        page.Row(1).Height = SheetFormat.LineHeight * 2;
        for (int row = 1; row <= sheet.Rows.Length; row++)
        {
            var cells = sheet.Rows[row - 1];
            if (cells.IsEmpty) continue;
            string first = cells[0].Value.Text;
            var line = page.Range(row, 1, row, FirstSheetWidths.Length);
            line.Style.Alignment.SetVertical(XLAlignmentVerticalValues.Top);
            if (cells.Length == FirstSheetWidths.Length)
            {
                line.Style.Alignment.SetWrapText();
                page.Range(row, 2, row, cells.Length).Style.Alignment.SetIndent(1);
                int lines = 1;
                for (int i = 0; i < cells.Length; i++) lines = Math.Max(lines, SheetFormat.Lines(cells[i].Value.Text, FirstSheetWidths[i] - (i == 0 ? 0 : 1)));
                page.Row(row).Height = SheetFormat.LineHeight * lines;
                if (first == "Level") line.Style.Font.SetBold().Border.SetBottomBorder(XLBorderStyleValues.Medium);
            }
            else if (cells.Length == 1 && row > 1)
            {
                line.Merge();
                line.Style.Alignment.SetWrapText();
                page.Row(row).Height = SheetFormat.LineHeight * SheetFormat.Lines(first, wide);
                if (first is WorkbookPlan.CautionsHeading or WorkbookPlan.FindingsHeading || first.StartsWith("DRAFT", StringComparison.Ordinal)) line.Style.Font.SetBold();
            }
        }
    }

    private static void SetUpPrint(IXLWorksheet page, Report report, SheetPlan sheet)
    {
        var setup = page.PageSetup;
        setup.PaperSize = report.Paper == Paper.A4 ? XLPaperSize.A4Paper : XLPaperSize.LetterPaper;
        setup.PageOrientation = sheet.Print is { Upright: true } ? XLPageOrientation.Portrait : XLPageOrientation.Landscape;
        if (sheet.Print is { Breaks.IsEmpty: false } print)
        {
            setup.Scale = print.Scale;
            foreach (int column in print.Breaks) setup.AddVerticalPageBreak(column);
            setup.SetColumnsToRepeatAtLeft(1, 1);
            setup.PageOrder = XLPageOrderValues.OverThenDown;
        }
        else if (sheet.Print is { Scale: > 0 } narrow) setup.Scale = narrow.Scale;
        else setup.FitToPages(1, 0);
        setup.Margins.SetLeft(0.5).SetRight(0.5).SetTop(0.6).SetBottom(0.7).SetHeader(0.3).SetFooter(0.3);
        setup.Footer.Left.AddText(Shown($"{report.Title}, revision {report.Revision}, values {report.ValuesHash}"));
        setup.Footer.Center.AddText(Shown(sheet.Name));
        setup.Footer.Right.AddText("&P / &N");
        if (report.IsDraft) setup.Header.Center.AddText("DRAFT");
    }

    // In a header or footer & begins a code (ECMA-376 part 1, 18.3.1.39) and the whole holds 255 characters.
    private static string Shown(string text) => SheetText.ForCell(text.Length > 70 ? text[..70] : text, out _, out _).Replace("\n", " ").Replace("&", "&&");
}
