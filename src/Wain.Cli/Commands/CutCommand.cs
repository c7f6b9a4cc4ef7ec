using System.Collections.Immutable;
using System.Globalization;
using Wain.Cli.Cutting;
using Wain.Core.CutLists;

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
        string spec = options.Arguments[0];
        int steps = options.Whole("--steps", UsualSteps);
        var compiled = SpecFiles.Compile(spec, options);
        FindingsOutput.Print(compiled.Findings, options, errors);
        if (compiled.Design is not { } design)
        {
            errors.WriteLine($"{spec}: nothing was planned; an older plan stays.");
            return 1;
        }
        string folder = Path.Combine(options.Value("--out") ?? "output", Path.GetFileNameWithoutExtension(spec)), key = KeptPlan.KeyOf(design.CutLists);
        if (KeptPlan.Matching(folder, design.CutLists) is { Interrupted: false } kept && kept.Steps >= steps)
        {
            Tell(kept, output);
            output.WriteLine("Parts and stock are as before: the kept plan stays.");
            return 0;
        }
        using var stop = new CancellationTokenSource();
        ConsoleCancelEventHandler onCancel = (_, e) =>
        {
            // The search ends at once and what it has is kept.
            e.Cancel = true;
            stop.Cancel();
        };
        bool shows = !Console.IsErrorRedirected && ReferenceEquals(errors, Console.Error);
        Console.CancelKeyPress += onCancel;
        CuttingPlan plan;
        try
        {
            plan = CutRun.Plan(design.CutLists, key, steps, (material, done, allowed, cost, bound) =>
            {
                if (shows) errors.Write(string.Create(CultureInfo.InvariantCulture, $"\r{material}: {(allowed > 0 ? 100 * done / allowed : 100)} % of the search{(cost < 0 ? "" : $", cost {cost / 100.0:0.00}, at least {bound / 100.0:0.00}")}   "));
            }, stop.Token);
        }
        finally
        {
            Console.CancelKeyPress -= onCancel;
        }
        if (shows) errors.Write("\r" + new string(' ', 78) + "\r");
        if (PlanCheck.FirstProblem(plan, design.CutLists) is { } problem) throw new InvalidOperationException("The plan breaks a rule: " + problem);
        try
        {
            KeptPlan.Write(folder, plan);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            errors.WriteLine($"wain: the plan could not be kept: {fault.Message}");
            return 2;
        }
        Tell(plan, output);
        output.WriteLine($"{Path.Combine(folder, KeptPlan.Name).Replace('\\', '/')} written{(plan.Interrupted ? "; the search was stopped early, and the best plan so far is kept" : "")}. wain build shows it.");
        return plan.Materials.All(m => m.Problems.IsEmpty) ? 0 : 1;
    }

    private static void Tell(CuttingPlan plan, TextWriter output)
    {
        foreach (var m in plan.Materials)
        {
            string what = m.Kind switch { CutKind.Stick => "length", CutKind.Board => "board", CutKind.Roll => "roll", _ => "sheet" };
            int bought = m.Bought.Sum(b => b.Count), owned = m.Sheets.Where(s => s.Owned).Sum(s => s.Times);
            output.WriteLine($"{m.Material}: {bought} {what}{(bought == 1 ? "" : "s")} to buy{(owned > 0 ? $", {owned} owned" : "")}, {CuttingTables.Cost(m)}; {CuttingTables.State(m)}");
            foreach (string problem in m.Problems) output.WriteLine($"  {problem}");
        }
    }
}
