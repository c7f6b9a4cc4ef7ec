using System.Collections.Immutable;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>A workbook that was made, or why none could be.</summary>
/// <param name="Bytes">The xlsx file; null if <paramref name="Error"/> is set.</param>
/// <param name="Text">The text form to diff; it leaves out the builder's columns, so it changes with the design alone.</param>
/// <param name="Essence">What <see cref="WorkbookText.Essence(byte[])"/> gives for the bytes.</param>
/// <param name="Error">One sentence for a person; null if all went well.</param>
/// <param name="Notices">Texts that were cut or cleaned, notes that lost their part.</param>
public sealed record WorkbookResult(byte[]? Bytes, string? Text, string? Essence, string? Error, ImmutableArray<WorkbookNotice> Notices);

/// <summary>Reports as workbooks. Pure: the same report and the same earlier workbook give the same bytes on any machine.</summary>
public static class Workbook
{
    /// <summary>Makes the workbook and its text form.</summary>
    /// <param name="report">What to show.</param>
    /// <param name="previous">The workbook that this one replaces, whose builder's columns are carried over; null for none.</param>
    public static WorkbookResult Make(Report report, byte[]? previous = null)
    {
        var bare = WorkbookPlan.Of(report);
        if (bare.Error is not null) return new(null, null, null, bare.Error, []);
        var plan = bare;
        ImmutableArray<WorkbookNotice> carried = [];
        if (previous is not null)
        {
            var carry = CarryOver.Into(report, bare, previous);
            if (carry.Error is not null) return new(null, null, null, carry.Error, []);
            carried = carry.Notices;
            if (!ReferenceEquals(report, carry.Report)) plan = WorkbookPlan.Of(report = carry.Report);
            if (plan.Error is not null) return new(null, null, null, plan.Error, []);
        }
        return new(WorkbookFile.Write(report, plan), WorkbookText.Of(bare), WorkbookText.Essence(plan), null, [.. plan.Notices, .. carried]);
    }
}
