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
                if (count * wide < room - 0.01) continue;
                int most = (int)Math.Floor((room - wide) / (2 * wide));
                yield return new Finding(Info, $"{count} studs of {frame.Panel.Name}, {input.Say.Length(wide)} wide each, take {input.Say.Length(count * wide)}; between its {(frame.Rules.Turned ? "rails" : "stiles")} are {input.Say.Nearly(room)}.", studs.Span)
                {
                    Subject = frame.Panel.Name, Hint = $"{most} leave bays as wide as a stud.", Fixes = most > 0 ? [Fixing.Write(input.Spec, studs, "count", most.ToString(System.Globalization.CultureInfo.InvariantCulture))] : [],
                };
            }
            else if (frame.Rules.Every is { } every && every <= wide + 0.01)
                yield return new Finding(Info, $"Studs of {frame.Panel.Name} every {input.Say.Length(every)} are {input.Say.Length(wide)} wide: no bay is left between them.", studs.Span)
                {
                    Subject = frame.Panel.Name, Hint = $"At least {input.Say.AtLeast(2 * wide)} leaves bays as wide as a stud.", Fixes = [Fixing.Write(input.Spec, studs, "every", input.Say.AtLeast(2 * wide))],
                };
        }
    }
}
