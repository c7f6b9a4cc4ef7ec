using System.Reflection;
using System.Text.RegularExpressions;
using Wain.Cli;
using Wain.Cli.Cutting;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Binding;

/// <summary>Every finding's own examples, run: the bad one raises it and nothing else that is an error, the good one does not raise it.</summary>
public class FindingExamplesTests
{
    public static readonly IReadOnlyList<(string Field, FindingInfo Info)> All =
        [.. typeof(FindingInfo).Assembly.GetTypes().SelectMany(t => t.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic))
            .Where(f => f.FieldType == typeof(FindingInfo)).Select(f => ($"{f.DeclaringType!.Name}.{f.Name}", (FindingInfo)f.GetValue(null)!)).OrderBy(f => f.Item2.Code, StringComparer.Ordinal)];

    public static TheoryData<string> WithExamples => [.. All.Select(f => f.Info.Code)];

    private static FindingInfo Info(string code) => All.First(f => f.Info.Code == code).Info;

    private static Compilation Compile(string text, PlanFile? plan = null) => Compiler.Compile(new SourceText("example.wain", text.ReplaceLineEndings("\n")), plan: plan);

    /// <summary>Compiles the bad or the good example beside the plan that is kept with it.</summary>
    private static Compilation Compile(FindingInfo info, bool good) => Compile((good ? info.Good : info.Bad), Kept(info, good));

    /// <summary>The plan that <c>wain cut</c> makes, as it is read from its file; null if the example needs none.</summary>
    private static PlanFile? Kept(FindingInfo info, bool good)
    {
        if (info.Kept is not { } kept) return null;
        string folder = Directory.CreateTempSubdirectory("wain-example").FullName, spec = Path.Combine(folder, "example.wain"), output = Path.Combine(folder, "example");
        try
        {
            File.WriteAllText(spec, good || kept.OfMended ? info.Good : info.Bad);
            Entry.Run(["cut", spec, "--steps", $"{(good ? new ExamplePlan().Steps : kept.Steps)}", "--out", folder], TextWriter.Null, TextWriter.Null);
            string file = Path.Combine(output, KeptPlan.Name), text = File.ReadAllText(file);
            if (good || kept.Was.Length == 0) return KeptPlan.Read(output);
            Assert.Contains(kept.Was, text);
            File.WriteAllText(file, text.Replace(kept.Was, kept.Is));
            return KeptPlan.Read(output);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void Codes_and_names_are_given_once()
    {
        Assert.NotEmpty(All);
        Assert.All(All, f => Assert.Matches("^WN[0-9]{4}$", f.Info.Code));
        Assert.All(All, f => Assert.Matches("^[a-z][a-z0-9]*(-[a-z0-9]+)*$", f.Info.Name));
        Assert.Empty(All.GroupBy(f => f.Info.Code).Where(g => g.Count() > 1).Select(g => g.Key));
        Assert.Empty(All.GroupBy(f => f.Info.Name).Where(g => g.Count() > 1).Select(g => g.Key));
    }

    [Fact]
    public void Words_for_people_are_whole_sentences()
    {
        Assert.All(All, f => Assert.EndsWith(".", f.Info.Why));
        Assert.All(All, f => Assert.False(f.Info.Title.EndsWith('.')));
        Assert.All(All, f => Assert.DoesNotMatch(new Regex("\u2014|\u2013"), f.Info.Title + f.Info.Why));
        Assert.All(All, f => Assert.True(f.Info is { Bad.Length: > 0, Good.Length: > 0 }, $"{f.Field} has no examples"));
    }

    [Theory, MemberData(nameof(WithExamples))]
    public void The_bad_example_raises_it_and_no_other_error(string code)
    {
        var findings = Compile(Info(code), good: false).Findings;
        string told = string.Join("\n", findings.Select(f => $"{f.Place} {f.Code} {f.Message}"));
        Assert.True(findings.Any(f => f.Code == code), told);
        Assert.True(findings.All(f => f.Level < Level.Error || f.Code == code), told);
        Assert.All(findings.Where(f => f.Code == code), f => Assert.True(f.Place.Length > 0 || f.Place.Start > 0, told));
    }

    [Theory, MemberData(nameof(WithExamples))]
    public void The_good_example_does_not(string code)
    {
        var findings = Compile(Info(code), good: true).Findings;
        Assert.True(findings.All(f => f.Code != code && f.Level < Level.Error), string.Join("\n", findings.Select(f => $"{f.Place} {f.Code} {f.Message}")));
    }

    [Theory, MemberData(nameof(WithExamples))]
    public void Every_fix_of_the_bad_example_makes_it_go_away(string code)
    {
        string bad = Info(code).Bad.ReplaceLineEndings("\n");
        var kept = Kept(Info(code), good: false);
        var first = Compile(bad, kept).Findings.Where(f => f.Code == code).ToList();
        foreach (var fix in first.SelectMany(f => f.Fixes))
        {
            string mended = bad[..fix.Place.Start] + fix.Text + bad[fix.Place.End..];
            var left = Compile(mended, kept).Findings.Count(f => f.Code == code);
            Assert.True(left < first.Count, $"{fix.Label}: {mended}");
        }
    }

    /// <summary>Those that give no value to write, each for a reason; every other one gives a value in its bad example.</summary>
    private static readonly (string Why, string[] Codes)[] InWordsOnly =
    [
        ("What was meant can't be read from what stands there.", ["WN0001", "WN0002", "WN0004", "WN0005", "WN0009", "WN0010", "WN1002", "WN1003", "WN1005", "WN1006", "WN1007", "WN1008", "WN1010", "WN1011", "WN1012", "WN1014", "WN1015", "WN1017", "WN1018", "WN1020", "WN1023",
            "WN2001", "WN2003", "WN2005", "WN2007", "WN3012", "WN3020", "WN4005", "WN6302", "WN6701"]),
        ("A shape or a place is the designer's, and more than one would do.", ["WN3002", "WN3004", "WN3005", "WN3009", "WN3011", "WN3013", "WN3015", "WN4101", "WN4102", "WN4111", "WN4125", "WN4137", "WN4314", "WN4316", "WN4401", "WN4403", "WN4404", "WN4407", "WN4409", "WN4410", "WN4411", "WN6201", "WN6303"]),
        ("A figure has to be measured, weighed or looked up, and none is made up.", ["WN4002", "WN5001", "WN5002", "WN5003", "WN5004", "WN5005", "WN5006", "WN5010", "WN5011", "WN6001", "WN6002", "WN6003", "WN6010", "WN6101", "WN6102", "WN6103", "WN6114", "WN6304", "WN6401", "WN6406", "WN7003", "WN7004", "WN7014"]),
        ("It is mended with other goods, other people or another truck, and not in a number.", ["WN4118", "WN4208", "WN6110", "WN6111", "WN6112", "WN6113", "WN6115", "WN6116", "WN6202", "WN6203", "WN6205", "WN6206", "WN6301", "WN6601", "WN6602", "WN6603"]),
        ("Nothing is wrong: it is news.", ["WN1022", "WN3014", "WN5007", "WN7013", "WN7015"]),
        ("wain cut makes another plan, or more is bought.", ["WN7010", "WN7011", "WN7012"]),
        ("The air is as it is; drier air, more of it or another layer mends it.", ["WN6402", "WN6403", "WN6404", "WN6405", "WN6407"]),
        ("It is done in another order.", ["WN6704"]),
    ];

    [Fact]
    public void Every_other_finding_gives_a_value_to_write()
    {
        var without = All.Where(f => Compile(f.Info, good: false).Findings.Where(x => x.Code == f.Info.Code).All(x => x.Fixes.IsEmpty)).Select(f => f.Info.Code);
        Assert.Equal(string.Join(" ", InWordsOnly.SelectMany(w => w.Codes).Order(StringComparer.Ordinal)), string.Join(" ", without.Order(StringComparer.Ordinal)));
    }
}
