using Wain.Core.Binding;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A subframe fits between camper and chassis, and its mounts hold it.</summary>
public static class SubframeFits
{
    private static readonly string Text = Examples.Materials + """

        stick tube { section 2 in by 3 in
            wall 1/8 in
            length 20 ft }
        panel floor of wall_stack {
            through (0 in, 20 in, LEVEL) along (0 in, -20 in, LEVEL) up (-70 in, 20 in, LEVEL)
        }
        carrier truck {
            kind subframe
            cab roof 31 in, rear 6 in, width 64 in, length 60 in
            cab_clearance 2 in
            subframe tube, high 3 in
            member rail_left from (-70 in, 17 in, -1 1/2 in) to (0 in, 17 in, -1 1/2 in)
            member rail_right from (-70 in, -17 in, -1 1/2 in) to (0 in, -17 in, -1 1/2 in)
            member cross from (-35 in, -16 in, CROSS) to (-35 in, 16 in, CROSS)
            mount left at (-10 in, MOUNT, -3 in), rated 2000 lbf
        }
        """;

    // The floor's outside face looks down and its inside lies above it.
    private static string With(string level, string cross, string mount) => Text.With("LEVEL", level).With("CROSS", cross).With("MOUNT", mount);

    private static readonly string Good = With("0 in", "-1 1/2 in", "17 in");

    public static readonly FindingInfo Frame = new("WN4405", "subframe-in-the-way", Level.Error, "A tube of the subframe is where something else is",
        "Each tube is a solid between its two ends. It passes through neither the camper, nor another tube, nor the chassis that it stands on, and it keeps from the cab as far as the camper does.",
        With("0 in", "-1 in", "17 in"), Good);

    public static readonly FindingInfo Mount = new("WN4406", "mount-holds-nothing", Level.Error, "A mount is away from every tube of the subframe",
        "A mount ties one tube to the chassis. The body builder's guide of the truck's maker says where mounts may go and of which kind they are; frames must stay free to twist.",
        With("0 in", "-1 1/2 in", "12 in"), Good);

    public static readonly FindingInfo Bearing = new("WN4407", "camper-off-its-subframe", Level.Error, "The camper does not rest on its subframe",
        "Its weight goes into the tubes, so its underside must lie on them.",
        With("1 in", "-1 1/2 in", "17 in"), Good);

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var fault in SubframeFit.Of(input.Structure, input.Clearance.Bodies))
        {
            string by = input.Say.Nearly(fault.Amount);
            var (info, message, hint) = fault.Kind switch
            {
                SubframeFaultKind.Camper => (Frame, $"Tube {fault.What} and {fault.Other} pass through each other by {by}.", $"Lower the tube by {by}, or shorten it."),
                SubframeFaultKind.Tubes => (Frame, $"Tubes {fault.Other} and {fault.What} pass through each other by {by}.", $"End one of them at the side of the other."),
                SubframeFaultKind.Cab => (Frame, $"Tube {fault.What} comes {by} too near to the cab.", $"End it {by} farther aft."),
                SubframeFaultKind.Chassis => (Frame, $"Tube {fault.What} reaches {by} below the top of the chassis.", $"Raise it by {by}, or state the subframe {by} higher."),
                SubframeFaultKind.Mount => (Mount, $"Mount {fault.What} is {by} from the nearest tube, {fault.Other}.", $"Move it to a tube, within {input.Say.Length(SubframeFit.MountReach)} of its side."),
                _ => (Bearing, $"{fault.Other} is {by} from the nearest tube, {fault.What}.", $"Lower the camper or raise the tubes by {by}."),
            };
            yield return new Finding(info, message, fault.Fact.HeadSpan) { Subject = fault.Fact.Path, Hint = hint, Fixes = Fixing.One(Mended(input, fault)) };
        }
    }

    // A tube moves up or down whole; a mount goes to the middle of the tube that is nearest to it, at its own height.
    private static Fix? Mended(CheckInput input, SubframeFault fault)
    {
        if (fault.Member is not { } tube) return null;
        switch (fault.Kind)
        {
            case SubframeFaultKind.Camper: return Level(tube, -fault.Amount);
            case SubframeFaultKind.Chassis: return Level(tube, fault.Amount);
            case SubframeFaultKind.Mount when input.Spec.Evaluator.Place(fault.Fact, "at") is { } at:
                Vec3 point = new(at[0], at[1], at[2]), along = tube.To - tube.From;
                var on = tube.From + along * Math.Clamp((point - tube.From).Dot(along) / along.Dot(along), 0, 1);
                return Fixing.Write(input.Spec, fault.Fact, "at", Place(on with { Z = point.Z }));
            default: return null;
        }

        Fix? Level(SubframeMember member, double by)
        {
            if (Math.Abs((member.To - member.From).Unit.Z) > 0.01) return null;
            Span from = input.Spec.Evaluator.SlotSpan(member.Fact, "from"), to = input.Spec.Evaluator.SlotSpan(member.Fact, "to");
            double whole = Math.Sign(by) * Math.Ceiling(Math.Abs(by) / 25.4 * 16 - 1e-3) / 16 * 25.4;
            string text = $"{Place(member.From + new Vec3(0, 0, whole))} to {Place(member.To + new Vec3(0, 0, whole))}";
            return from.End <= to.Start ? new Fix(from.To(to), text, $"write {text}") : null;
        }

        string Place(Vec3 at) => $"({input.Say.Length(at.X)}, {input.Say.Length(at.Y)}, {input.Say.Length(at.Z)})";
    }
}
