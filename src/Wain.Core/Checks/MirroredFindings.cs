using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Wain.Core.Findings;
using Wain.Core.Geometry;

namespace Wain.Core.Checks;

/// <summary>A mistake of a panel that has a mirror is made on both sides by one line of the spec: it is told once, with the mirror named.</summary>
internal static partial class MirroredFindings
{
    public static ImmutableArray<Finding> Fold(Structure structure, ImmutableArray<Finding> findings)
    {
        var original = structure.Panels.Where(p => p.Mirrored is not null).ToDictionary(p => p.Name, p => p.Mirrored!, StringComparer.Ordinal);
        if (original.Count == 0) return findings;
        var joints = structure.Joints.Where(j => j.Mirrored).Select(j => j.Name).ToHashSet(StringComparer.Ordinal);
        bool IsMirrors(Finding f) => original.ContainsKey(f.Subject.Split('.')[0]) || joints.Contains(f.Subject);

        var told = new Dictionary<object, int>();
        var folded = new List<Finding>();
        var mirrors = new Dictionary<int, List<string>>();
        foreach (var finding in findings.Where(f => !IsMirrors(f)))
        {
            told.TryAdd(Key(finding, Words(finding.Message)), folded.Count);
            folded.Add(finding);
        }
        foreach (var finding in findings.Where(IsMirrors))
        {
            // Left and right change places where the panel's own sides are meant, and stay where a part's name has them.
            string same = Renamed(finding.Message, original);
            if ((told.TryGetValue(Key(finding, Words(same)), out int at) || told.TryGetValue(Key(finding, Words(Swapped(same))), out at)) && folded[at].Subject != finding.Subject)
                (mirrors.TryGetValue(at, out var names) ? names : mirrors[at] = []).Add(finding.Subject);
            else folded.Add(finding);
        }
        foreach (var (at, names) in mirrors) folded[at] = folded[at] with { Message = $"{folded[at].Message} Likewise {string.Join(" and ", names.Distinct().Order(StringComparer.Ordinal))}, its mirror." };
        return [.. folded];
    }

    private static object Key(Finding f, string words) => (f.Code, f.Place, f.Level, f.AcceptedBecause, words);

    private static string Renamed(string message, Dictionary<string, string> original) =>
        Name().Replace(message, m => string.Join("_to_", m.Value.Split("_to_").Select(part => original.GetValueOrDefault(part, part))));

    private static string Swapped(string message) => Side().Replace(message, m => m.Value == "left" ? "right" : "left");

    // A place along a panel is measured from its left on both sides, so a mirror's differs; what it says does not.
    private static string Words(string message) => Along().Replace(message, "along");

    [GeneratedRegex("[A-Za-z_][A-Za-z0-9_]*")]
    private static partial Regex Name();

    [GeneratedRegex("left|right")]
    private static partial Regex Side();

    [GeneratedRegex(@"\d[\d /.]* (in|mm) along")]
    private static partial Regex Along();
}
