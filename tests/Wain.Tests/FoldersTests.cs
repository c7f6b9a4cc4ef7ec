using System.Text.RegularExpressions;

namespace Wain.Tests;

/// <summary>The passes stand on each other in one direction: no folder of the core uses one that uses it.</summary>
public partial class FoldersTests
{
    [GeneratedRegex(@"^using (?:static )?Wain\.Core\.(\w+)", RegexOptions.Multiline)]
    private static partial Regex Using();

    [Fact]
    public void NoFolderOfTheCoreUsesOneThatUsesIt()
    {
        string core = Path.Combine(Repository.Root, "src", "Wain.Core");
        var uses = Directory.GetDirectories(core).Where(d => Path.GetFileName(d) is not ("bin" or "obj")).ToDictionary(d => Path.GetFileName(d), d => Directory.EnumerateFiles(d, "*.cs", SearchOption.AllDirectories)
            .SelectMany(f => Using().Matches(File.ReadAllText(f)).Select(m => m.Groups[1].Value)).Where(u => u != Path.GetFileName(d)).ToHashSet());
        Assert.True(uses.Count > 15 && uses.Values.Sum(u => u.Count) > 50, "The folders of the core were not read.");
        // What uses nothing that is left can be taken away; in a circle nothing can.
        while (uses.FirstOrDefault(u => !u.Value.Any(uses.ContainsKey)).Key is { } free) uses.Remove(free);
        Assert.True(uses.Count == 0, "In a circle: " + string.Join(", ", uses.Keys.Order()));
    }
}
