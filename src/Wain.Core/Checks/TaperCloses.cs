using System.Globalization;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>
/// A leg to a point, a leg home and a mirrored leg take up whatever error there is, so closing is judged on measures: every stated length, run, angle and
/// width is compared with what the geometry gives at the leg's far end.
/// </summary>
public static class TaperCloses
{
    private const string Plan = """
        plan nose {
            start at (0 in, 35 in)
            leg left_side run 48 in, inward ANGLE, width 60 in
            leg front across 60 in
            leg right_side mirror of left_side
            leg rear home, across 70 in
        }
        """;

    public static readonly FindingInfo Info = new("WN4001", "measures-disagree", Level.Error, "Stated measures of a plan disagree",
        "A taper that is stated by more measures than it needs closes only if they agree. On the bench the difference shows up as a gap at the far end of the leg, after the sheet is cut. The two measures that disagree most are named, with the value of each that would close it.",
        Plan.Replace("ANGLE", "8 deg", StringComparison.Ordinal), Plan.Replace("ANGLE", "5.9469 deg", StringComparison.Ordinal));

    public static readonly FindingInfo NothingToCheck = new("WN4002", "nothing-could-fail", Level.Note, "A plan states no more than it needs",
        "Nothing in it could fail to close, so closing says nothing about whether the numbers are right. One more measure, taken from the truck or the sketch, would be checked.");

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var plan in input.Structure.Plans)
        {
            if (plan.Stated.IsEmpty) continue;
            if (!plan.CouldFail) yield return new Finding(NothingToCheck, $"Plan {plan.Name} states nothing more than it needs, so nothing in it could fail to close.", plan.Fact.NameSpan) { Subject = plan.Name };
            // One finding for each pair that disagrees, worst first; a slip in one measure is told once where it is worst for its leg.
            foreach (var group in plan.Misfits.Where(m => m.Error > plan.Tolerance).GroupBy(m => m.Measure.Leg))
            {
                var m = group.MaxBy(x => x.Error)!;
                yield return new Finding(Info, $"Plan {plan.Name}: {Tell(m.Measure)} and {Tell(m.Against)} disagree by {Show.Length(m.Error)} at the far end of leg {m.Measure.Leg}.", m.Measure.Place)
                {
                    Subject = $"{plan.Name}.{m.Measure.Leg}",
                    Hint = $"It closes with {Told(m.Measure.Kind, m.Closing)}, or with {Told(m.Against.Kind, m.AgainstClosing)} of leg {m.Against.Leg}.",
                    Related = m.Against.Place == m.Measure.Place ? [] : [new Related(m.Against.Place, "the other measure")],
                    // The hint tells both values; only the first agrees with every other measure of the plan for certain.
                    Fixes = [new Fix(m.Measure.Place, Exact(m.Measure.Kind, m.Closing), $"write {Exact(m.Measure.Kind, m.Closing)}")],
                };
            }
        }
    }

    private static bool IsAngle(string kind) => kind is "inward" or "outward";

    private static string Tell(StatedMeasure m) => $"{m.Kind} {(IsAngle(m.Kind) ? Show.Angle(m.Value) : Show.Length(m.Value))} of leg {m.Leg}";

    private static string Told(string kind, double value) => $"{kind} {(IsAngle(kind) ? (value * 180 / Math.PI).ToString("0.###", CultureInfo.InvariantCulture) + " deg" : Show.Length(value))}";

    private static string Exact(string kind, double value) => IsAngle(kind) ? (value * 180 / Math.PI).ToString("0.####", CultureInfo.InvariantCulture) + " deg" : (value / 25.4).ToString("0.####", CultureInfo.InvariantCulture) + " in";
}
