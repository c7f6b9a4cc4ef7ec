using System.Collections.Immutable;
using System.Reflection;
using System.Text;

namespace Wain.Core.Findings;

/// <summary>Every code that the program can tell, found in the classes that tell them, so that none is forgotten.</summary>
public static class Catalogue
{
    /// <summary>In order of code. Uses reflection: only for explain, the reference page and tests, never on the path of check.</summary>
    public static ImmutableArray<FindingInfo> All(params IEnumerable<Assembly> more) =>
        [.. new[] { typeof(Catalogue).Assembly }.Concat(more).Distinct().SelectMany(a => a.GetTypes())
            .SelectMany(t => t.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic)).Where(f => f.FieldType == typeof(FindingInfo))
            .Select(f => (FindingInfo)f.GetValue(null)!).OrderBy(i => i.Code, StringComparer.Ordinal)];

    /// <summary>What mends an example whose text is right, as it stands.</summary>
    public const string MendedAnew = "Mended by the plan that wain cut makes anew";

    /// <summary>The entry for a code or its name in words, whichever case; null if there is none.</summary>
    public static FindingInfo? Find(string codeOrName, params IEnumerable<Assembly> more) =>
        All(more).FirstOrDefault(i => i.Code.Equals(codeOrName, StringComparison.OrdinalIgnoreCase) || i.Name.Equals(codeOrName, StringComparison.OrdinalIgnoreCase));

    /// <summary>The reference page of all findings, in Markdown.</summary>
    public static string Page(IEnumerable<FindingInfo> infos)
    {
        var page = new StringBuilder("# Findings\n\nWritten from the program by its tests; do not edit. A code is given once and never changes its meaning.\n\n| code | name | level | what |\n| --- | --- | --- | --- |\n");
        var all = infos.ToList();
        foreach (var i in all) page.Append($"| [{i.Code}](#{i.Code.ToLowerInvariant()}) | {i.Name} | {i.Level.ToString().ToLowerInvariant()} | {i.Title} |\n");
        foreach (var i in all)
        {
            page.Append($"\n## {i.Code}\n\n**{i.Name}** ({i.Level.ToString().ToLowerInvariant()}): {i.Title}.\n\n{i.Why}\n");
            page.Append($"\nTold for this{i.Kept?.Beside}:\n\n```text\n{i.Bad.TrimEnd()}\n```\n\n");
            page.Append(i.Bad == i.Good ? MendedAnew + ".\n" : $"Mended{(i.Kept is null ? "" : ", and a plan made of it")}:\n\n```diff\n{Changes(i.Bad, i.Good)}```\n");
        }
        return page.ToString();
    }

    /// <summary>How a text was mended: the lines that went, marked -, and those that came, marked +, with one line before and after to find the place by.</summary>
    public static string Changes(string bad, string good)
    {
        string[] old = bad.TrimEnd().ReplaceLineEndings("\n").Split('\n'), now = good.TrimEnd().ReplaceLineEndings("\n").Split('\n');
        int shorter = Math.Min(old.Length, now.Length), head = 0, tail = 0;
        while (head < shorter && old[head] == now[head]) head++;
        while (tail < shorter - head && old[^(tail + 1)] == now[^(tail + 1)]) tail++;
        var text = new StringBuilder();
        if (head > 0) text.Append($"  {old[head - 1]}\n");
        foreach (string line in old[head..^tail]) text.Append($"- {line}\n");
        foreach (string line in now[head..^tail]) text.Append($"+ {line}\n");
        if (tail > 0) text.Append($"  {old[^tail]}\n");
        return text.ToString();
    }
}
