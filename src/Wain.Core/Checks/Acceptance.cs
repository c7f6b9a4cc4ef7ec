using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>
/// Accepts findings where the spec says so, one code at one place, with a reason. An accepted finding stays in every list with its reason and no longer
/// counts as an error. What text, names, units and placing have to say can't be accepted: without them there is no design.
/// </summary>
public static class Acceptance
{
    private const string Deck = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan deck_plan {
            start at (0 in, 20 in)
            leg left_side run 80 in
            leg front across 40 in
            leg right_side mirror of left_side
            leg rear home
        }
        panel deck of board { covers plan deck_plan, top at 0 in }
        """;

    public static readonly FindingInfo Info = new("WN4004", "nothing-to-accept", Level.Warning, "An accepted finding is not there",
        "What was accepted has been mended or has moved. The line would hide the next finding of its kind at that place.",
        Deck + "\naccept WN4003 for deck, because \"left open\"\n", Deck);

    public static readonly FindingInfo NoReason = new("WN4005", "accepted-without-reason", Level.Error, "A finding is accepted without a reason",
        "In a year nobody remembers why. The reason is shown beside the finding in every report.",
        Deck + "\naccept WN4003 for deck\n", Deck);

    /// <summary>The findings with those accepted marked, and what is wrong with the accepting.</summary>
    public static ImmutableArray<Finding> Apply(Spec spec, ImmutableArray<Finding> findings)
    {
        var result = findings.ToBuilder();
        foreach (var fact in spec.All("accept").ToList())
        {
            string code = fact.Word("code") ?? "", subject = fact.Has("subject") ? spec.Evaluator.SlotSpan(fact, "subject").Text : "";
            string? reason = spec.Evaluator.Text(fact, "reason");
            if (string.IsNullOrWhiteSpace(reason))
            {
                result.Add(new Finding(NoReason, $"{code} is accepted without a reason.", fact.Span) { Subject = subject, Hint = "Add: because \"...\"" });
                continue;
            }
            bool any = false;
            for (int i = 0; i < findings.Length; i++)
            {
                var f = findings[i];
                if (f.Code != code || !CanAccept(f) || !(subject.Length == 0 || f.Subject == subject || f.Subject.StartsWith(subject + ".", StringComparison.Ordinal))) continue;
                result[i] = f with { AcceptedBecause = reason };
                any = true;
            }
            if (!any)
            {
                var nearest = NearestName.Of(subject, findings.Where(f => f.Code == code).Select(f => f.Subject));
                result.Add(new Finding(Info, $"There is no finding {code}{(subject.Length > 0 ? " for " + subject : "")} to accept.{NearestName.Ask(nearest)}", fact.Span) { Subject = subject, Fixes = nearest.Count > 0 ? [Fixing.Write(spec, fact, "subject", nearest[0])] : [Fixing.TakeOut(fact)] });
            }
        }
        return result.ToImmutable();
    }

    private static bool CanAccept(Finding finding) => string.CompareOrdinal(finding.Code, "WN4000") >= 0 || finding.Code == BindingFindings.RequireFalse.Code;
}
