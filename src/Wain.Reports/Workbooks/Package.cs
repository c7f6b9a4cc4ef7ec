using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>
/// Makes two saves of the same workbook the same bytes, and stores the program's figures as cached values. A save differs from the next in its zip
/// times, in the name and the dates of its properties part and in random relationship ids; nothing else.
/// </summary>
internal static partial class Package
{
    private const string Properties = "docProps/core.psmdcp";

    // The first moment that a zip entry can hold.
    private static readonly DateTimeOffset FixedTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>True for an entry of a package as it is written here: not packed, and of no time. Other programs pack what they save and date it.</summary>
    public static bool IsOwn(ZipArchiveEntry entry) => entry.CompressedLength == entry.Length && entry.LastWriteTime.DateTime == FixedTime.DateTime;

    public static byte[] Normalised(MemoryStream raw, Report report, WorkbookPlan plan)
    {
        using var source = new ZipArchive(raw, ZipArchiveMode.Read, leaveOpen: true);
        var parts = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var entry in source.Entries)
        {
            using var reader = new StreamReader(entry.Open(), Encoding.UTF8);
            bool isProperties = entry.FullName.EndsWith(".psmdcp", StringComparison.Ordinal);
            parts[isProperties ? Properties : entry.FullName] = isProperties ? PropertiesOf(report) : reader.ReadToEnd();
        }
        parts["_rels/.rels"] = Relationships;
        parts[ApplicationPart] = Application;
        parts["xl/workbook.xml"] = WholeColumns().Replace(WholeRows().Replace(parts["xl/workbook.xml"], "!$$$1:$$$2<"), "!$$$1:$$$2,");
        parts["xl/styles.xml"] = ConditionFormat().Replace(parts["xl/styles.xml"], match => "<x:dxf><x:numFmt numFmtId=\"" + (FirstConditionFormat + int.Parse(match.Groups[1].ValueSpan, CultureInfo.InvariantCulture)).ToString(CultureInfo.InvariantCulture) + "\"");
        for (int i = 0; i < plan.Sheets.Length; i++)
        {
            string name = $"xl/worksheets/sheet{(i + 1).ToString(CultureInfo.InvariantCulture)}.xml";
            parts[name] = WithFigures(parts[name], plan.Sheets[i]);
        }
        return Zip(parts);
    }

    private static byte[] Zip(SortedDictionary<string, string> parts)
    {
        const string first = "[Content_Types].xml";
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, text) in parts.Where(part => part.Key == first).Concat(parts.Where(part => part.Key != first)))
            {
                // Deflate differs between versions of its library; stored bytes are the same on every machine.
                var entry = zip.CreateEntry(name, CompressionLevel.NoCompression);
                entry.LastWriteTime = FixedTime;
                entry.ExternalAttributes = 0;
                using var stream = entry.Open();
                stream.Write(Encoding.UTF8.GetBytes(text));
            }
        }
        return bytes.ToArray();
    }

    private static string WithFigures(string sheet, SheetPlan plan) => FormulaCell().Replace(sheet, match =>
    {
        int column = 0;
        foreach (char letter in match.Groups["column"].ValueSpan) column = column * 26 + letter - 'A' + 1;
        int row = int.Parse(match.Groups["row"].ValueSpan, CultureInfo.InvariantCulture);
        var value = plan.Rows[row - 1][column - 1].Value;
        string type = value.Kind switch { CellValueKind.Text => " t=\"str\"", CellValueKind.Error => " t=\"e\"", _ => "" };
        string text = value.Kind == CellValueKind.Text ? SheetText.ForCell(value.Text, out _, out _) : value.ToString();
        return $"<x:c r=\"{match.Groups["column"].Value}{match.Groups["row"].Value}\"{match.Groups["style"].Value}{type}>{match.Groups["formula"].Value}<x:v>{Escaped(text)}</x:v></x:c>";
    });

    [GeneratedRegex("<x:c r=\"(?<column>[A-Z]+)(?<row>[0-9]+)\"(?<style> s=\"[0-9]+\")?(?: t=\"[a-z]+\")?>(?<formula><x:f>[^<]*</x:f>)(?:<x:v>[^<]*</x:v>)?</x:c>")]
    private static partial Regex FormulaCell();

    // The package numbers the formats of conditions anew, with numbers that those of cells have as well; a reader that looks them up by number would take one for the other.
    [GeneratedRegex("<x:dxf><x:numFmt numFmtId=\"([0-9]+)\"")]
    private static partial Regex ConditionFormat();

    private const int FirstConditionFormat = 1000;

    // The package writes repeated rows as 1:3 and columns as A:A; a reference in a defined name must be absolute.
    [GeneratedRegex("!([0-9]+):([0-9]+)<")]
    private static partial Regex WholeRows();

    [GeneratedRegex("!([A-Z]+):([A-Z]+),")]
    private static partial Regex WholeColumns();

    private const string Relationships =
        """
        <?xml version="1.0" encoding="utf-8"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="/xl/workbook.xml" Id="rId1" /><Relationship Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/extended-properties" Target="/docProps/app.xml" Id="rId2" /><Relationship Type="http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties" Target="/docProps/core.psmdcp" Id="rId3" /></Relationships>
        """;

    internal const string ApplicationPart = "docProps/app.xml";

    internal const string Application =
        """
        <?xml version="1.0" encoding="utf-8"?><Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"><Application>Wain</Application></Properties>
        """;

    private static string PropertiesOf(Report report) =>
        "<?xml version=\"1.0\" encoding=\"utf-8\"?><coreProperties xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns=\"http://schemas.openxmlformats.org/package/2006/metadata/core-properties\">"
        + $"<dc:title>{Escaped(SheetText.ForCell(report.Title, out _, out _))}</dc:title><dc:subject>{Escaped(SheetText.ForCell($"Revision {report.Revision}, values {report.ValuesHash}", out _, out _))}</dc:subject></coreProperties>";

    private static string Escaped(string text)
    {
        // Most are figures.
        if (text.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or ' ')) return text;
        var escaped = new StringBuilder();
        using (var writer = XmlWriter.Create(escaped, new XmlWriterSettings { ConformanceLevel = ConformanceLevel.Fragment, NewLineHandling = NewLineHandling.None }))
        {
            writer.WriteString(text);
        }
        return escaped.ToString();
    }
}
