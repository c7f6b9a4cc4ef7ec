namespace Wain.Cli.Output;

/// <summary>Paths below the output folder, and only there.</summary>
internal static class OutputPath
{
    /// <summary>Why one of the paths may not be written; null if all may. No step leaves the folder, by name or by a link.</summary>
    public static string? FirstProblem(string folder, IEnumerable<string> paths)
    {
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (string path in paths)
        {
            string[] steps = path.Split('/');
            if (path.Length == 0 || steps.Any(step => step is "" or "." or ".." || step.EndsWith(' ') || step.EndsWith('.')) || path.Any(c => char.IsControl(c) || c is '\\' or ':' or '*' or '?' or '"' or '<' or '>' or '|'))
            {
                return $"\"{path}\" can't be the path of an output: it must stay in the output folder and use plain names.";
            }
            if (steps[0].StartsWith(".wain-", StringComparison.OrdinalIgnoreCase)) return $"\"{path}\" can't be the path of an output: names that begin with .wain- are kept for the program.";
            // Names that differ in case alone are one file on many systems.
            if (!seen.Add(path)) return $"Two outputs are called \"{path}\".";
            string parent = folder;
            foreach (string step in steps[..^1])
            {
                parent = Path.Combine(parent, step);
                if (new DirectoryInfo(parent) is { Exists: true, LinkTarget: not null }) return $"{parent} is a link out of the output folder; outputs are not written through links.";
                if (File.Exists(parent)) return $"{parent} is a file where an output needs a folder.";
            }
            if (Directory.Exists(Full(folder, path))) return $"{Full(folder, path)} is a folder where an output needs a file.";
        }
        return null;
    }

    public static string Full(string folder, string path) => Path.Combine([folder, .. path.Split('/')]);

    /// <summary>The content, or null if there is no such file.</summary>
    public static byte[]? Read(string folder, string path)
    {
        try
        {
            using var file = new FileStream(Full(folder, path), FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            var bytes = new byte[file.Length];
            file.ReadExactly(bytes);
            return bytes;
        }
        catch (Exception fault) when (fault is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }
    }

    /// <summary>
    /// Says so if a file is held open by another program or can't be written; null if it is free. Some programs only leave a lock file beside what they
    /// hold; replacing the file under them would lose either their work or ours.
    /// </summary>
    public static string? Holder(string folder, string path)
    {
        string full = Full(folder, path);
        if (!File.Exists(full)) return null;
        string parent = Path.GetDirectoryName(full)!, name = Path.GetFileName(full);
        foreach (string mark in new[] { $".~lock.{name}#", $"~${name}" })
        {
            if (File.Exists(Path.Combine(parent, mark))) return $"{full} is open in another program: close it there. (If it is not, delete {Path.Combine(parent, mark)}.)";
        }
        try
        {
            using var file = new FileStream(full, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
            return null;
        }
        catch (IOException)
        {
            return $"{full} is open in another program: close it there.";
        }
        catch (UnauthorizedAccessException)
        {
            return $"{full} may not be written: it is marked read-only or belongs to somebody else.";
        }
    }
}
