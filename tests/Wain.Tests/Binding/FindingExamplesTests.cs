using System.Reflection;
using System.Text.RegularExpressions;
using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Binding;

/// <summary>Every finding's own examples, run: the bad one raises it and nothing else that is an error, the good one does not raise it.</summary>
public class FindingExamplesTests
{
    public static readonly IReadOnlyList<(string Field, FindingInfo Info)> All =
        [.. typeof(FindingInfo).Assembly.GetTypes().SelectMany(t => t.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic))
            .Where(f => f.FieldType == typeof(FindingInfo)).Select(f => ($"{f.DeclaringType!.Name}.{f.Name}", (FindingInfo)f.GetValue(null)!)).OrderBy(f => f.Item2.Code, StringComparer.Ordinal)];

    public static TheoryData<string> WithExamples => [.. All.Where(f => f.Info.Bad is not null).Select(f => f.Info.Code)];

    private static FindingInfo Info(string code) => All.First(f => f.Info.Code == code).Info;

    private static Compilation Compile(string text) => Compiler.Compile(new SourceText("example.wain", text.ReplaceLineEndings("\n")));

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
        Assert.All(All, f => Assert.Equal(f.Info.Bad is null, f.Info.Good is null));
    }

    [Theory, MemberData(nameof(WithExamples))]
    public void The_bad_example_raises_it_and_no_other_error(string code)
    {
        var findings = Compile(Info(code).Bad!).Findings;
        string told = string.Join("\n", findings.Select(f => $"{f.Place} {f.Code} {f.Message}"));
        Assert.True(findings.Any(f => f.Code == code), told);
        Assert.True(findings.All(f => f.Level < Level.Error || f.Code == code), told);
        Assert.All(findings.Where(f => f.Code == code), f => Assert.True(f.Place.Length > 0 || f.Place.Start > 0, told));
    }

    [Theory, MemberData(nameof(WithExamples))]
    public void The_good_example_does_not(string code)
    {
        var findings = Compile(Info(code).Good!).Findings;
        Assert.True(findings.All(f => f.Code != code && f.Level < Level.Error), string.Join("\n", findings.Select(f => $"{f.Place} {f.Code} {f.Message}")));
    }

    [Theory, MemberData(nameof(WithExamples))]
    public void Every_fix_of_the_bad_example_makes_it_go_away(string code)
    {
        string bad = Info(code).Bad!.ReplaceLineEndings("\n");
        var first = Compile(bad).Findings.Where(f => f.Code == code).ToList();
        foreach (var fix in first.SelectMany(f => f.Fixes))
        {
            string mended = bad[..fix.Place.Start] + fix.Text + bad[fix.Place.End..];
            var left = Compile(mended).Findings.Count(f => f.Code == code);
            Assert.True(left < first.Count, $"{fix.Label}: {mended}");
        }
    }

    /// <summary>Those that give no value to write, each for a reason; every other one gives a value in its bad example.</summary>
    private static readonly (string Why, string[] Codes)[] InWordsOnly =
    [
        ("What was meant can't be read from what stands there.", ["WN0002", "WN0004", "WN0005", "WN0009", "WN1002", "WN1003", "WN1005", "WN1006", "WN1007", "WN1008", "WN1010", "WN1011", "WN1012", "WN1014", "WN1015", "WN1017", "WN1018", "WN1020",
            "WN2001", "WN2002", "WN2003", "WN2005", "WN2007", "WN3012", "WN4005", "WN6302", "WN6701"]),
        ("A shape or a place is the designer's, and more than one would do.", ["WN3002", "WN3004", "WN3005", "WN3009", "WN3011", "WN3013", "WN3015", "WN4101", "WN4102", "WN4111", "WN4125", "WN4401", "WN4403", "WN4404", "WN4407", "WN4409", "WN4410", "WN6303"]),
        ("A figure has to be measured, weighed or looked up, and none is made up.", ["WN5001", "WN5002", "WN5003", "WN5004", "WN5005", "WN5006", "WN6001", "WN6002", "WN6003", "WN6010", "WN6101", "WN6102", "WN6103", "WN6114", "WN6304", "WN6401", "WN6406", "WN7003", "WN7004"]),
        ("It is mended with other goods, other people or another truck, and not in a number.", ["WN4118", "WN4208", "WN6110", "WN6111", "WN6113", "WN6115", "WN6116", "WN6301", "WN6601", "WN6602", "WN6603"]),
        ("Nothing is wrong: it is news.", ["WN3014", "WN5007"]),
    ];

    [Fact]
    public void Every_other_finding_gives_a_value_to_write()
    {
        var without = All.Where(f => f.Info.Bad is { } bad && Compile(bad).Findings.Where(x => x.Code == f.Info.Code).All(x => x.Fixes.IsEmpty)).Select(f => f.Info.Code);
        Assert.Equal(InWordsOnly.SelectMany(w => w.Codes).Order(StringComparer.Ordinal), without.Order(StringComparer.Ordinal));
    }
}
