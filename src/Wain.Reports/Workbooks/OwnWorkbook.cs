using System.Collections.Immutable;
using System.Globalization;
using System.IO.Compression;
using System.Xml;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>
/// Reads a workbook that no other program has saved since this one wrote it. Every build reads the one before it for the builder's entries, and mostly
/// there are none: so what is in a known form is read as it stands, in a tenth of the time that the package takes, which reads what others saved.
/// </summary>
internal static class OwnWorkbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

    /// <summary>Null for any workbook that is not byte for byte in the form that <see cref="Package"/> writes, and for one that can't be read.</summary>
    public static WorkbookPlan? Read(byte[] workbook)
    {
        try
        {
            using var zip = new ZipArchive(new MemoryStream(workbook, writable: false), ZipArchiveMode.Read);
            if (!zip.Entries.All(Package.IsOwn) || zip.GetEntry(Package.ApplicationPart) is not { } about || TextOf(about) != Package.Application) return null;
            var texts = SharedTexts(zip);
            var dates = DateStyles(zip);
            var names = Names(zip);
            return new([.. names.Select((name, i) => Sheet(zip, i, name, texts, dates))], []);
        }
        catch (Exception fault) when (fault is InvalidDataException or XmlException or FormatException or IndexOutOfRangeException or ArgumentException or OverflowException)
        {
            return null;
        }
    }

    private static string TextOf(ZipArchiveEntry entry)
    {
        using var reader = new StreamReader(entry.Open());
        return reader.ReadToEnd();
    }

    private static XmlReader Open(ZipArchive zip, string part) =>
        XmlReader.Create((zip.GetEntry(part) ?? throw new InvalidDataException(part)).Open(), new XmlReaderSettings { CloseInput = true, DtdProcessing = DtdProcessing.Prohibit });

    private static bool IsStart(XmlReader xml, string name) => xml.NodeType == XmlNodeType.Element && xml.LocalName == name && xml.NamespaceURI == Main;

    private static List<string> Names(ZipArchive zip)
    {
        var names = new List<string>();
        using var xml = Open(zip, "xl/workbook.xml");
        while (xml.Read()) if (IsStart(xml, "sheet")) names.Add(xml.GetAttribute("name")!);
        return names;
    }

    private static List<string> SharedTexts(ZipArchive zip)
    {
        var texts = new List<string>();
        using var xml = Open(zip, "xl/sharedStrings.xml");
        while (xml.Read())
        {
            if (IsStart(xml, "si")) texts.Add("");
            // Characters written as their code, and runs of their own look, are left to the package.
            else if (IsStart(xml, "r")) throw new InvalidDataException("rich text");
            else if (xml.NodeType is XmlNodeType.Text or XmlNodeType.Whitespace or XmlNodeType.SignificantWhitespace && texts.Count > 0 && xml.Depth > 2)
            {
                texts[^1] += xml.Value;
                if (xml.Value.Contains("_x", StringComparison.Ordinal)) throw new InvalidDataException("a character by its code");
            }
        }
        return texts;
    }

    /// <summary>The numbers of the cell styles that show a day.</summary>
    private static HashSet<int> DateStyles(ZipArchive zip)
    {
        string day = SheetFormat.Of(new NumberStyle.Date());
        var formats = new HashSet<string>(StringComparer.Ordinal);
        var styles = new HashSet<int>();
        using var xml = Open(zip, "xl/styles.xml");
        int index = -1;
        while (xml.Read())
        {
            if (IsStart(xml, "numFmt") && xml.GetAttribute("formatCode") == day) formats.Add(xml.GetAttribute("numFmtId")!);
            else if (xml.LocalName == "cellXfs") index = xml.NodeType == XmlNodeType.Element ? 0 : -1;
            else if (index >= 0 && IsStart(xml, "xf") && formats.Contains(xml.GetAttribute("numFmtId") ?? "")) styles.Add(index++);
            else if (index >= 0 && IsStart(xml, "xf")) index++;
        }
        return styles;
    }

    private static SheetPlan Sheet(ZipArchive zip, int index, string name, List<string> texts, HashSet<int> dates)
    {
        var rows = new List<ImmutableArray<SheetCell>>();
        var cells = ImmutableArray.CreateBuilder<SheetCell>();
        using var xml = Open(zip, $"xl/worksheets/sheet{(index + 1).ToString(CultureInfo.InvariantCulture)}.xml");
        string address = "", type = "", formula = "", value = "";
        bool live = false;
        int style = 0;
        while (xml.Read())
        {
            if (IsStart(xml, "c"))
            {
                (address, type, style, formula, value, live) = (xml.GetAttribute("r")!, xml.GetAttribute("t") ?? "n", int.Parse(xml.GetAttribute("s") ?? "0", CultureInfo.InvariantCulture), "", "", false);
                if (type is not ("n" or "s" or "str" or "e")) throw new InvalidDataException(type);
            }
            else if (IsStart(xml, "f")) (formula, live) = (Inner(xml), true);
            else if (IsStart(xml, "v"))
            {
                value = Inner(xml);
                // What is computed has its formula before its figure; either way the cell is complete here.
                var (row, column) = Place(address);
                while (rows.Count < row - 1) Close();
                while (cells.Count < column - 1) cells.Add(new(CellValue.Blank));
                cells.Add(live ? new(WorkbookReader.Cached(value), formula.TrimStart('=')) : new(type switch
                {
                    "s" => CellValue.Of(texts[int.Parse(value, CultureInfo.InvariantCulture)].ReplaceLineEndings("\n")),
                    "n" => CellValue.Of(double.Parse(value, CultureInfo.InvariantCulture)),
                    _ => CellValue.Of(value),
                }, IsDate: type == "n" && dates.Contains(style)));
            }
        }
        if (cells.Count > 0) Close();
        return new(name, [.. rows]) { IsTable = index > 0 };

        void Close()
        {
            rows.Add(cells.ToImmutable());
            cells.Clear();
        }
    }

    // The reader is left on the last piece of the text, so that the next step goes on from there.
    private static string Inner(XmlReader xml)
    {
        if (xml.IsEmptyElement) return "";
        string text = "";
        int depth = xml.Depth;
        while (xml.Read() && xml.Depth > depth) text += xml.Value;
        return text;
    }

    private static (int Row, int Column) Place(string address)
    {
        int at = 0, column = 0;
        while (at < address.Length && char.IsAsciiLetterUpper(address[at])) column = column * 26 + address[at++] - 'A' + 1;
        return (int.Parse(address.AsSpan(at), CultureInfo.InvariantCulture), column);
    }
}
