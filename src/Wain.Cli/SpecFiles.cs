using System.Collections.Immutable;
using System.Text;
using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.CutLists;
using Wain.Core.Parsing;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Cli;

/// <summary>Reads specs from disk. The only place that opens them.</summary>
public static class SpecFiles
{
    /// <summary>A file larger than this is not read: the parser refuses such a text anyway.</summary>
    private const long SizeLimit = 4L * SpecParser.LengthLimit;

    public static Compilation Compile(string path, Options options, PlanFile? plan = null) =>
        Compiler.Compile(Read(path), IncludesOf(path), Given(options.Values("--set")), plan);

    /// <summary>The main file of a spec.</summary>
    public static SourceText Read(string path)
    {
        if (Directory.Exists(path)) throw new UsageError($"{path} is a folder; name the spec in it.");
        if (!File.Exists(path)) throw new UsageError($"There is no file {path}.");
        return ReadText(path, Shown(path));
    }

    /// <summary>Reads the files that a spec uses, none from outside of its folder, not even by way of a link.</summary>
    public static IncludeReader IncludesOf(string specPath)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(specPath))!;
        string shown = Shown(specPath);
        string prefix = shown.Contains('/') ? shown[..(shown.LastIndexOf('/') + 1)] : "";
        return relative =>
        {
            string full = Path.GetFullPath(Path.Combine(folder, relative));
            if (!full.StartsWith(folder + Path.DirectorySeparatorChar, StringComparison.Ordinal)) return (null, "it lies outside of the spec's folder");
            try
            {
                if (!File.Exists(full)) return (null, Directory.Exists(full) ? "it is a folder" : "there is no such file");
                if (Real(full) is { } real && !real.StartsWith(Real(folder) + Path.DirectorySeparatorChar, StringComparison.Ordinal)) return (null, "it is a link that leads out of the spec's folder");
                return (ReadText(full, prefix + relative), null);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                return (null, Output.FileFaults.Said(e).TrimEnd('.'));
            }
        };
    }

    private static string? Real(string path)
    {
        string? parent = Path.GetDirectoryName(path);
        if (parent is null) return path;
        FileSystemInfo info = Directory.Exists(path) ? new DirectoryInfo(path) : new FileInfo(path);
        string here = info.ResolveLinkTarget(returnFinalTarget: true)?.FullName ?? Path.Combine(Real(parent) ?? parent, Path.GetFileName(path));
        return here.TrimEnd(Path.DirectorySeparatorChar);
    }

    private static SourceText ReadText(string path, string shown)
    {
        if (new FileInfo(path).Length > SizeLimit) throw new UsageError($"{shown} has more than {SizeLimit / (1024 * 1024)} MB; that is no spec.");
        // Bytes that are no UTF-8 become U+FFFD, which the parser tells with its place.
        byte[] bytes = File.ReadAllBytes(path);
        int start = bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? 3 : 0;
        return new SourceText(shown, Encoding.UTF8.GetString(bytes, start, bytes.Length - start));
    }

    /// <summary>Values from the command line, read by the language itself: width=72 in.</summary>
    public static IReadOnlyDictionary<string, Expression> Given(IEnumerable<string> settings)
    {
        var given = new Dictionary<string, Expression>(StringComparer.Ordinal);
        foreach (string setting in settings)
        {
            int equals = setting.IndexOf('=');
            if (equals < 1) throw new UsageError($"--set takes NAME=VALUE, such as --set \"width=72 in\", not \"{setting}\".");
            string name = setting[..equals].Trim();
            var parsed = SpecParser.Parse(new SourceText("--set", $"let {name} = {setting[(equals + 1)..].Trim()}\n"));
            if (parsed.Findings.Length > 0 || parsed.Value.Statements is not [LetStatement let]) throw new UsageError($"--set {setting}: {(parsed.Findings.Length > 0 ? parsed.Findings[0].Message : "this is no value")}");
            if (!given.TryAdd(name, let.Value)) throw new UsageError($"--set gives {name} twice.");
        }
        return given;
    }

    /// <summary>A path as messages show it: from where the program was started, with forward slashes.</summary>
    private static string Shown(string path)
    {
        string relative = Path.GetRelativePath(Directory.GetCurrentDirectory(), Path.GetFullPath(path));
        return (relative.StartsWith("..", StringComparison.Ordinal) ? path : relative).Replace('\\', '/');
    }
}
