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
            if (i.Bad is { } bad) page.Append($"\nTold for:\n\n```text\n{bad.TrimEnd()}\n```\n");
            if (i.Good is { } good) page.Append($"\nMended:\n\n```text\n{good.TrimEnd()}\n```\n");
        }
        return page.ToString();
    }
}
