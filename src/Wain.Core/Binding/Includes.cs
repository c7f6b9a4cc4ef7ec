using Wain.Core.Findings;
using Wain.Core.Parsing;
using Wain.Core.Shipped;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>Brings in every file that a spec uses, each once, without recursion, so that a long chain of files is no danger.</summary>
internal static class Includes
{
    /// <returns>False if a file is missing or can't be read, so that names may be missing too.</returns>
    public static bool Collect(SyntaxFile main, IncludeReader read, Func<SourceText, Stage<SyntaxFile>> parse, List<Finding> findings, out List<SyntaxFile> files)
    {
        bool allRead = true;
        files = [main];
        string root = main.Source.Path.Split('/')[^1];
        var seen = new HashSet<string>(StringComparer.Ordinal) { root };
        // The chain that led to each file, to tell a circle from a file that two others use.
        var chains = new List<string[]> { new[] { root } };
        for (int i = 0; i < files.Count; i++)
        {
            foreach (var fact in files[i].Statements.OfType<Fact>().Where(f => f.Head.Text == "use").ToList())
            {
                if (fact.Clauses is not [[TextExpression text]])
                {
                    findings.Add(new Finding(BindingFindings.Include, "The name of a file is a text in quotes: use \"materials.wain\".", fact.Span));
                    allRead = false;
                    continue;
                }
                string here = chains[i][^1];
                string folder = here.Contains('/') ? here[..here.LastIndexOf('/')] : "";
                string? path = Normal(folder, text.Value);
                if (path is null)
                {
                    findings.Add(new Finding(BindingFindings.Include, $"\"{text.Value}\" leads out of the spec's folder.", text.Span) { Hint = "Copy the file into the spec's folder, and name it from there." });
                    allRead = false;
                    continue;
                }
                if (chains[i].Contains(path))
                {
                    findings.Add(new Finding(BindingFindings.IncludeCircle, $"Files in a circle: {string.Join(" uses ", chains[i].SkipWhile(p => p != path))} uses {path}.", text.Span));
                    continue;
                }
                if (seen.Contains(path)) continue;
                if (chains[i].Length >= Binder.DepthLimit)
                {
                    findings.Add(new Finding(BindingFindings.TooLong, $"Files use files more than {Binder.DepthLimit} deep.", text.Span));
                    allRead = false;
                    continue;
                }
                var (source, problem) = read(path);
                // The library is at hand from every folder: what isn't beside the file that names it is taken from the top.
                if (source is null && folder.Length > 0 && Normal("", text.Value) is { } shared && shared.StartsWith(ShippedMaterials.Folder, StringComparison.Ordinal))
                {
                    if (seen.Contains(shared)) continue;
                    if (read(shared) is { Source: { } found }) (source, path) = (found, shared);
                }
                seen.Add(path);
                if (source is null)
                {
                    findings.Add(new Finding(BindingFindings.Include, $"\"{text.Value}\" can't be read: {problem ?? "there is no such file"}.", text.Span)
                    {
                        Hint = text.Value.StartsWith(ShippedMaterials.Folder, StringComparison.Ordinal) ? $"The program ships {string.Join(", ", ShippedMaterials.Paths)}." : null,
                    });
                    allRead = false;
                    continue;
                }
                var parsed = parse(source);
                findings.AddRange(parsed.Findings);
                allRead &= !parsed.Findings.Any(f => f.Info == SyntaxFindings.NotText || f.Info == SyntaxFindings.TooDeep || f.Info == SyntaxFindings.TooLarge);
                files.Add(parsed.Value);
                chains.Add([.. chains[i], path]);
            }
        }
        return allRead;
    }

    /// <summary>A path within the spec's folder, without dots; null if it leads out of it or is absolute.</summary>
    internal static string? Normal(string folder, string path)
    {
        path = path.Replace('\\', '/');
        if (path.Length == 0 || path.StartsWith('/') || path.Contains(':') || path.Contains('\0')) return null;
        var parts = new List<string>(folder.Split('/', StringSplitOptions.RemoveEmptyEntries));
        foreach (string part in path.Split('/'))
        {
            if (part is "" or ".") continue;
            if (part == "..")
            {
                if (parts.Count == 0) return null;
                parts.RemoveAt(parts.Count - 1);
            }
            else parts.Add(part);
        }
        return parts.Count == 0 ? null : string.Join('/', parts);
    }
}
