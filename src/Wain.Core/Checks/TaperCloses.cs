using System.Collections.Immutable;
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

    private const string Open = """
        plan nose {
            start at (0 in, 35 in)
            leg left_side run 48 in
            leg front across 70 in
            leg right_side run 48 in
            leg rear home
        }
        """;

    public static readonly FindingInfo Info = new("WN4001", "measures-disagree", Level.Error, "Stated measures of a plan disagree",
        "A taper that is stated by more measures than it needs closes only if they agree. On the bench the difference shows up as a gap at the far end of the leg, after the sheet is cut. Where one measure alone is to blame it is named, with the value that closes the plan; else the two that disagree most, with the value of each.",
        Plan.Replace("ANGLE", "8 deg", StringComparison.Ordinal), Plan.Replace("ANGLE", "5.9469 deg", StringComparison.Ordinal));

    public static readonly FindingInfo NothingToCheck = new("WN4002", "nothing-could-fail", Level.Note, "A plan states no more than it needs",
        "Nothing in it could fail to close, so closing says nothing about whether the numbers are right. One more measure, taken from the truck or the sketch, would be checked.",
        Open, Open.Replace("leg rear home", "leg rear home, across 70 in", StringComparison.Ordinal));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var plan in input.Structure.Plans)
        {
            if (plan.Stated.IsEmpty) continue;
            if (!plan.CouldFail) yield return new Finding(NothingToCheck, $"Plan {plan.Name} states nothing more than it needs, so nothing in it could fail to close.", plan.Fact.NameSpan) { Subject = plan.Name };
            var wrong = plan.Misfits.Where(m => m.Error > plan.Tolerance).ToList();
            if (wrong.Count > 0 && plan.Slips is [_, ..] slips) yield return Told(input.Say, plan, wrong, slips);
            // Where no one measure is to blame, one finding for each pair that disagrees; a slip in one measure is told once where it is worst for its leg.
            else foreach (var group in wrong.GroupBy(m => m.Measure.Leg)) yield return Told(input.Say, plan, group.MaxBy(x => x.Error)!);
        }
    }

    /// <summary>One finding for all that disagrees, since each of these measures alone would close it.</summary>
    private static Finding Told(Say say, PlacedPlan plan, List<Misfit> wrong, ImmutableArray<Slip> slips)
    {
        static bool Is(StatedMeasure a, StatedMeasure b) => a.Leg == b.Leg && a.Kind == b.Kind;
        var worst = wrong.Where(m => slips.Any(s => Is(s.Measure, m.Measure) || Is(s.Measure, m.Against))).MaxBy(m => m.Error) ?? wrong.MaxBy(m => m.Error)!;
        var (first, second, by) = (worst.Measure, worst.Against, worst.Error);
        // The one to blame comes first, by how much it is off itself.
        if (slips is [var only] && !IsAngle(only.Measure.Kind)) (first, second, by) = (only.Measure, Is(only.Measure, first) ? second : first, Math.Abs(only.Measure.Value - only.Closing));
        // Two that disagree with nothing but the way home disagree with each other.
        else if (slips is [var a, var b, ..] && worst.Against == worst.Measure && !IsAngle(a.Measure.Kind)) (first, second, by) = (a.Measure, b.Measure, Math.Abs(a.Measure.Value - a.Closing));
        string closes = string.Join(", or with ", slips.Select(s => Closes(say, s.Measure, s.Closing)));
        return new Finding(Info, $"Plan {plan.Name}: {Both(say, first, second)} disagree by {say.Length(by)}{At(first)}.", first.Place)
        {
            Subject = $"{plan.Name}.{first.Leg}",
            Hint = $"It closes with {closes}{(slips.Length == 1 && wrong.Count > 1 ? "; all else that the plan states then agrees" : "")}.",
            Related = second.Place == first.Place ? [] : [new Related(second.Place, "the other measure")],
            Fixes = [.. slips.Select(s => Written(say, s))],
        };
    }

    private static Finding Told(Say say, PlacedPlan plan, Misfit m) => new(Info, $"Plan {plan.Name}: {Both(say, m.Measure, m.Against)} disagree by {say.Length(m.Error)}{At(m.Measure)}.", m.Measure.Place)
    {
        Subject = $"{plan.Name}.{m.Measure.Leg}",
        Hint = m.Against == m.Measure ? $"It closes with {Closes(say, m.Measure, m.Closing)}." : $"It closes with {Told(say, m.Measure.Kind, m.Closing)}, or with {Closes(say, m.Against, m.AgainstClosing)}.",
        Related = m.Against.Place == m.Measure.Place ? [] : [new Related(m.Against.Place, "the other measure")],
        // The hint tells both values; only the first agrees with what is beside it for certain.
        Fixes = [new Fix(m.Measure.Place, Exact(say, m.Measure.Kind, m.Closing), $"write {Exact(say, m.Measure.Kind, m.Closing)}")],
    };

    private static Fix Written(Say say, Slip slip)
    {
        // To the right of the centre line a place is less than nothing.
        string text = (slip.Measure.Kind == StatedMeasure.Start && slip.Measure.Place.Text.TrimStart().StartsWith('-') ? "-" : "") + Exact(say, slip.Measure.Kind, slip.Closing);
        return new Fix(slip.Measure.Place, text, $"write {text}");
    }

    private static string Both(Say say, StatedMeasure first, StatedMeasure second) => $"{Tell(say, first)} and {(second == first ? "the way that is left to the start" : Tell(say, second))}";

    private static string At(StatedMeasure m) => m.Kind == StatedMeasure.Start ? "" : $" at the far end of leg {m.Leg}";

    private static string Closes(Say say, StatedMeasure m, double value) => m.Kind == StatedMeasure.Start ? $"a start {say.Length(value)} off the centre line" : $"{Told(say, m.Kind, value)} of leg {m.Leg}";

    private static bool IsAngle(string kind) => kind is "inward" or "outward";

    private static string Tell(Say say, StatedMeasure m) => m.Kind == StatedMeasure.Start ? $"the start, {say.Length(m.Value)} off the centre line," : $"{m.Kind} {(IsAngle(m.Kind) ? Say.Angle(m.Value) : say.Length(m.Value))} of leg {m.Leg}";

    private static string Told(Say say, string kind, double value) => $"{kind} {(IsAngle(kind) ? (value * 180 / Math.PI).ToString("0.###", CultureInfo.InvariantCulture) + " deg" : say.Length(value))}";

    private static string Exact(Say say, string kind, double value) => IsAngle(kind) ? (value * 180 / Math.PI).ToString("0.####", CultureInfo.InvariantCulture) + " deg" : Nearly(say, value);

    // What a tape shows to within a hair is written so; the rest to where it closes.
    private static string Nearly(Say say, double mm) => Math.Round(mm / Hair(say)) * Hair(say) is var marked && Math.Abs(marked - mm) < 0.02 ? say.Length(marked)
        : say.Metric ? Say.Number(mm, "0.###") + " mm" : Say.Number(mm / 25.4, "0.####") + " in";

    private static double Hair(Say say) => say.Metric ? 0.5 : 25.4 / 64;
}
