using System.Collections.Immutable;
using System.Text;
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
        // One that stands on the centre line meets both: then the message alone names the mirror.
        bool IsMirrors(Finding f) => original.ContainsKey(f.Subject.Split('.')[0]) || joints.Contains(f.Subject) || Named(f.Message, original) is not null;

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
            if ((told.TryGetValue(Key(finding, Words(same)), out int at) || told.TryGetValue(Key(finding, Words(Swapped(same))), out at) || told.TryGetValue(Key(finding, Words(OnTheOtherSide(same))), out at)
                || told.TryGetValue(Key(finding, Words(OtherEdges(same))), out at)) && folded[at].Message != finding.Message)
                (mirrors.TryGetValue(at, out var names) ? names : mirrors[at] = []).Add(folded[at].Subject != finding.Subject ? finding.Subject : Named(finding.Message, original) ?? finding.Subject);
            else folded.Add(finding);
        }
        foreach (var (at, names) in mirrors) folded[at] = folded[at] with { Message = $"{folded[at].Message} Likewise {string.Join(" and ", names.Distinct().Order(StringComparer.Ordinal))}, its mirror." };
        return [.. folded];
    }

    private static string? Named(string message, Dictionary<string, string> original) => message.Split(' ', '.', ',', ';', ':').FirstOrDefault(original.ContainsKey);

    // Of a place in the camper alone, whatever the names hold.
    private static string OnTheOtherSide(string message) =>
        message.Replace("to the left", "\u0001", StringComparison.Ordinal).Replace("to the right", "to the left", StringComparison.Ordinal).Replace("\u0001", "to the right", StringComparison.Ordinal);

    // Of an edge alone, whatever the names hold.
    private static string OtherEdges(string message) =>
        message.Replace(".left", "\u0001", StringComparison.Ordinal).Replace(".right", ".left", StringComparison.Ordinal).Replace("\u0001", ".right", StringComparison.Ordinal);

    private static object Key(Finding f, string words) => (f.Code, f.Place, f.Level, f.AcceptedBecause, words);

    private static string Renamed(string message, Dictionary<string, string> original)
    {
        var made = new StringBuilder(message.Length);
        for (int i = 0; i < message.Length;)
        {
            int end = i;
            while (end < message.Length && (char.IsAsciiLetterOrDigit(message[end]) || message[end] == '_')) end++;
            if (end == i) made.Append(message[i++]);
            else
            {
                // The name of a joint holds those of both its panels.
                made.AppendJoin("_to_", message[i..end].Split("_to_").Select(part => original.GetValueOrDefault(part, part)));
                i = end;
            }
        }
        return made.ToString();
    }

    private static string Swapped(string message) => message.Replace("left", "\u0001", StringComparison.Ordinal).Replace("right", "left", StringComparison.Ordinal).Replace("\u0001", "right", StringComparison.Ordinal);

    // A row that begins at its other end on the mirror's side comes near something else first.
    [GeneratedRegex("[0-9][0-9/. ]* (in|mm) (aft|forward) of the origin, (on the centre line|[0-9][0-9/. ]* (in|mm) to the (left|right)), -?[0-9][0-9/. ]* (in|mm) up")]
    private static partial Regex Place();

    // A place along a panel is measured from its left on both sides, so a mirror's differs; what it says does not.
    private static string Words(string message)
    {
        message = Place().Replace(message, "there");
        int along = message.LastIndexOf(" along", StringComparison.Ordinal), start = along;
        if (along < 0) return message;
        while (start > 0 && (char.IsAsciiDigit(message[start - 1]) || message[start - 1] is ' ' or '/' or '.' or '-' or 'i' or 'n' or 'm')) start--;
        return Words(message[..start]) + message[along..];
    }
}
