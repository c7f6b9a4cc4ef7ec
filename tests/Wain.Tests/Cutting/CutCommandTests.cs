using Wain.Cli;
using Wain.Cli.Cutting;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Text;

namespace Wain.Tests.Cutting;

/// <summary>From a spec to a plan that is kept, shown and told when it is old. All figures are invented; plans are judged by a check that has none of the planner's code.</summary>
public sealed class CutCommandTests : IDisposable
{
    // Four decks of 40 in by 40 in: from sheets of 48 in by 96 in at most two come out of each, since 3 x 40 in is more than 96 in and 2 x 40 in more than 48 in.
    private const string Text = """
        written for wain 1
        camper "Demo" { kerf 1/8 in }
        sheet ply { thickness 6 mm
            size 48 in by 96 in, price 40 USD, on 2026-01-05
            density 600 kg/m3 }
        stick strip { section 3/4 in by 1 1/2 in
            length 96 in, price 4 USD, on 2026-01-05
            density 450 kg/m3 }
        board foam { thickness 3/4 in
            size 48 in by 96 in, price 20 USD, on 2026-01-05
            density 30 kg/m3 }
        stack skin { sheet ply
            core frame of strip, flat, filled with foam }

        """;

    private readonly string _folder = Directory.CreateTempSubdirectory("wain-cut").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Spec(string side = "40 in")
    {
        string path = Path.Combine(_folder, "demo.wain");
        File.WriteAllText(path, Text.ReplaceLineEndings("\n") + "\n" + string.Concat(Enumerable.Range(1, 4).Select(n =>
            $"panel deck{n} of skin {{ through (0 in, 0 in, {n}0 in) along (0 in, -{side}, {n}0 in) up (40 in, 0 in, {n}0 in)\n    frame {{ studs every 16 in }} }}\n")));
        return path;
    }

    private (int Code, string Output, string Errors) Wain(params string[] args)
    {
        var (output, errors) = (new StringWriter(), new StringWriter());
        return (Entry.Run([.. args, "--out", Path.Combine(_folder, "out")], output, errors), output.ToString(), errors.ToString());
    }

    private string Kept => Path.Combine(_folder, "out", "demo", KeptPlan.Name);

    [Fact]
    public void A_plan_is_whole_cheapest_and_the_same_twice()
    {
        var first = Wain("cut", Spec(), "--steps", "20000");
        Assert.True(first.Code == 0, first.Output + first.Errors);
        var design = Compiler.Compile(new SourceText("demo.wain", File.ReadAllText(Spec()))).Design!;
        var plan = KeptPlan.Matching(Path.GetDirectoryName(Kept)!, design.CutLists);
        Assert.NotNull(plan);
        Assert.Null(PlanCheck.FirstProblem(plan, design.CutLists));
        var ply = plan.Materials.Single(m => m.Material == "ply");
        Assert.Equal((2, 8000, true), (ply.Bought.Sum(b => b.Count), ply.Cost, ply.IsProven));
        Assert.All(plan.Materials, m => Assert.True(m.Bound <= m.Cost && m.Bound > 0));
        byte[] kept = File.ReadAllBytes(Kept);
        File.Delete(Kept);
        Wain("cut", Spec(), "--steps", "20000");
        Assert.Equal(kept, File.ReadAllBytes(Kept));
    }

    [Fact]
    public void The_check_sees_a_plan_that_breaks_a_rule()
    {
        Wain("cut", Spec(), "--steps", "20000");
        var lists = Compiler.Compile(new SourceText("demo.wain", File.ReadAllText(Spec()))).Design!.CutLists;
        var plan = KeptPlan.Read(Path.GetDirectoryName(Kept)!)!;
        CuttingPlan With(Func<MaterialPlan, MaterialPlan> change) => plan with { Materials = [.. plan.Materials.Select(m => m.Material == "ply" ? change(m) : m)] };
        CuttingPlan Sheet(Func<CutPlanSheet, CutPlanSheet> change) => With(m => m with { Sheets = m.Sheets.SetItem(0, change(m.Sheets[0])) });
        Assert.Null(PlanCheck.FirstProblem(plan, lists));
        Assert.NotNull(PlanCheck.FirstProblem(Sheet(s => s with { Parts = s.Parts.RemoveAt(0) }), lists));
        Assert.NotNull(PlanCheck.FirstProblem(Sheet(s => s with { Parts = s.Parts.SetItem(0, s.Parts[0] with { X = s.Width }) }), lists));
        Assert.NotNull(PlanCheck.FirstProblem(Sheet(s => s with { Parts = [.. s.Parts.Select(p => p with { X = s.Parts[0].X, Y = s.Parts[0].Y })] }), lists));
        Assert.NotNull(PlanCheck.FirstProblem(With(m => m with { Cost = m.Cost + 1 }), lists));
        Assert.NotNull(PlanCheck.FirstProblem(With(m => m with { Bound = m.Cost + 1 }), lists));
    }

    [Fact]
    public void A_build_uses_the_plan_keeps_it_and_tells_when_it_is_old()
    {
        string spec = Spec();
        Wain("cut", spec, "--steps", "20000");
        Assert.Contains("kept plan stays", Wain("cut", spec, "--steps", "20000").Output);
        var built = Wain("build", spec);
        Assert.True(built.Code == 0, built.Errors);
        Assert.DoesNotContain("out of date", built.Errors);
        string folder = Path.GetDirectoryName(Kept)!;
        Assert.True(File.Exists(Path.Combine(folder, "cutting", "ply_1.svg")));
        Assert.Contains("ply 1.01", File.ReadAllText(Path.Combine(folder, "workbook.txt")));
        Assert.Equal(0, Wain("build", spec, "--verify").Code);
        var old = Wain("build", Spec("41 in"));
        Assert.Contains("the cutting plan is out of date", old.Errors);
        Assert.True(File.Exists(Kept));
        Assert.False(File.Exists(Path.Combine(folder, "cutting", "ply_1.svg")));
    }

    [Fact]
    public void Only_cutting_loads_the_planner()
    {
        string spec = Spec(), into = Path.Combine(_folder, "out");
        Assert.Equal("0 False", Child.Run(["loads", "build", spec, "--out", into]).Output.Trim());
        Assert.Equal("0 True", Child.Run(["loads", "cut", spec, "--out", into, "--steps", "1000"]).Output.Trim());
        Assert.Equal("0 False", Child.Run(["loads", "build", spec, "--out", into]).Output.Trim());
    }

    [Fact]
    public void The_demo_is_planned_with_its_bounds()
    {
        var lists = Drawing.Panels.Samples.Heron.CutLists;
        var plan = CutRun.Plan(lists, KeptPlan.KeyOf(lists), 5_000, (_, _, _, _, _) => { }, default);
        Assert.Null(PlanCheck.FirstProblem(plan, lists));
        Assert.All(plan.Materials, m => Assert.True(m.Bound <= m.Cost));
        Assert.Contains(plan.Materials, m => m.IsProven);
    }
}
