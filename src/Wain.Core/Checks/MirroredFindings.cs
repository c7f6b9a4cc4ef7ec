using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using Wain.Core.Findings;
using Wain.Core.Framing;
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
        // What stands at the name of a panel stands at its mirror's name for that one.
        var places = structure.Panels.Where(p => p.Mirrored is not null).ToDictionary(p => p.Fact.NameSpan, p => p.Fact.MirrorOf!.NameSpan);
        object Key(Finding f, string words) => (f.Code, places.GetValueOrDefault(f.Place, f.Place), f.Level, f.AcceptedBecause, words);
        foreach (var finding in findings.Where(f => !IsMirrors(f)))
        {
            told.TryAdd(Key(finding, Words(finding.Message)), folded.Count);
            folded.Add(finding);
        }
        foreach (var finding in findings.Where(IsMirrors))
        {
            // Left and right change places where the panel's own sides are meant, and stay where a part's name has them.
            string same = Renamed(finding.Message, original);
            int at = Turned(same).Select(words => told.GetValueOrDefault(Key(finding, Words(words)), -1)).FirstOrDefault(k => k >= 0, -1);
            if (at >= 0 && folded[at].Message != finding.Message)
                (mirrors.TryGetValue(at, out var names) ? names : mirrors[at] = []).Add(folded[at].Subject != finding.Subject ? finding.Subject : Named(finding.Message, original) ?? finding.Subject);
            else folded.Add(finding);
        }
        foreach (var (at, names) in mirrors) folded[at] = folded[at] with { Message = $"{folded[at].Message} Likewise {string.Join(" and ", names.Distinct().Order(StringComparer.Ordinal))}, its mirror." };
        return [.. folded];
    }

    /// <summary>The key of a member as it is in the panel that was drawn, to list those of both panels in one order: in its mirror the left stile is the right one there, and corners are counted the other way.</summary>
    public static string AsDesigned(PanelFrame frame, string key) => Corner().Replace(PanelFacts.IsTurnedRound(frame.Panel, frame.Rules.Fact) ? OtherMembers(key) : key, "_corner");

    // As it may have been said of the other side: of all that has a side, or of places, edges and members each by itself.
    private static IEnumerable<string> Turned(string message)
    {
        yield return message;
        yield return Swapped(message);
        Func<string, string>[] turns = [OnTheOtherSide, OtherEdges, OtherMembers];
        for (int which = 1; which < 1 << turns.Length; which++)
            yield return Enumerable.Range(0, turns.Length).Where(k => (which >> k & 1) != 0).Aggregate(message, (words, k) => turns[k](words));
    }

    // Of a frame's members alone, whatever the names of panels hold.
    private static string OtherMembers(string message) => Member().Replace(message, m => PanelFacts.OtherHand(m.Value));

    [GeneratedRegex("(?<=(stile|rail|trimmer)_)(left|right)")]
    private static partial Regex Member();

    // Of the corners of a hole that reach as far past an edge either may be named.
    [GeneratedRegex("-?[0-9][0-9/. ]* (in|mm) along and -?[0-9][0-9/. ]* (in|mm) up")]
    private static partial Regex OnPanel();

    [GeneratedRegex("_corner[0-9]+")]
    private static partial Regex Corner();

    private static string? Named(string message, Dictionary<string, string> original) => message.Split(' ', '.', ',', ';', ':').FirstOrDefault(original.ContainsKey);

    // Of a place in the camper alone, whatever the names hold.
    private static string OnTheOtherSide(string message) =>
        message.Replace("to the left", "\u0001", StringComparison.Ordinal).Replace("to the right", "to the left", StringComparison.Ordinal).Replace("\u0001", "to the right", StringComparison.Ordinal);

    // Of an edge alone, whatever the names hold.
    private static string OtherEdges(string message) =>
        message.Replace(".left", "\u0001", StringComparison.Ordinal).Replace(".right", ".left", StringComparison.Ordinal).Replace("\u0001", ".right", StringComparison.Ordinal);

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
        message = Corner().Replace(OnPanel().Replace(Place().Replace(message, "there"), "there"), "_corner");
        int along = message.LastIndexOf(" along", StringComparison.Ordinal), start = along;
        if (along < 0) return message;
        while (start > 0 && (char.IsAsciiDigit(message[start - 1]) || message[start - 1] is ' ' or '/' or '.' or '-' or 'i' or 'n' or 'm')) start--;
        return Words(message[..start]) + message[along..];
    }
}
