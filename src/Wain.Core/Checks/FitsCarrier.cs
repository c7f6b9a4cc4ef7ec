using Wain.Core.Binding;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>The camper goes straight into its carrier and has room there.</summary>
public static class FitsCarrier
{
    private static readonly string Text = Examples.Materials + """

        panel floor of wall_stack {
            through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (-70 in, 20 in, 0 in)
        }
        plan nose {
            start at (0 in, 20 in)
            leg left run 44 in
            leg front across 40 in
            leg right run 44 in
            leg rear home, across 40 in
        }
        panel bunk of wall_stack {
            covers plan nose, underside at BUNK
        }
        carrier truck {
            kind bed
            bed 73 in by 54 in, depth 20 in
            wheel_well from -50 in to -22 in, between BETWEEN, high 9 in
            side_clearance 1/2 in
            cab roof 31 in, rear 3 in, width 64 in, length 60 in
            cab_clearance 2 in, pitched PITCH
            tie_down left at (-8 in, TIE, 0 in), rated 1200 lbf
            tie_down_room 2 in
        }
        """;

    private static string With(string between, string bunk, string pitch, string tie) => Text.With("BETWEEN", between).With("BUNK", bunk).With("PITCH", pitch).With("TIE", tie);

    private static readonly string Good = With("42 in", "36 in", "1 deg", "30 in");

    public static readonly FindingInfo Bed = new("WN4401", "does-not-go-in", Level.Error, "The camper does not go straight into the bed",
        "It slides in from behind, so all that is lower than the rails or the wheel wells must pass between them with the stated clearance to each side.",
        With("40 1/2 in", "36 in", "1 deg", "30 in"), Good);

    public static readonly FindingInfo Cab = new("WN4402", "too-near-cab", Level.Error, "The camper comes too near to the cab",
        "A truck's frame bends and its bed rocks against the cab. The camper must clear the cab at rest and pitched by the stated angle.",
        With("42 in", "36 in", "4 deg", "30 in"), Good);

    public static readonly FindingInfo Hold = new("WN4403", "no-room-to-tie-down", Level.Error, "There is no room at a tie-down or jack",
        "A hand, a turnbuckle or a jack must get there. Follow the maker's instructions for tie-downs and jacks, and never go under a camper that stands on jacks alone.",
        With("42 in", "36 in", "1 deg", "21 in"), Good);

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var all = CarrierFit.Of(input.Structure, input.Clearance.Bodies);
        foreach (var fit in all)
        {
            // At rest and pitched is one mistake, told where it is worse.
            var other = fit.Kind is FitKind.Cab or FitKind.CabPitched ? all.FirstOrDefault(f => f.Body == fit.Body && f.Kind is FitKind.Cab or FitKind.CabPitched && f.Kind != fit.Kind) : null;
            if (other is not null && (other.Needed - other.Room, other.Kind).CompareTo((fit.Needed - fit.Room, fit.Kind)) > 0) continue;
            string Room(TightFit f) => f.Room < 0 ? $"reaches {input.Say.Nearly(-f.Room)} into" : $"has {input.Say.Nearly(f.Room)} to";
            string Near(string what) => $"{fit.Body.Name} {Room(fit)} {what}";
            string pitched = $"when pitched {Say.Angle(input.Spec.Evaluator.Angle(fit.Fact, "angle") ?? 0)}";
            string Beside(string when) => other is null ? "" : $", and {(other.Room < 0 ? $"{input.Say.Nearly(-other.Room)} into" : $"has {input.Say.Nearly(other.Room)} to")} it {when}";
            string lacking = input.Say.Nearly(fit.Needed - fit.Room);
            var (info, message, hint) = fit.Kind switch
            {
                FitKind.BedSide => (Bed, Near("the side of the bed"), $"Make it {lacking} narrower on each side below the rails."),
                FitKind.WheelWell => (Bed, Near("the wheel well that it must pass"), $"Make it {lacking} narrower on each side below the top of the wheel wells, or raise it over them."),
                FitKind.Tailgate when fit.Fact.Word("state") == "removed" => (Bed, Near("the side of the tailgate's opening"), $"Make it {lacking} narrower on each side there."),
                FitKind.Tailgate => (Bed, Near("the tailgate"), $"Make it {lacking} smaller there, or take the tailgate off."),
                FitKind.BedFront => (Bed, Near("the front of the bed"), $"Make it {lacking} shorter below the rails."),
                FitKind.Floor => (Bed, $"{fit.Body.Name} reaches {input.Say.Nearly(-fit.Room)} below the floor that the camper stands on", $"Raise it by {lacking}."),
                FitKind.Cab => (Cab, Near("the cab at rest") + Beside(pitched), $"Raise it or move it aft by {lacking}."),
                FitKind.CabPitched => (Cab, Near($"the cab {pitched}") + Beside("at rest"), $"Raise it by {lacking}."),
                FitKind.TieDown => (Hold, Near($"tie-down {fit.Name}"), $"Move one of them by {lacking}."),
                _ => (Hold, Near($"jack {fit.Name}"), $"Move one of them by {lacking}."),
            };
            yield return new Finding(info, $"{message}; {input.Say.Length(fit.Needed)} is asked for.", fit.Fact.HeadSpan) { Subject = fit.Body.Panel.Name, Hint = hint, Fixes = Fixing.One(fit.Kind is FitKind.Cab or FitKind.CabPitched or FitKind.Floor ? Reaching.Higher(input.Spec, fit.Body.Panel, fit.Needed - fit.Room) : null), Related = [new Related(fit.Body.Panel.Fact.NameSpan, $"{fit.Body.Panel.Name} is here")] };
        }
    }
}
