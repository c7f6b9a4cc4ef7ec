using System.Text;
using Wain.Reports.Summaries;

namespace Wain.Cli.Output;

/// <summary>Reads templates from below one folder, and nothing else: no way up, no absolute path, no link that leads out.</summary>
public sealed class SpecFolder(string folder)
{
    private const int SizeLimit = 1 << 20;

    private readonly string _root = Real(Path.GetFullPath(folder));

    /// <summary>The template by the name that an include uses, or null if there is none that may be read.</summary>
    public TemplateSource? Load(string name)
    {
        string[] steps = name.Split('/');
        if (steps.Any(step => step is "" or "." or "..") || name.Any(c => char.IsControl(c) || c is '\\' or ':')) return null;
        try
        {
            string full = Path.Combine([_root, .. steps]);
            // The check is on where the path really ends, after every link in it is followed.
            if (!File.Exists(full) || !Real(full).StartsWith(_root.TrimEnd(Path.DirectorySeparatorChar) + Path.DirectorySeparatorChar, StringComparison.Ordinal)) return null;
            if (new FileInfo(full).Length > SizeLimit) return null;
            return new TemplateSource(name, File.ReadAllText(full, Encoding.UTF8));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static string Real(string path)
    {
        string root = Path.GetPathRoot(path)!;
        string real = root;
        foreach (string step in path[root.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries))
        {
            string next = Path.Combine(real, step);
            FileSystemInfo info = Directory.Exists(next) ? new DirectoryInfo(next) : new FileInfo(next);
            // A link's target may itself pass through links.
            real = info.LinkTarget is null ? next : info.ResolveLinkTarget(returnFinalTarget: true) is { } target ? Real(target.FullName) : next;
        }
        return real;
    }
}
