using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;

namespace Wain.Core.Checks;

/// <summary>What follows from a cause that is told stays silent: it would be gone with it, and points elsewhere till then.</summary>
internal static class FollowOns
{
    /// <summary>Codes of what follows for the same thing, by the code of the cause: an opening off its panel has no room for members, and its trim hangs in the way of what moves.</summary>
    private static readonly ImmutableArray<(string Cause, ImmutableArray<string> Follows)> Same = [(OpeningInsideFrame.Info.Code, ["WN4104", "WN4302", "WN4303"])];

    public static ImmutableArray<Finding> Without(Spec spec, ImmutableArray<Finding> findings)
    {
        findings = UnlikelyValues.WithoutFollowing(spec, findings);
        var told = Same.SelectMany(s => findings.Where(f => f.Code == s.Cause && f.AcceptedBecause is null).SelectMany(f => s.Follows.Select(code => (code, f.Subject)))).ToHashSet();
        // The force of struts is reckoned along the lines that they were given.
        var across = findings.Where(f => f.Info == StrutsAndStraps.Across && f.AcceptedBecause is null).Select(f => f.Subject[..f.Subject.LastIndexOf('.')]).ToHashSet(StringComparer.Ordinal);
        findings = [.. findings.Where(f => !(f.Code == "WN6203" && f.AcceptedBecause is null && across.Contains(f.Subject.Split('.')[0])))];
        return told.Count == 0 ? findings : [.. findings.Where(f => f.AcceptedBecause is not null || !told.Contains((f.Code, f.Subject)))];
    }
}
