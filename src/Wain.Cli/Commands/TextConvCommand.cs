using System.Security.Cryptography;
using Wain.Reports.Workbooks;

namespace Wain.Cli.Commands;

/// <summary>The text form of a workbook, for version control.</summary>
public static class TextConvCommand
{
    public static readonly Command Shape = new("textconv", "FILE.xlsx", "Prints a workbook as text, one line a row, so that git can show what changed in it.", [],
        ["wain textconv output/heron/workbook.xlsx", "git config diff.wain-workbook.textconv \"wain textconv\""], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count != 1) throw new UsageError("textconv needs one workbook: wain textconv FILE.xlsx");
        byte[] bytes = File.ReadAllBytes(options.Arguments[0]);
        try
        {
            output.Write(WorkbookText.Of(bytes));
        }
        catch (InvalidDataException e)
        {
            // git gives up on the whole diff if this fails; a hash still shows that the file changed.
            output.WriteLine($"This workbook can't be read: {e.Message}\nsha256 {Convert.ToHexStringLower(SHA256.HashData(bytes))}");
        }
        return 0;
    }
}
