using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A panel whose place already says which way its outside looks says nothing else.</summary>
public static class OutsideLooks
{
    private static readonly string Text = Examples.Materials + """

        panel shelf of deck_stack {
            through (-40 in, 10 in, 20 in) along FIRST up SECOND
            outside up
        }
        """;

    public static readonly FindingInfo Info = new("WN4138", "outside-looks-elsewhere", Level.Error, "A panel's outside face does not look the way that it says",
        "Which face is outside decides where its layers lie, what left and right mean on it, and which side its openings and recesses are told from. Points are told as seen from outside, the lower left one first: in another order the panel comes out turned over.",
        Text.With("FIRST", "(-20 in, 10 in, 20 in)").With("SECOND", "(-40 in, -10 in, 20 in)"), Text.With("FIRST", "(-40 in, -10 in, 20 in)").With("SECOND", "(-20 in, 10 in, 20 in)"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var panel in input.Structure.Panels.Where(p => p.Mirrored is null))
        {
            if (panel.Fact.Find("outside") is not { } fact || fact.Word("face") is not { } said) continue;
            double along = Direction(said).Dot(panel.Face.N);
            if (along > 0.1) continue;
            string looks = Words.MaxBy(w => Direction(w).Dot(panel.Face.N))!;
            bool turned = along < -0.1;
            yield return new Finding(Info, $"{panel.Name} says that its outside looks {said}, and as it is placed it looks {looks}.", fact.HeadSpan)
            {
                Subject = panel.Name,
                Hint = turned ? "Its points are told as seen from outside, the first at the lower left and the second to the right of it; its thickness lies behind them." : null,
                Fixes = [.. Fixing.One(turned ? Exchanged(input.Spec, panel) : null), Fixing.Write(input.Spec, fact, "face", looks)],
            };
        }
    }

    private static readonly string[] Words = ["up", "down", "left", "right", "forward", "aft"];

    private static Vec3 Direction(string word) => word switch
    {
        "up" => new(0, 0, 1), "down" => new(0, 0, -1), "left" => new(0, 1, 0), "right" => new(0, -1, 0), "forward" => new(1, 0, 0), _ => new(-1, 0, 0),
    };

    // Two points in the other order turn a panel over in the plane of its points, its outline as it was; a shape would be turned round as well.
    private static Fix? Exchanged(Spec spec, PlacedPanel panel)
    {
        if (panel.Fact.Body.FirstOrDefault(f => f.Keyword is "spans" or "through") is not { } way || way.Has("shape")) return null;
        var (a, b) = way.Keyword == "spans" ? ("a", "b") : ("along", "up");
        Span first = spec.Evaluator.SlotSpan(way, a), second = spec.Evaluator.SlotSpan(way, b);
        return new Fix(first.To(second), second.Text + first.Source.Text[first.End..second.Start] + first.Text, "exchange the two points");
    }
}
