using Wain.Reports.Summaries;

namespace Wain.Tests.Reporting;

public class SummaryTests
{
    private static readonly Dictionary<string, object?> Model = new()
    {
        ["title"] = "Sample | Son",
        ["panels"] = new List<object?>
        {
            new Dictionary<string, object?> { ["name"] = "left_wall", ["area"] = 12.25, ["cut"] = true },
            new Dictionary<string, object?> { ["name"] = "roof", ["area"] = 1234.565, ["cut"] = false },
        },
        ["none"] = null,
    };

    private static SummaryResult Render(string text, SummaryLimits? limits = null, Func<string, TemplateSource?>? load = null, CancellationToken cancel = default) =>
        SummaryTemplate.Render(new("own.md", text), Model, load, limits, cancel);

    private static string Outcome(string text)
    {
        var result = Render(text);
        return $"{result.Text} {string.Join("; ", result.Errors)}";
    }

    private static TemplateError Fails(string text, SummaryLimits? limits = null)
    {
        var result = Render(text, limits);
        Assert.Null(result.Text);
        return Assert.Single(result.Errors);
    }

    [Fact]
    public void ATemplateSeesTheModel()
    {
        const string template = "# {{ title | show.markdown }}\n{{ for p in panels ~}}\n| {{ p.name | show.markdown }} | {{ p.area | show.decimals 2 }} | {{ p.area | show.fraction 16 }} |\n{{ end ~}}\n";
        Assert.Equal("# Sample \\| Son\n| left\\_wall | 12.25 | 12 1/4 |\n| roof | 1,234.57 | 1234 9/16 |\n", Render(template).Text);
    }

    // Halves go up, and the last bit of a sum of sixteenths is no reason to go down.
    [Theory]
    [InlineData(0, 16, "0")]
    [InlineData(0.5, 16, "1/2")]
    [InlineData(14.96875, 16, "15")]
    [InlineData(14.96874, 16, "14 15/16")]
    [InlineData(0.1 + 0.2 + 0.0125, 32, "5/16")]
    [InlineData(-1.5, 8, "-1 1/2")]
    [InlineData(-0.03125, 16, "0")]
    public void FractionsAreThoseOfATape(double value, int denominator, string expected) => Assert.Equal(expected, TemplateFunctions.Fraction(value, denominator));

    [Fact]
    public void AMissingNameIsAnErrorWithItsPlace()
    {
        var error = Fails("one\n  {{ titel }}");
        Assert.Equal(("own.md", 2, 6), (error.Path, error.Line, error.Column));
        Assert.Contains("titel", error.Message);
        Assert.Contains("no weight here", Fails("{{ panels[0].weight }}").Message);
        Assert.All(Render("a\n{{ if }}").Errors, e => Assert.Equal(("own.md", 2), (e.Path, e.Line)));
        Assert.NotEmpty(Render("a\n{{ if }}").Errors);
    }

    [Theory]
    [InlineData("{{ while true }}{{ end }}", "50000")]
    [InlineData("{{ for i in 1..1000000000 }}x{{ end }}", "50000")]
    [InlineData("{{ for i in 1..2000 }}{{ for j in 1..2000 }}x{{ end }}{{ end }}", "")]
    [InlineData("{{ func f(x); ret f(x + 1); end; f 1 }}", "recursive")]
    [InlineData("{{ x = 'ab'; for i in 1..100; x = x + x; end; x }}", "")]
    [InlineData("{{ 'x' | string.pad_left 2000000000 }}", "")]
    [InlineData("{{ 'x' * 2000000000 }}", "")]
    [InlineData("{{ (1..2000000000) | array.size }}", "")]
    [InlineData("{{ (1..2000000000) | array.join ',' }}", "")]
    [InlineData("{{ x = []; for i in 1..40000; x = array.add x i; end; x.size; y = x; for i in 1..40; y = array.concat y y; end; y.size }}", "")]
    [InlineData("{{ 'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa!' | regex.match '^(a+)+$' }}", "takes too long")]
    [InlineData("{{ include 'own.md' }}", "no template")]
    [InlineData("{{ date.now }}", "date")]
    [InlineData("{{ math.random 1 10 }}", "random")]
    [InlineData("{{ math.uuid }}", "uuid")]
    [InlineData("{{ object.eval '1 + 1' }}", "eval")]
    [InlineData("{{ panels[0].name = 'x' }}", "readonly")]
    [InlineData("{{ 1 / 0 }}", "divided by zero")]
    [InlineData("{{ 7 % 0 }}", "")]
    [InlineData("{{ import title }}", "")]
    public void WhatATemplateMayNotDoIsAClearError(string template, string reason)
    {
        var error = Fails(template, new SummaryLimits { Loops = 50_000, Steps = 1_000_000, Time = TimeSpan.FromMinutes(1) });
        Assert.Contains(reason, error.Message);
        Assert.False(string.IsNullOrWhiteSpace(error.Message));
        Assert.DoesNotContain("longer than", error.Message);
        Assert.DoesNotContain("   at ", error.Message);
    }

    [Fact]
    public void ATemplateHasVariablesOfItsOwn() => Assert.Equal("3 own", Render("{{ x = 1; for i in 1..2; x = x + 1; end; x }} {{ title = 'own'; title }}").Text);

    [Fact]
    public void OutputIsNeverCutSilently()
    {
        Assert.Equal(100, Render("{{ for i in 1..100 }}x{{ end }}", new SummaryLimits { Output = 100 }).Text!.Length);
        Fails("{{ for i in 1..101 }}x{{ end }}", new SummaryLimits { Output = 100 });
        // Scriban's own limit is 1 MiB.
        string large = new('x', 2_000_000);
        Assert.Equal(2_000_000, Render(large).Text!.Length);
    }

    [Fact]
    public void StepsAreCounted() => Assert.Contains("more than 1,000 steps", Fails("{{ for i in 1..500; x = i + 1; end }}", new SummaryLimits { Steps = 1000 }).Message);

    [Fact]
    public void ACallerCanStopIt()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.Contains("stopped", Assert.Single(Render("{{ for i in 1..100000; x = i; end }}", cancel: stop.Token).Errors).Message);
    }

    [Fact]
    public void IncludesComeFromTheLoaderAlone()
    {
        Assert.Equal("[hello Sample | Son]", Render("[{{ include 'part' }}]", load: name => name == "part" ? new("part.md", "hello {{ title }}") : null).Text);
        Assert.Contains("no template \"other\"", Assert.Single(Render("{{ include 'other' }}", load: _ => null).Errors).Message);
        Assert.NotEmpty(Render("{{ include 'part' }}", load: _ => new("part.md", "{{ include 'part' }}")).Errors);
        string deep = "{{ " + new string('(', 10_000) + "1" + new string(')', 10_000) + " }}";
        Assert.Contains("nests deeper", Assert.Single(Render("{{ include 'part' }}", load: _ => new("part.md", deep)).Errors).Message);
        var inPart = Assert.Single(Render("{{ include 'part' }}", load: _ => new("part.md", "\n{{ missing }}")).Errors);
        Assert.Equal(("part.md", 2), (inPart.Path, inPart.Line));
    }

    /// <summary>A process whose threads have 1 MB of stack: an overflow would end it, and the last kind that it named would be the culprit.</summary>
    [Fact]
    public void NestingTenThousandDeepIsRefusedOnASmallStack()
    {
        var child = Child.Run(["templates"], ("DOTNET_DefaultStackSize", "100000"));
        Assert.True(child.ExitCode == 0, child.Output + child.Error);
        Assert.Equal(DeepTemplate.Kinds.Count, child.Output.Split('\n').Count(line => line.EndsWith(": done", StringComparison.Ordinal)));
    }

    [Fact]
    public void WhatTheCountAllowsDoesNotOverflow()
    {
        string brackets = new string('(', 190) + "1" + new string(')', 190);
        Assert.Equal("1", Render("{{ " + brackets + " }}").Text);
        // The deepest of both: fifty calls, each from inside nested blocks and brackets.
        string nested = string.Concat(Enumerable.Repeat("if true\n", 90)) + "ret " + new string('(', 90) + "f(x - 1)" + new string(')', 90) + "\n" + string.Concat(Enumerable.Repeat("end\n", 90));
        Assert.Equal("0 ", Outcome("{{ func f(x)\nif x == 0\nret 0\nend\n" + nested + "end\nf 40 }}"));
        Assert.Equal("201", Render("{{ x = [" + string.Join(", ", Enumerable.Repeat("1 + 2", 201)) + "]\nx.size }}").Text);
        Assert.Equal("600", Render("{{ x = 0\n" + string.Concat(Enumerable.Repeat("x = x + 1 * 2\n", 300)) + "x }}").Text);
    }
}

/// <summary>Templates that nest ten thousand deep, each in another way.</summary>
internal static class DeepTemplate
{
    private const int Depth = 10_000;

    private static string Repeat(string text, int times = Depth) => string.Concat(Enumerable.Repeat(text, times));

    public static readonly Dictionary<string, Func<string>> Kinds = new()
    {
        ["brackets"] = () => "{{ " + Repeat("(") + "1" + Repeat(")") + " }}",
        ["open brackets"] = () => "{{ " + Repeat("("),
        ["lists"] = () => "{{ x = " + Repeat("[") + Repeat("]") + " }}",
        ["objects"] = () => "{{ x = " + Repeat("{a:") + "1" + Repeat("}") + " }}",
        ["blocks"] = () => Repeat("{{ if true }}") + "x" + Repeat("{{ end }}"),
        ["loops"] = () => Repeat("{{ for i in 1..1 }}") + "x" + Repeat("{{ end }}"),
        ["branches"] = () => "{{ if false }}a" + Repeat("{{ else if false }}b") + "{{ end }}",
        ["branches in one block"] = () => "{{ if false\n" + Repeat("else if false\n") + "end }}",
        ["signs before a value"] = () => "{{ " + Repeat("!") + "true }}",
        ["minus signs"] = () => "{{ " + Repeat("- ") + "1 }}",
        ["sums"] = () => "{{ 1" + Repeat(" + 1") + " }}",
        ["sums over lines"] = () => "{{ 1" + Repeat(" +\n 1") + " }}",
        ["powers"] = () => "{{ 1" + Repeat(" ^ 1") + " }}",
        ["members"] = () => "{{ title" + Repeat(".size") + " }}",
        ["indices"] = () => "{{ panels" + Repeat("[0]") + " }}",
        ["pipes"] = () => "{{ 'a'" + Repeat(" | string.upcase") + " }}",
        ["pipes over lines"] = () => "{{ 'a'" + Repeat("\n | string.upcase") + " }}",
        ["choices"] = () => "{{ " + Repeat("true ? 1 : ") + "2 }}",
        ["defaults"] = () => "{{ none" + Repeat(" ?? none") + " }}",
        ["functions"] = () => "{{ " + Repeat("func f\n") + Repeat("end\n") + " }}",
        ["function values"] = () => "{{ x = " + Repeat("@(do\n") + Repeat("end)\n") + " }}",
        ["captures"] = () => "{{ " + Repeat("capture x\n") + Repeat("end\n") + " }}",
        ["texts in texts"] = () => "{{ " + Repeat("$\"{") + "1" + Repeat("}\"") + " }}",
        ["assignments"] = () => "{{ x = " + Repeat("x = ") + "1 }}",
        ["arguments"] = () => "{{ title " + Repeat("title ") + " }}",
        ["calls"] = () => "{{ " + Repeat("string.upcase ") + "'a' }}",
        ["ranges"] = () => "{{ 1" + Repeat("..1") + " }}",
        ["named arguments"] = () => "{{ title " + Repeat("a: ") + "1 }}",
        ["cases"] = () => Repeat("{{ case 1 }}{{ when 1 }}") + Repeat("{{ end }}"),
        ["wraps"] = () => Repeat("{{ wrap title }}") + Repeat("{{ end }}"),
        ["returns"] = () => "{{ " + Repeat("ret ") + "1 }}",
        ["whens"] = () => "{{ case 1\n" + Repeat("when 2\n") + "end }}",
    };

    /// <summary>Renders each; an outcome is a text or errors, never both and never neither.</summary>
    public static int Run()
    {
        foreach (var (kind, text) in Kinds)
        {
            Console.Write(kind);
            var result = SummaryTemplate.Render(new("deep.md", text()), new Dictionary<string, object?> { ["title"] = "t", ["panels"] = new List<object?> { 1.0 }, ["none"] = null });
            if ((result.Text is null) == result.Errors.IsEmpty) return 1;
            Console.WriteLine($" {result.Errors.FirstOrDefault()?.Message}: done");
        }
        return 0;
    }
}
