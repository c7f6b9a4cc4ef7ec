using System.Reflection;
using System.Text.RegularExpressions;
using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Figures;
using Wain.Core.Findings;
using Wain.Core.Takeoff;
using Wain.Core.Text;
using static Wain.Tests.Takeoff.TakeoffSpecs;

namespace Wain.Tests.Takeoff;

public partial class FigureTests
{
    private const string Materials = Ply +
        "cloth glass {\n weight 6 oz/yd2 from 5.7 oz/yd2 to 6.3 oz/yd2\n glass 0.5 from 0.4 to 0.55\n roll 50 in wide 20 yd long price 120 USD on 2026-01-05\n}\n" +
        "resin epoxy {\n density 1100 kg/m3\n fill_coat 100 g/m2\n waste 15 %\n sold by gal\n price 90 USD per gal on 2026-01-05\n}\n" +
        "coating paint {\n coverage 350 ft2/gal\n density 1200 kg/m3\n solids 0.5\n price 40 USD per gal on 2026-01-05\n}\n" +
        "adhesive glue {\n spread 200 g/m2\n density 1100 kg/m3\n price 25 USD per gal on 2026-01-05\n}\n" +
        "board foam {\n thickness 1 in\n size 48 in by 96 in\n density 25 kg/m3\n price 20 USD per sheet on 2026-01-05\n}\n" +
        "stack sandwich {\n coating paint 2 coats\n cloth glass wet with epoxy plies 1 fill coats 2\n sheet ply glued with glue\n foam foam\n sheet ply glued with glue\n}\n";

    internal static readonly string Whole = "camper \"Demo\" {\n tax 7 %\n}\n" + Materials + Deck("deck", "sandwich", "90 in", "60 in", " opening hatch {\n  size 20 in by 10 in corner 2 in\n  centred at (30 in, 20 in)\n }\n") +
        "plan side_plan {\n start at (0 in, 20 in)\n leg left forward length 40 in\n leg front right length 40 in\n leg right aft length 40 in\n leg rear home\n}\n" +
        "panel left_wall of sandwich {\n stands on side_plan.left, from 0 in to 20 in\n}\npanel right_wall of sandwich {\n stands on side_plan.right, from 0 in to 20 in\n}\n" +
        "assembly walls {\n left_wall\n right_wall\n}\nload water {\n full 12 gal\n at (0 in, 0 in, 10 in)\n}\n";

    /// <summary>A formula that reads as an expression gives the figure's own value when the language itself evaluates it.</summary>
    [Fact]
    public void FormulasGiveTheirFigures()
    {
        var formulas = Of(Whole).Figures;
        var asked = formulas.All.Where(f => f.Inputs.Length > 0 && IsExpression(formulas, f.Formula)).ToList();
        Assert.True(asked.Count > 40, $"only {asked.Count} formulas are expressions");
        var run = Of(Whole + string.Concat(asked.Select((f, i) => $"let asked_{i} = {f.Formula}\n")));
        var values = run.Structure.Spec.NamedValues.ToDictionary(v => v.Name);
        foreach (var (i, figure) in asked.Index())
        {
            var value = Assert.IsType<QuantityValue>(run.Structure.Spec.Evaluator.ValueOf(values[$"asked_{i}"])).Quantity;
            Assert.True(value.Dimension == figure.Value.Dimension, $"{figure.Name} = {figure.Formula}: {value.Dimension.Describe()}, not {figure.Value.Dimension.Describe()}");
            Assert.True(Math.Abs(value.Value - figure.Value.Value) <= 1e-9 * Math.Abs(figure.Value.Value), $"{figure.Name} = {figure.Formula}: {value.Value}, not {figure.Value.Value}");
        }
    }

    /// <summary>Every input of every figure is itself a figure, and ends at a line of the spec or a shipped default.</summary>
    [Fact]
    public void TracesEndAtTheSpec()
    {
        var run = Of(Whole);
        Assert.Empty(run.Figures.Missing);
        foreach (var figure in run.Figures.All)
        {
            foreach (string input in figure.Inputs) Assert.True(run.Figures.Find(input) is not null, $"{figure.Name} needs {input}, which is no figure");
            Assert.True(figure.From is not null || figure.Inputs.Length > 0 || figure.Name == "total.panels", $"{figure.Name} comes from nowhere");
        }
        var trace = run.Figures.Trace("total.weight")!;
        Assert.Contains(Leaves(trace), l => l.Name == "ply.density" && l.Figure!.From!.Value.Text.StartsWith("density", StringComparison.Ordinal));
        Assert.Contains(Leaves(trace), l => l.Name == "default.squeeze_out" || l.Name == "glue.spread");
    }

    /// <summary>The stated rule (GUM 5.1.2 and 5.2.2): parts of one material are high together, materials are independent.</summary>
    [Fact]
    public void SpreadsCombineByCause()
    {
        var run = Of(Ply + Ply.Replace("sheet ply", "sheet birch").Replace("600 kg/m3 from 550 kg/m3 to 700 kg/m3", "700 kg/m3 from 690 kg/m3 to 730 kg/m3") +
            "stack skin {\n sheet ply\n sheet birch\n sheet ply\n}\n" + Deck("a", "skin", "1 m", "1 m") + Deck("b", "skin", "1 m", "1 m"));
        var figure = run.Figures.Find("total.weight")!;
        double likely = 2 * 0.006 * (2 * 600 + 700), above = Math.Sqrt(Math.Pow(4 * 0.006 * 100, 2) + Math.Pow(2 * 0.006 * 30, 2)), below = Math.Sqrt(Math.Pow(4 * 0.006 * 50, 2) + Math.Pow(2 * 0.006 * 10, 2));
        Assert.Equal(likely, figure.Value.Value, 9);
        Assert.Equal(likely + above, figure.High!.Value.Value, 9);
        Assert.Equal(likely - below, figure.Low!.Value.Value, 9);
    }

    /// <summary>No silent zero: the figure is missing, sums say what they lack, and a requirement that uses one is warned of.</summary>
    [Fact]
    public void MissingPropertiesAreTold()
    {
        string text = Ply + Ply.Replace("sheet ply", "sheet bare").Replace(" density 600 kg/m3 from 550 kg/m3 to 700 kg/m3\n", "") + "stack skin {\n sheet ply\n sheet bare\n}\n" + Deck("deck", "skin", "1 m", "1 m");
        var run = Of(text);
        var finding = Assert.Single(run.Findings, f => f.Info == TakeoffFindings.PropertyMissing);
        Assert.Contains("bare", finding.Message);
        Assert.Equal("bare", finding.Place.Text);
        Assert.Null(run.Figures.Find("deck.bare.weight"));
        Assert.NotNull(run.Figures.FindMissing("deck.bare.weight"));
        Assert.Equal(["deck.bare.weight"], run.Figures.Find("deck.weight")!.Lacks.ToArray());
        Assert.Equal(["deck.bare.weight"], run.Figures.Find("total.weight")!.Lacks.ToArray());
        Assert.Equal(3.6, run["deck.weight"], 9);
        Assert.Equal(["WN5011"], Ask(text, "total.weight").Select(f => f.Code));
        Assert.Equal(["WN5010"], Ask(text, "deck.bare.weight").Select(f => f.Code));
        Assert.Contains("bare", run.Figures.Trace("total.weight")!.Inputs.SelectMany(i => i.Inputs.Append(i)).First(i => i.Missing is not null).Missing!.Reason);
    }

    /// <summary>The scale takes over; the estimate stays readable, and the difference shows.</summary>
    [Fact]
    public void WeighedTakesOver()
    {
        var run = Of(Ply + "stack skin {\n sheet ply\n}\n" + Deck("a", "skin", "1 m", "1 m") + Deck("b", "skin", "1 m", "1 m") + "built a {\n weighed 3.9 kg\n}\n");
        Assert.Equal(3.9, run["a.weight"], 9);
        Assert.Equal(3.6, run["a.weight_estimated"], 9);
        Assert.Equal(0.3, run["a.weight_difference"], 9);
        Assert.Equal(7.5, run["total.weight"], 9);
        // Only the panel that was not weighed still spreads.
        Assert.Equal(0.6, run.Figures.Find("total.weight")!.High!.Value.Value - 7.5, 9);
        Assert.DoesNotContain(run.Findings, f => f.Info == TakeoffFindings.WeighedDiffers);
        Assert.Contains(Of(Ply + "stack skin {\n sheet ply\n}\n" + Deck("a", "skin", "1 m", "1 m") + "built a {\n weighed 4.9 kg\n}\n").Findings, f => f.Info == TakeoffFindings.WeighedDiffers);
    }

    [Fact]
    public void MirroredPanelsWeighTheSame()
    {
        string wall = "plan base {\n start at (0 in, 30 in)\n leg left forward length 60 in\n leg front right length 60 in\n leg right aft length 60 in\n leg rear home\n}\n" +
            "panel left_wall of sandwich {\n stands on base.left, from 0 in to 33 in\n bevel top 20 deg\n opening vent {\n  size 18 in by 10 in corner 2 in\n  lower left at (14 in, 8 in)\n }\n}\nmirror left_wall as right_wall\n";
        var run = Of(Materials + wall);
        Assert.Equal(run["left_wall.weight"], run["right_wall.weight"], 12);
        Assert.Equal(run["left_wall.ply.volume"], run["right_wall.ply.volume"], 12);
        Assert.Equal(run["left_wall.epoxy.need"], run["right_wall.epoxy.need"], 12);
    }

    [Fact]
    public void OrderOfBlocksChangesNothing()
    {
        var run = Of(Whole);
        var blocks = Blocks().Matches(Whole).Select(m => m.Value).ToList();
        Assert.Equal(Whole.Length, blocks.Sum(b => b.Length));
        blocks.Reverse();
        var turned = Of(string.Concat(blocks));
        Assert.Equal(run.Figures.All.Select(f => (f.Name, f.Value.Value, f.Formula)), turned.Figures.All.Select(f => (f.Name, f.Value.Value, f.Formula)));
        Assert.Equal(run.Takeoff.Buy.Select(b => (b.Mark, b.Packs, b.Cost)), turned.Takeoff.Buy.Select(b => (b.Mark, b.Packs, b.Cost)));
    }

    /// <summary>The reference lists every figure by its kind of thing, and nothing that does not exist stays in it by its last word.</summary>
    [Fact]
    public void EveryFigureIsInTheReference()
    {
        var run = Of(Whole + "built left_wall {\n weighed 5 kg\n paid 60 USD\n}\n");
        var patterns = FigureNames.All.Select(n => n.Pattern).ToHashSet(StringComparer.Ordinal);
        var lines = run.Takeoff.Lines.Select(l => l.Key).ToHashSet(StringComparer.Ordinal);
        foreach (var figure in run.Figures.All)
        {
            string first = figure.Name[..figure.Name.IndexOf('.', StringComparison.Ordinal)], last = figure.Name[(figure.Name.LastIndexOf('.') + 1)..], stem = figure.Name[..figure.Name.LastIndexOf('.')];
            string pattern = first switch
            {
                "total" or "camper" => figure.Name,
                "default" => "default.NAME",
                _ when lines.Contains(stem) => "LINE." + last,
                _ when run.Takeoff.Panels.FirstOrDefault(p => p.Name == first) is { } panel => panel.Openings.Any(o => stem == first + "." + o.Name) ? "PANEL.OPENING." + last : "PANEL." + figure.Name[(first.Length + 1)..],
                _ when run.Structure.Materials.Any(m => m.Name == first) => patterns.Contains("MATERIAL." + last) ? "MATERIAL." + last : "MATERIAL.PROPERTY",
                _ => run.Structure.Spec.Find(first)!.Keyword.ToUpperInvariant() + "." + figure.Name[(first.Length + 1)..],
            };
            Assert.True(patterns.Contains(pattern), $"{figure.Name} is {pattern}, which the reference does not list");
        }
        Assert.Equal(patterns.Count, FigureNames.All.Length);
    }

    /// <summary>The same for the whole demo, engineering and all: what is computed there fits a pattern of the reference.</summary>
    [Fact]
    public void EveryComputedFigureOfTheDemoIsInTheReference()
    {
        string folder = Path.Combine(Repository.Root, "specs", "heron");
        var figures = Compiler.Compile(new SourceText("heron.wain", File.ReadAllText(Path.Combine(folder, "heron.wain"))), path => (new SourceText(path, File.ReadAllText(Path.Combine(folder, path))), null)).Design!.Figures;
        var patterns = FigureNames.All.Where(n => n.Pattern != "MATERIAL.PROPERTY").Select(n => new Regex("^" + string.Join("\\.", n.Pattern.Split('.').Select(Step)) + "$")).ToList();
        static string Step(string word) => word.All(char.IsUpper) ? ".+" : word.Replace("STATE", "(dry|ready|camped|raised)", StringComparison.Ordinal).Replace("WAY", "[a-z_]+", StringComparison.Ordinal).Replace("LIMIT", "[a-z_]+", StringComparison.Ordinal);
        // One of each kind is enough: those of another panel differ in a name alone.
        var computed = figures.All.Where(f => f.Formula is not ("as the spec says" or "a default that the program ships")).Select(f => f.Name).DistinctBy(n => (n.Split('.')[^1], n.Count(c => c == '.'))).ToList();
        Assert.True(computed.Count > 100);
        Assert.Empty(computed.Where(name => !patterns.Any(p => p.IsMatch(name))).Select(name => name[(name.LastIndexOf('.') + 1)..]).Distinct());
    }

    [Fact]
    public void NamesNearAMisspelledOne() => Assert.Contains("total.weight", Of(Whole).Figures.Nearest("total.wieght"));

    public static TheoryData<string> Infos() =>
        [.. typeof(TakeoffFindings).GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => f.GetValue(null)).OfType<FindingInfo>().Select(i => i.Name)];

    [Theory]
    [MemberData(nameof(Infos))]
    public void ExamplesShowWhatTheySay(string name)
    {
        var info = typeof(TakeoffFindings).GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => f.GetValue(null)).OfType<FindingInfo>().Single(i => i.Name == name);
        Assert.Contains(Of(info.Bad).Findings, f => f.Code == info.Code);
        Assert.DoesNotContain(Of(info.Good).Findings, f => f.Code == info.Code);
    }

    private static IEnumerable<TraceNode> Leaves(TraceNode node) => node.Inputs.IsEmpty ? [node] : node.Inputs.SelectMany(Leaves);

    private static IEnumerable<Finding> Ask(string text, string name)
    {
        var run = Of(text + $"let asked = {name}\n");
        int before = run.Structure.Spec.Findings.Count;
        run.Structure.Spec.Evaluator.ValueOf(run.Structure.Spec.NamedValues.Single(v => v.Name == "asked"));
        return run.Structure.Spec.Findings.Skip(before);
    }

    /// <summary>A formula is an expression if every word in it is a figure's name.</summary>
    internal static bool IsExpression(FigureBook figures, string formula)
    {
        var words = Words().Matches(formula).Select(m => m.Value).ToList();
        return words.Count > 0 && words.TrueForAll(w => figures.Find(w) is not null);
    }

    [GeneratedRegex("[A-Za-z_][A-Za-z0-9_.]*")]
    private static partial Regex Words();

    // Blocks begin at the start of a line and end with a brace alone on one.
    [GeneratedRegex(@"^\S[^\n]*\{\n(?:[^}\n][^\n]*\n)*\}\n", RegexOptions.Multiline)]
    private static partial Regex Blocks();
}
