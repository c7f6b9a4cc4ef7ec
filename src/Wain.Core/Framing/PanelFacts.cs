using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>The facts of a panel as they hold for it: a mirrored panel has those of its original, but for the kinds that its own block states anew.</summary>
public static class PanelFacts
{
    public static IEnumerable<BoundFact> All(PlacedPanel panel, string keyword)
    {
        if (panel.Fact.MirrorOf is not { } original) return panel.Fact.All(keyword);
        var own = panel.Fact.All(keyword).ToList();
        return own.Count > 0 ? own : original.All(keyword);
    }

    public static BoundFact? Find(PlacedPanel panel, string keyword) => All(panel, keyword).FirstOrDefault();

    /// <summary>True if the fact was written for the panel that this one mirrors, so that its left is this one's right.</summary>
    public static bool IsTurnedRound(PlacedPanel panel, BoundFact? fact)
    {
        if (panel.Mirrored is null) return false;
        for (var f = fact; f is not null; f = f.Parent) if (ReferenceEquals(f, panel.Fact) && panel.Fact.Keyword == "mirror") return false;
        return true;
    }

    /// <summary>
    /// The edges of an outline that a word names: all, those of that name, or for bottom, right, top and left those that look that way
    /// (within 45 degrees).
    /// </summary>
    public static IEnumerable<int> Edges(Outline outline, string word)
    {
        bool named = word == "all";
        for (int i = 0; i < outline.Count; i++)
        {
            if (word != "all" && outline.Edges[i].Name != word) continue;
            named = true;
            yield return i;
        }
        if (named || Direction(word) is not { } side) yield break;
        for (int i = 0; i < outline.Count; i++)
            if (!outline.Segment(i).IsArc && outline.Segment(i).Chord.Unit.Right.Dot(side) > 0.7072) yield return i;
    }

    /// <summary>The outward direction that one of the four side words means, or null.</summary>
    public static Vec2? Direction(string word) => word switch
    {
        "bottom" => new Vec2(0, -1),
        "top" => new Vec2(0, 1),
        "left" => new Vec2(-1, 0),
        "right" => new Vec2(1, 0),
        _ => null,
    };

    /// <summary>The side word for a direction in the panel's axes.</summary>
    public static string SideWord(Vec2 direction) =>
        Math.Abs(direction.Y) >= Math.Abs(direction.X) ? direction.Y > 0 ? "top" : "bottom" : direction.X > 0 ? "right" : "left";

    /// <summary>The other hand of a side word; any other word stays.</summary>
    public static string OtherHand(string word) => word switch { "left" => "right", "right" => "left", _ => word };
}
