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
        var folders = Directory.GetDirectories(core).Where(d => Path.GetFileName(d) is not ("bin" or "obj")).ToDictionary(d => Path.GetFileName(d), d => Directory.GetFiles(d, "*.cs", SearchOption.AllDirectories));
        // A type may also be named with its folder in front, Model.Stack, which needs no using.
        var qualified = new Regex(@"(?<![\w.])(?:Core\.)?(" + string.Join('|', folders.Keys) + @")\.([A-Z]\w+)");
        bool Has(string folder, string type) => folders[folder].Any(f => Path.GetFileNameWithoutExtension(f) == type);
        var uses = folders.ToDictionary(d => d.Key, d => d.Value.Select(File.ReadAllText)
            .SelectMany(text => Using().Matches(text).Select(m => m.Groups[1].Value).Concat(qualified.Matches(text).Where(m => Has(m.Groups[1].Value, m.Groups[2].Value)).Select(m => m.Groups[1].Value)))
            .Where(u => u != d.Key).ToHashSet());
        Assert.True(uses.Count > 15 && uses.Values.Sum(u => u.Count) > 50, "The folders of the core were not read.");
        // What uses nothing that is left can be taken away; in a circle nothing can.
        while (uses.FirstOrDefault(u => !u.Value.Any(uses.ContainsKey)).Key is { } free) uses.Remove(free);
        Assert.True(uses.Count == 0, "In a circle: " + string.Join(", ", uses.Keys.Order()));
    }
}
