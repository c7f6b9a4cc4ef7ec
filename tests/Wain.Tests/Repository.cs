namespace Wain.Tests;

/// <summary>The folder that the tests were built in, for those that read the project's own files.</summary>
internal static class Repository
{
    public static readonly string Root = Find(AppContext.BaseDirectory);

    private static string Find(string folder) =>
        File.Exists(Path.Combine(folder, "Wain.slnx")) ? folder : Find(Path.GetDirectoryName(folder) ?? throw new DirectoryNotFoundException("No Wain.slnx above the tests."));
}
