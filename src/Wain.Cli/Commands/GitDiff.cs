using Wain.Cli.Revisions;
using Wain.Core.Parsing;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Cli.Commands;

/// <summary>
/// The diff of one file for git, which hands over the file's path, then for each side a file with its content, a hash and a mode. Each side is one file
/// in a temporary folder, so that what it uses is looked up beside its real path in the work tree.
/// </summary>
public static class GitDiff
{
    private const string Nothing = "/dev/null";

    public static int Run(Options options, TextWriter output)
    {
        var words = options.Arguments;
        try
        {
            if (words.Count is 1)
            {
                output.WriteLine($"{words[0]} is not merged yet; nothing to compare.");
                return 0;
            }
            // git adds the new path and a remark where it takes a file for renamed.
            if (words.Count is not (7 or 8 or 9)) throw new UsageError("--for-git takes the seven arguments that git gives: path old-file old-hex old-mode new-file new-hex new-mode");
            string path = words[0], newPath = words.Count > 7 ? words[7] : path;
            output.WriteLine($"{path}{(newPath == path ? "" : " -> " + newPath)} (files it uses are read from the work tree)");
            Side old = SideOf(words[1], path, "old"), now = SideOf(words[4], newPath, "new");
            if (words[1] == Nothing) output.WriteLine("The file is new.");
            if (words[4] == Nothing) output.WriteLine("The file is gone.");
            var comparison = CompareCommand.Compare(old, now, new Dictionary<string, Expression>());
            output.Write(CompareCommand.Render(comparison, options.Choice("--as", "text", "text", "markdown", "json")));
        }
        // Whatever else goes wrong must not keep git from showing the other files.
        catch (Exception e)
        {
            output.WriteLine($"wain: {Output.FileFaults.Said(e)}");
        }
        return 0;
    }

    private static Side SideOf(string file, string path, string name)
    {
        string text = file == Nothing ? "" : SpecFiles.Read(file).Text;
        return new Side(name, new SourceText(path, text), SpecFiles.IncludesOf(path));
    }
}
