namespace Wain.Cli.Commands;

/// <summary>Sets up a folder with a small spec that compiles, to begin from.</summary>
public static class NewCommand
{
    public static readonly Command Shape = new("new", "FOLDER", "Sets up a folder with a small spec that compiles, to begin from. An existing file is never overwritten.", [], ["wain new my-camper"], Run);

    /// <summary>The beginner's spec, as it ships in the program.</summary>
    internal static string Text()
    {
        using var stream = typeof(NewCommand).Assembly.GetManifestResourceStream("new.wain") ?? throw new InvalidOperationException("the beginner's spec is missing from the program");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count != 1) throw new UsageError("new needs one folder: wain new my-camper");
        string folder = options.Arguments[0];
        string name = Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)));
        string path = Path.Combine(folder, name + ".wain");
        if (File.Exists(path)) throw new UsageError($"{path} is there already; nothing was changed.");
        Directory.CreateDirectory(folder);
        using (var file = new FileStream(path, FileMode.CreateNew, FileAccess.Write)) using (var writer = new StreamWriter(file)) writer.Write(Text());
        output.WriteLine($"{path} is a small spec that compiles. Next: wain check {path}");
        return 0;
    }
}
