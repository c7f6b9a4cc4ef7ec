using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A stud or a row of blocking that is placed where its panel has nothing is not laid, and must be told.</summary>
public static class MembersOnPanel
{
    private static readonly string Text = Examples.Wall(60, 30, "frame {\n    studs every 16 in, on centre\n    blocking at UP up\n}");

    public static readonly FindingInfo Info = new("WN4151", "member-off-panel", Level.Warning, "A member of a frame is placed where the panel is not",
        "Places of studs and blocking are told from the panel's lower left corner, seen from outside. One past the far edge, or a row that ends before it begins, is left out of the frame, the list and the buying.",
        Text.With("UP", "40 in"), Text.With("UP", "14 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var e = input.Spec.Evaluator;
        foreach (var frame in input.Frames.All)
        {
            if (frame.Zone is not null || frame.Rules.Fact is not { } fact || PanelFacts.IsTurnedRound(frame.Panel, fact)) continue;
            var panel = frame.Panel;
            double along = frame.Rules.Turned ? panel.Height : panel.Width;
            foreach (var stud in fact.All("stud"))
                if (e.Length(stud, "at") is { } at && (at <= 0 || at >= along)) yield return Tell(stud, $"A stud of {panel.Name} is placed at {input.Say.Length(at)}", along, at);
            foreach (var row in fact.All("blocking"))
            {
                if (e.Length(row, "at") is not { } up) continue;
                double? from = e.Length(row, "from"), to = e.Length(row, "to");
                if (up <= 0 || up >= panel.Height) yield return Tell(row, $"Blocking of {panel.Name} is placed {input.Say.Length(up)} up", panel.Height, up);
                else if (from >= to) yield return new Finding(Info, $"Blocking of {panel.Name} runs from {input.Say.Length(from.Value)} to {input.Say.Length(to.Value)}: the lesser place comes first.", row.Span) { Subject = panel.Name, Fixes = [Fixing.Write(input.Spec, row, "to", input.Say.AtMost(panel.Width))] };
                else if (from >= panel.Width || to <= 0) yield return Tell(row, $"Blocking of {panel.Name} runs from {input.Say.Length(from ?? 0)} to {input.Say.Length(to ?? panel.Width)}", panel.Width, from ?? to!.Value);
            }
        }

        Finding Tell(BoundFact member, string what, double reach, double at) => new(Info, $"{what}, and the panel is {input.Say.Nearly(reach)} there.", member.Span)
        {
            Subject = member.Parent!.Parent!.Name!,
            Hint = "Places are told from the panel's lower left corner, seen from outside.",
            Fixes = at < 0 && member.Slots.TryGetValue("at", out var written) && Fixing.WithoutMinus(written.Terms[0]) is [var plain] ? [plain] : [Fixing.TakeOut(member)],
        };
    }
}
