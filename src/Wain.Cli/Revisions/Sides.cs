using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Parsing;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Cli.Revisions;

/// <summary>One side of a comparison.</summary>
public sealed record Side(string Name, SourceText Main, IncludeReader Includes)
{
    /// <exception cref="UsageError">What stands there is no text.</exception>
    public Compilation Compile(IReadOnlyDictionary<string, Expression> given)
    {
        var compiled = Compiler.Compile(Main, Includes, given);
        if (compiled.Findings.Any(f => f.Info == SyntaxFindings.NotText && f.Place.Source == Main)) throw new UsageError($"{Name} is no text, so it can't be compared.");
        return compiled;
    }
}

/// <summary>Finds what the words after <c>compare</c> mean: a file, a folder with one spec, or REVISION:PATH.</summary>
public static class Sides
{
    public static Side Find(string word)
    {
        if (File.Exists(word)) return OfFile(word, word);
        if (Directory.Exists(word)) return OfFile(SpecIn(word), word);
        int colon = word.IndexOf(':');
        if (colon > 0 && colon < word.Length - 1)
        {
            var (main, includes) = GitRevisions.Read(word[..colon], word[(colon + 1)..]);
            return new Side(word, main, includes);
        }
        throw new UsageError($"There is no file or folder {word}. A revision is named with a path behind it: HEAD~1:{(word.EndsWith(".wain", StringComparison.Ordinal) ? word : "my.wain")}");
    }

    private static Side OfFile(string path, string name) => new(name, SpecFiles.Read(path), SpecFiles.IncludesOf(path));

    private static string SpecIn(string folder) =>
        Path.Combine(folder, OneSpecOf(Directory.EnumerateFiles(folder, "*.wain").Order(StringComparer.Ordinal).Select(f => (Path.GetFileName(f), (Func<string>)(() => SpecFiles.Read(f).Text))), folder));

    /// <summary>The one file of a folder that is a spec of its own: the only one, or the only one with a camper in it.</summary>
    internal static string OneSpecOf(IEnumerable<(string Name, Func<string> Text)> files, string shown)
    {
        var all = files.ToList();
        if (all.Count == 0) throw new UsageError($"{shown} holds no spec.");
        if (all.Count == 1) return all[0].Name;
        var campers = all.Where(f => f.Text().Split('\n').Any(line => line.StartsWith("camper ", StringComparison.Ordinal))).Select(f => f.Name).ToList();
        return campers.Count == 1 ? campers[0] : throw new UsageError($"{shown} holds {(campers.Count == 0 ? "no spec with a camper in it" : $"more than one spec: {string.Join(", ", campers)}")}; name the one to compare.");
    }
}
