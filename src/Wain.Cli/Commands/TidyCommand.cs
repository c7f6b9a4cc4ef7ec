using System.Text;
using Wain.Core.Findings;
using Wain.Core.Tidying;

namespace Wain.Cli.Commands;

/// <summary>Lays specs out in the one canonical way; remarks and the order of declarations stay, and so does the meaning.</summary>
public static class TidyCommand
{
    public static readonly Command Shape = new("tidy", "SPEC...", "Lays each file out in the one canonical way. Remarks, order and meaning stay.",
        [new("--check", null, "changes nothing; fails if a file is not tidy")], ["wain tidy my.wain", "wain tidy specs/heron/*.wain --check"], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count == 0) throw new UsageError("tidy needs a spec: wain tidy SPEC...");
        int code = 0;
        foreach (string path in options.Arguments)
        {
            var source = SpecFiles.Read(path);
            var tidied = Tidy.Format(source);
            if (tidied.Findings.HasErrors())
            {
                FindingsOutput.Print(tidied.Findings, Options.Parse(CheckCommand.Shape, []), errors);
                errors.WriteLine($"{path}: left as it is.");
                code = Math.Max(code, 1);
            }
            else if (tidied.Value == source.Text) continue;
            else if (options.Has("--check"))
            {
                errors.WriteLine($"{path}: not tidy; wain tidy {path} lays it out.");
                code = Math.Max(code, 1);
            }
            else
            {
                // Written beside and renamed: a kill leaves the old text or the new.
                string beside = path + ".wain-new";
                File.WriteAllText(beside, tidied.Value, new UTF8Encoding(false));
                File.Move(beside, path, overwrite: true);
                output.WriteLine($"{path}: laid out anew.");
            }
        }
        return code;
    }
}
