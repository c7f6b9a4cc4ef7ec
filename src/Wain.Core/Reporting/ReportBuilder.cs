using System.Collections.Immutable;
using Wain.Core.Figures;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Takeoff;

namespace Wain.Core.Reporting;

/// <summary>Takeoff and frames to the tables of the workbook and of summaries.</summary>
public static class ReportBuilder
{
    /// <param name="more">Tables of later passes, such as balance, strength and warmth, in the order that they are shown in.</param>
    public static Report Of(TakeoffResult takeoff, Frames frames, FigureBook book, ImmutableArray<Finding> findings, ImmutableArray<Table> more = default)
    {
        var spec = takeoff.Structure.Spec;
        var units = ReportUnits.Read(spec);
        var ledger = LedgerTables.Of(takeoff, units);
        ImmutableArray<Table> tables =
        [
            SumTables.Summary(takeoff, book, units), BuyTable.Of(takeoff, units), PanelTables.Panels(takeoff, book, units), ledger[0], PanelTables.Members(frames, units), ledger[1], ScrewTable.Of(takeoff.Structure, units),
            PanelTables.Openings(takeoff, units), ledger[2], ledger[3], .. SumTables.Assemblies(takeoff, units), SumTables.Costs(takeoff, book), SumTables.Weights(takeoff, book, units), .. more.IsDefault ? [] : more, SumTables.Sources(takeoff, book),
        ];
        var camper = spec.All("camper").FirstOrDefault();
        string title = camper is null ? "Camper" : spec.Evaluator.Text(camper, "title") ?? "Camper", revision = camper is null ? "" : spec.Evaluator.Text(camper, "revision") ?? "";
        string remark = camper?.Find("note") is { } note ? spec.Evaluator.Text(note, "text") ?? "" : "";
        return new Report(title, revision, ReportHash.Of(tables)) { DesignHash = ReportHash.OfDesign(tables), Remark = remark, IsDraft = findings.HasErrors(), Cautions = Cautions.All, Findings = findings, Tables = tables, Paper = spec.Say.Metric ? Paper.A4 : Paper.Letter };
    }
}
