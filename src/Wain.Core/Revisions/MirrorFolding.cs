using System.Collections.Immutable;

namespace Wain.Core.Revisions;

/// <summary>Tells a change of a panel and the same change of its mirror as one, and adds what is built.</summary>
internal static class MirrorFolding
{
    public static List<Change> Fold(IReadOnlyList<Change> changes, Design now, Dictionary<string, string> built)
    {
        var original = now.Structure.Panels.Where(p => p.Mirrored is not null).ToDictionary(p => p.Name, p => p.Mirrored!, StringComparer.Ordinal);
        string Original(string panel) => original.GetValueOrDefault(panel, panel);
        string? Built(Change c) => c.Thing is "stack" or "joint" || c.Kind == ChangeKind.New && c.Thing == "panel" ? null : built.GetValueOrDefault(c.Name) ?? built.GetValueOrDefault(c.Panel);
        var told = new Dictionary<string, int>(StringComparer.Ordinal);
        var folded = new List<Change>();
        // Originals first, so that a mirror always finds what it repeats.
        foreach (var change in changes.Select(c => c with { Built = Built(c) }).OrderBy(c => original.ContainsKey(c.Panel)))
        {
            string signature = Signature(change, Original);
            bool isMirror = change.Thing != "part" && change.Panel.Length > 0 ? original.ContainsKey(change.Panel) : change.Thing == "joint";
            if (isMirror && told.TryGetValue(signature, out int index) && folded[index].Name != change.Name && folded[index].Built == change.Built)
            {
                folded[index] = folded[index] with { Mirrors = folded[index].Mirrors.Add(change.Name) };
                continue;
            }
            told.TryAdd(signature, folded.Count);
            folded.Add(change);
        }
        // The parts of a mirrored panel are numbered from its other end, so that they can't be matched by name; they change as the panel does.
        var alike = folded.Where(c => c.Thing == "panel").SelectMany(c => c.Mirrors.Select(m => (Mirror: m, Of: c.Name))).ToDictionary(m => m.Mirror, m => m.Of, StringComparer.Ordinal);
        return [.. folded.Where(c => c.Thing != "part" || !alike.ContainsKey(c.Panel))
            .Select(c => c.Thing == "part" ? c with { Mirrors = [.. alike.Where(m => m.Value == c.Panel).Select(m => m.Key).Order(StringComparer.Ordinal)] } : c)];
    }

    private static string Signature(Change change, Func<string, string> original)
    {
        string name = change.Panel.Length > 0 && change.Name.StartsWith(change.Panel, StringComparison.Ordinal) ? original(change.Panel) + change.Name[change.Panel.Length..] : change.Name;
        if (change.Thing == "joint") name = Joint(change.Name, original);
        // Left and right change places in a mirror, and so do the two ends of what runs along; sizes stay.
        var details = change.Details.Select(d => d.What switch
        {
            "place" => "place " + d.New.Replace(" left", " aside", StringComparison.Ordinal).Replace(" right", " aside", StringComparison.Ordinal),
            var what when what.StartsWith("edge ", StringComparison.Ordinal) || what.StartsWith("corner ", StringComparison.Ordinal) || what.StartsWith("bevel ", StringComparison.Ordinal) => what.Split(' ')[0] + d.Old + d.New,
            "zones" => "zones",
            _ => $"{d.What} {d.Old} {d.New}",
        }).Order(StringComparer.Ordinal);
        return $"{change.Thing} {name} {change.Kind} {string.Join('|', details)}";
    }

    private static string Joint(string name, Func<string, string> original) =>
        string.Join(" to ", name.Split(" to ").Select(side =>
        {
            int dot = side.LastIndexOf('.');
            string edge = side[(dot + 1)..];
            return original(side[..dot]) + "." + (edge is "left" or "right" ? "side" : edge.Replace("left_", "side_", StringComparison.Ordinal).Replace("right_", "side_", StringComparison.Ordinal));
        }));
}
