using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Studs must leave room between each other, whether they are told by spacing or by count.</summary>
public static class StudsFit
{
    private static readonly string Text = Examples.Wall(60, 30, "frame {\n    STUDS\n}");

    public static readonly FindingInfo Info = new("WN4122", "studs-too-close", Level.Error, "Studs stand closer than they are wide",
        "A spacing is from stud to stud and so must be more than a stud's width on the face; a count must leave a gap between all of them. Where they can't stand, none is laid.",
        Text.With("STUDS", "studs every 1 in on centre"), Text.With("STUDS", "studs every 16 in on centre"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All)
        {
            if (frame.Zone is not null || frame.Rules.Fact?.Find("studs") is not { } studs || frame.Clear is not { } clear) continue;
            double wide = frame.Layer.FaceWidth, room = frame.Rules.Turned ? clear.Bounds.Height : clear.Bounds.Width;
            if (frame.Rules.Count is { } count)
            {
                double bay = (room - count * wide) / (count + 1);
                if (bay > 0.01)
                {
                    if (bay >= wide / 2) continue;
                    int fewer = (int)Math.Floor((room - wide) / (2 * wide));
                    yield return new Finding(Info, $"{count} studs of {frame.Panel.Name} leave bays of {input.Say.Nearly(bay)} between members {input.Say.Length(wide)} wide.", studs.Span)
                    {
                        Level = Level.Warning, Subject = frame.Panel.Name, Hint = "Look at the number first.", Fixes = fewer > 0 ? [Fixing.Write(input.Spec, studs, "count", fewer.ToString(System.Globalization.CultureInfo.InvariantCulture))] : [],
                    };
                    continue;
                }
                int most = (int)Math.Floor((room - wide) / (2 * wide));
                yield return new Finding(Info, $"{count} studs of {frame.Panel.Name}, {input.Say.Length(wide)} wide each, take {input.Say.Length(count * wide)}; between its {(frame.Rules.Turned ? "rails" : "stiles")} are {input.Say.Nearly(room)}.", studs.Span)
                {
                    Subject = frame.Panel.Name, Hint = $"{most} leave bays as wide as a stud.", Fixes = most > 0 ? [Fixing.Write(input.Spec, studs, "count", most.ToString(System.Globalization.CultureInfo.InvariantCulture))] : [],
                };
            }
            else if (frame.Rules.Every is { } every && every <= wide + 0.01)
                yield return new Finding(Info, $"Studs of {frame.Panel.Name} every {input.Spec.Evaluator.SlotSpan(studs, "every").Text} are {input.Say.Length(wide)} wide: no bay is left between them.", studs.Span)
                {
                    Subject = frame.Panel.Name, Hint = $"At least {input.Say.AtLeast(2 * wide)} leaves bays as wide as a stud.",
                    // A spacing that is usual in another unit is a slip of the unit.
                    Fixes = [UnitSlips.Other(studs, ["every"], "every", ["in", "mm", "cm"], v => v is >= 8 * 25.4 and <= 36 * 25.4) ?? Fixing.Write(input.Spec, studs, "every", input.Say.AtLeast(2 * wide))],
                };
        }
    }
}
