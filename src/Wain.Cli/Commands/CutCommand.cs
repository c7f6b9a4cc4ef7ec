using System.Collections.Immutable;
using System.Globalization;
using Wain.Cli.Cutting;
using Wain.Cli.Output;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Findings;

namespace Wain.Cli.Commands;

/// <summary>Plans how everything is cut from stock, and keeps the plan for builds.</summary>
public static class CutCommand
{
    /// <summary>About two seconds for each material on a desktop computer.</summary>
    private const int UsualSteps = 2_000_000;

    public static readonly Command Shape = new("cut", "SPEC [--steps N] [--out FOLDER]", "Plans how parts are cut from sheets, boards, sticks and rolls at least cost, says how far it could be from the best, and keeps the plan for builds.",
        [
            .. Options.Common,
            new("--steps", "N", "how long to search for each material, in steps of about a microsecond; 2000000 if it is left out"),
            new("--out", "FOLDER", "where the folder of the spec is; output if it is left out"),
        ],
        ["wain cut specs/heron/heron.wain", "wain cut my.wain --steps 20000000"], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count != 1) throw new UsageError("cut takes one spec: wain cut SPEC");
        using var stop = new CancellationTokenSource();
        ConsoleCancelEventHandler onCancel = (_, e) =>
        {
            // The search ends at once and what it has is kept; who presses twice wants out.
            e.Cancel = !stop.IsCancellationRequested;
            stop.Cancel();
        };
        Console.CancelKeyPress += onCancel;
        try
        {
            return Run(options, output, errors, !Console.IsErrorRedirected && ReferenceEquals(errors, Console.Error), stop.Token);
        }
        finally
        {
            Console.CancelKeyPress -= onCancel;
        }
    }

    /// <param name="watched">True if somebody sees the progress.</param>
    internal static int Run(Options options, TextWriter output, TextWriter errors, bool watched, CancellationToken cancel)
    {
        string spec = options.Arguments[0], folder = KeptPlan.FolderOf(spec, options);
        int steps = options.Whole("--steps", UsualSteps);
        var file = KeptPlan.Read(folder);
        var compiled = SpecFiles.Compile(spec, options, file);
        // Notes are what check is for; here they would bury what the plan says.
        FindingsOutput.Print([.. compiled.Findings.Where(f => f.Level > Level.Note && !IsOfAPlan(f))], options, errors);
        if (compiled.Design is not { } design)
        {
            errors.WriteLine($"{spec}: nothing was planned; an older plan stays.");
            return 1;
        }
        var kept = design.Cutting?.Materials ?? [];
        bool Stays(CutList list) => kept.Any(m => m.Material == list.Material && !m.Interrupted && (m.IsProven || m.Steps >= steps));
        if (file is { Plan: not null } && design.CutLists.All(Stays))
        {
            Tell(compiled, options, output, errors);
            output.WriteLine("Parts and stock are as before: the kept plan stays.");
            return Whole(design);
        }
        var line = new ProgressLine(errors, watched);
        // A choice of splices stays while the parts and the stock of its material do.
        var rows = design.Pieces.Rows.Where(r => kept.Any(m => m.Material == r.Material)).Select(r => r.Row).ToHashSet(StringComparer.Ordinal);
        var splices = SpliceRun.Choose(design, [.. (file?.Splices ?? []).Where(s => rows.Contains(s.Row))], line.Tell, cancel);
        var plans = ImmutableArray.CreateBuilder<MaterialPlan>();
        foreach (var list in design.Spliced(splices).Lists)
        {
            var old = kept.FirstOrDefault(m => m.Key == CutListKey.Of(list));
            plans.Add(old is not null && Stays(list) ? old : Better(old, CutRun.Plan(list, steps, line.Tell, cancel)));
        }
        line.Clear();
        var plan = new CuttingPlan(splices, plans.ToImmutable());
        var planned = SpecFiles.Compile(spec, options, new PlanFile(plan, null, PlanProof.Bound));
        if (planned.Findings.FirstOrDefault(f => f.Info == Core.Checks.PlanIsBroken.Info || f.Info == Core.Checks.PlanIsStale.Info) is { } fault) throw new InvalidOperationException(fault.Message);
        try
        {
            KeptPlan.Write(folder, plan);
        }
        catch (Exception fault2) when (fault2 is IOException or UnauthorizedAccessException)
        {
            errors.WriteLine($"wain: the plan could not be kept: {FileFaults.Said(fault2)}");
            return 2;
        }
        Tell(planned, options, output, errors);
        output.WriteLine($"{Path.Combine(folder, KeptPlan.Name).Replace('\\', '/')} written{(plan.Materials.Any(m => m.Interrupted) ? "; the search was stopped early, and the best plan so far is kept" : "")}. wain build shows it.");
        return Whole(planned.Design!);
    }

    private static bool IsOfAPlan(Finding finding) => string.CompareOrdinal(finding.Code, "WN7010") >= 0 && string.CompareOrdinal(finding.Code, "WN7100") < 0;

    // What no size is stated of is told, and is no fault of the plan of the rest.
    private static int Whole(Design design) => design.Cutting?.Materials.All(m => m.Problems.IsEmpty || IsUnsized(design, m)) != false ? 0 : 1;

    private static bool IsUnsized(Design design, MaterialPlan plan) => design.CutLists.Any(l => l.Material == plan.Material && l.Stock.IsEmpty);

    // A longer search of another version, or one that was stopped, must not lose what was had.
    private static MaterialPlan Better(MaterialPlan? old, MaterialPlan plan) =>
        old is not null && (old.Problems.Length, old.Net).CompareTo((plan.Problems.Length, plan.Net)) < 0 ? old with { Steps = plan.Steps, Interrupted = plan.Interrupted } : plan;

    private static void Tell(Compilation compiled, Options options, TextWriter output, TextWriter errors)
    {
        var plan = compiled.Design!.Cutting;
        ImmutableArray<Finding> told = [.. compiled.Findings.Where(IsOfAPlan)];
        if (!told.IsEmpty) FindingsOutput.Print(told, options, errors);
        foreach (var m in plan?.Materials ?? [])
        {
            if (IsUnsized(compiled.Design, m))
            {
                output.WriteLine($"{m.Material}: not planned; it states no size that it is sold in");
                continue;
            }
            int stopped = m.Sheets.Where(CuttingTables.HasStops).Sum(s => s.Times);
            string what = m.Kind switch { CutKind.Stick => "length", CutKind.Board => "board", CutKind.Roll => "roll", _ => "sheet" };
            int bought = m.Bought.Sum(b => b.Count), owned = m.Sheets.Where(s => s.Owned).Sum(s => s.Times);
            output.WriteLine($"{m.Material}: {bought} {what}{(bought == 1 ? "" : "s")}{(owned > 0 ? $" and {owned} owned" : "")}, {CuttingTables.Cost(m)}; {CuttingTables.State(m)}{(stopped > 0 ? $"; {stopped} with stopped cuts, for a jigsaw or a router" : "")}");
        }
        var priced = plan?.Materials.Where(m => m.CostUnit.Length > 0).ToList() ?? [];
        long cost = priced.Sum(m => m.Net), bound = priced.Sum(m => m.Bound);
        // What has no place costs more yet, so that nothing is proven of a sum that lacks it.
        bool whole = priced.TrueForAll(m => m.Problems.IsEmpty);
        string[] unsized = [.. priced.Where(m => IsUnsized(compiled.Design, m)).Select(m => m.Material)];
        if (priced.Count > 0) output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"All: {cost / 100.0:0.00} {priced[0].CostUnit}{(priced.Exists(m => m.Kept > 0) ? " with what is kept taken off" : "")}; {(!whole ? unsized.Length == priced.Count(m => !m.Problems.IsEmpty) ? $"without {string.Join(", ", unsized)}" : "not whole: some parts have no place" : cost == bound ? "proven: no plan costs less" : $"no plan costs less than {bound / 100.0:0.00}, a gap of {(bound > 0 ? 100.0 * (cost - bound) / bound : 100):0.#} %")}"));
        string[] boxed = [.. (plan?.Materials ?? []).Where(CuttingTables.IsBoxed).Select(m => m.Material)];
        if (boxed.Length > 0) output.WriteLine($"Of {string.Join(", ", boxed)}: a {CuttingTables.Boxed}");
    }
}
