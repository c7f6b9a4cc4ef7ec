using System.Collections.Immutable;
using Wain.Cli.Cutting;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Tests.Cutting;

/// <summary>Splices are placed where cutting costs least, within the rules of the panel, and stay while their row does. All figures are invented.</summary>
public class SpliceChoiceTests
{
    // A row of 100 in and three lids of 60 in, all as wide as the sheet of 96 in. In two pieces, one is at least 50 in long and shares no sheet with a lid, nor do
    // two lids: four sheets. In three, of 36, 28 and 36 in, each fills up the sheet of a lid: three sheets, and 280 in can't come out of two of 96 in.
    private static string Text(string rule = "", string more = "") => $$"""
        written for wain 1
        camper "Demo" { kerf 0 in }
        sheet ply { thickness 6 mm
            size 48 in by 96 in, price 40 USD, on 2026-01-05
            grain along
            density 600 kg/m3 }
        stack skin { sheet ply }
        panel deck of skin { through (0 in, 0 in, 0 in) along (100 in, 0 in, 0 in) up (0 in, 48 in, 0 in)
            grain along
            splice across length { butt backed by 3 in
                {{rule}} } }
        """ + "\n" + string.Concat(Enumerable.Range(1, 3).Select(n =>
            $"panel lid{n} of skin {{ through (0 in, 0 in, {n}0 in) along (60 in, 0 in, {n}0 in) up (0 in, 48 in, {n}0 in)\n    grain along }}\n")) + more;

    private static Design Design(string text, PlanFile? plan = null) => Compiler.Compile(new SourceText("demo.wain", text.ReplaceLineEndings("\n")), plan: plan).Design!;

    private static (ImmutableArray<ChosenSplice> Splices, MaterialPlan Plan) Chosen(string text)
    {
        var design = Design(text);
        var splices = SpliceRun.Choose(design, [], _ => { }, default);
        var list = design.Spliced(splices).Lists.Single();
        var plan = CutRun.Plan(list, 20_000, _ => { }, default);
        Assert.Null(PlanCheck.FirstProblem(plan, list));
        return (splices, plan);
    }

    private static double[] Inches(ChosenSplice splice) => [.. splice.At.Select(a => Math.Round(a / 25.4, 3))];

    [Fact]
    public void The_split_that_costs_least_is_taken()
    {
        Assert.Equal(16000, CutRun.Plan(Design(Text()).CutLists.Single(), 20_000, _ => { }, default).Cost);
        var (splices, plan) = Chosen(Text());
        Assert.Equal((12000, true), (plan.Cost, plan.IsProven));
        double[] at = [0, .. Inches(Assert.Single(splices)), 100];
        Assert.Equal(4, at.Length);
        Assert.All(at.Zip(at.Skip(1)), p => Assert.True(p.Second - p.First <= 36 + 1e-6));
    }

    [Fact]
    public void The_rules_of_the_panel_are_kept()
    {
        // No piece under 35 in: three take 105 in, so two it is, and four sheets.
        var (splices, plan) = Chosen(Text("least piece 35 in"));
        Assert.Equal(16000, plan.Cost);
        double[] at = [0, .. Inches(Assert.Single(splices)), 100];
        Assert.All(at.Zip(at.Skip(1)), p => Assert.True(p.Second - p.First >= 35 - 1e-6));
    }

    [Fact]
    public void The_choice_stays_while_its_row_does()
    {
        var splices = Chosen(Text()).Splices;
        PlanFile File(params MaterialPlan[] plans) => new(new CuttingPlan(splices, [.. plans]), null, PlanProof.Bound);
        Assert.Equal(3, Design(Text(more: "\nshop { people 2 }\n"), File()).Pieces.All.Count(p => p.Panel.Name == "deck"));
        // Another length of the deck, or a rule that the places break: placed anew.
        Assert.Equal(2, Design(Text().Replace("(100 in", "(101 in"), File()).Pieces.All.Count(p => p.Panel.Name == "deck"));
        Assert.Equal(2, Design(Text("least piece 35 in"), File()).Pieces.All.Count(p => p.Panel.Name == "deck"));
        // A choice is not made again where it is given.
        ImmutableArray<ChosenSplice> other = [splices[0] with { At = [50 * 25.4] }];
        Assert.Equal(other[0].At, SpliceRun.Choose(Design(Text()), other, _ => { }, default).Single().At);
    }

    [Fact]
    public void A_mirrored_panel_is_spliced_as_its_original_turned_round()
    {
        string text = Text().Replace("panel deck of skin { through (0 in, 0 in, 0 in) along (100 in, 0 in, 0 in) up (0 in, 48 in, 0 in)",
            "panel deck of skin { through (0 in, 20 in, 0 in) along (100 in, 20 in, 0 in) up (0 in, 20 in, 48 in)") + "mirror deck as other\n";
        var design = Design(text);
        ImmutableArray<ChosenSplice> splices = [.. design.Pieces.Rows.Select(r => ChosenSplice.Of(r, [r.Question.From + 30 * 25.4]))];
        Assert.Single(splices);
        double[] Of(string panel) => [.. design.Spliced(splices).Pieces.All.Where(p => p.Panel.Name == panel).Select(p => Math.Round(p.BlankLength / 25.4, 3))];
        Assert.Equal(Of("deck").Reverse(), Of("other"));
        Assert.Contains(30, Of("deck"));
    }

    [Fact]
    public void Every_option_keeps_the_rules_and_the_first_is_the_usual_one()
    {
        var random = new Random(20261125);
        for (int k = 0; k < 300; k++)
        {
            var q = new SpliceQuestion(0, random.Next(60, 300), random.Next(0, 4), random.Next(40, 100), random.Next(0, 30), k % 3 == 0, [.. Enumerable.Range(1, 20).Select(i => i * 16.0)], k % 4 == 0 ? [50, 110] : [], random.Next(0, 8));
            var options = SplicePlanner.Options(q, [20, 30], 12);
            Assert.All(options, o => Assert.True(SplicePlanner.Keeps(q, o)));
            Assert.Equal(SplicePlanner.Place(q)?.AsEnumerable() ?? [], options.IsEmpty ? [] : options[0]);
            Assert.True(options.Length <= 25);
            Assert.All(options, o => Assert.InRange(o.Length, options[0].Length, options[0].Length + 1));
        }
    }
}
