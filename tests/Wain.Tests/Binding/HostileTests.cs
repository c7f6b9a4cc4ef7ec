using System.Text;
using CsCheck;
using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Parsing;
using Wain.Core.Text;
using Wain.Core.Tidying;
using Wain.Tests.Parsing;

namespace Wain.Tests.Binding;

/// <summary>Text that means harm, or that a slip made huge: each ends in a finding or a result, in a child process with a stack of 1 MB.</summary>
public class HostileTests
{
    private const int Deep = 10_000;

    private static string Times(int n, Func<int, string> part)
    {
        var text = new StringBuilder();
        for (int i = 0; i < n; i++) text.Append(part(i));
        return text.ToString();
    }

    private static string Times(int n, string part) => Times(n, _ => part);

    /// <summary>What is tried, and the code that must be among the findings; "" if there must be no error.</summary>
    public static readonly Dictionary<string, (Func<string> Text, string Code)> Cases = new()
    {
        ["empty"] = (() => "", ""),
        ["blank lines"] = (() => "\n\r\n \t\n", ""),
        ["binary"] = (() => "let a = 1\n\0\u0001\u0002", "WN0001"),
        ["wrong encoding"] = (() => "let a = \uFFFD", "WN0001"),
        ["zero by zero"] = (() => "let a = 0/0 in\n", "WN0009"),
        ["overflow"] = (() => "let a = 10 ^ 900\n", "WN2005"),
        ["product overflow"] = (() => "let a = 1e30 * 1e30 * " + string.Join(" * ", Enumerable.Repeat("1e30", 20)) + "\n", "WN2005"),
        ["brackets"] = (() => "let a = " + Times(Deep, "(") + "1" + Times(Deep, ")") + "\n", "WN0002"),
        ["open brackets"] = (() => "let a = " + Times(Deep, "(") + "\n", "WN0002"),
        ["brackets at the limit"] = (() => "let a = " + Times(199, "(1 + ") + "1" + Times(199, ")") + "\nrequire a == 200\n", ""),
        ["calls in calls"] = (() => "let a = " + Times(199, "abs(") + "1" + Times(199, ")") + "\nrequire a == 1\n", ""),
        ["places in places"] = (() => "load w {\nfull 1 gal\nat " + Times(190, "(1 in, ") + "1 in" + Times(190, ")") + "\n}\n", "WN2002"),
        ["blocks"] = (() => Times(Deep, "if 1 > 0 {\n") + Times(Deep, "}\n"), "WN0002"),
        ["blocks at the limit"] = (() => Times(199, "if 1 > 0 {\n") + "let a = 1\nrequire a > 0\n" + Times(199, "}\n"), ""),
        ["closing only"] = (() => Times(Deep, "}\n"), "WN0005"),
        ["if chain of statements"] = (() => "let a = 3\nif a == 0 {\n}" + Times(Deep, i => $" else if a == {i + 4} {{\n}}") + " else {\nrequire a > 4\n}\n", "WN2007"),
        ["if chain of values"] = (() => "let a = 3\nlet b = if a == 0 then 1" + Times(Deep, i => $" else if a == {i + 4} then {i}") + " else 5\nrequire b == 5\n", ""),
        ["functions calling functions"] = (() => "function f0(x) = x\n" + Times(Deep, i => $"function f{i + 1}(x) = f{i}(x) + 1\n") + $"require f{Deep}(1) > 3\n", "WN1014"),
        ["a function calling itself"] = (() => "function f(x) = f(x + 1)\nrequire f(1) > 3\n", "WN1014"),
        ["functions at the limit, full of brackets"] = (() => "function f0(x) = x\n" + Times(150, i => $"function f{i + 1}(x) = {Times(150, "(1 + ")}f{i}(x){Times(150, ")")}\n") + "require f150(1) == 22501\n", ""),
        ["functions doubling"] = (() => "function f0(x) = x\n" + Times(100, i => $"function f{i + 1}(x) = f{i}(x) + f{i}(x)\n") + "require f100(1) > 3\n", "WN1014"),
        ["a chain of lets"] = (() => "let a0 = 1 in\n" + Times(Deep, i => $"let a{i + 1} = a{i} + 1 in\n") + $"require a{Deep} == {Deep + 1} in\n", ""),
        ["a circle of lets"] = (() => Times(Deep, i => $"let a{i} = a{(i + 1) % Deep} + 1 in\n"), "WN1011"),
        ["a long sum"] = (() => "let a = " + string.Join(" + ", Enumerable.Repeat("1/3 in", Deep)) + "\nrequire a > 3333 in\n", ""),
        ["loops to a billion"] = (() => Times(9, i => $"for k{i} in a, b, c, d, e, f, g, h, i, j {{\n") + "require 1 > 0\n" + Times(9, "}\n"), "WN1014"),
        ["a group placing itself"] = (() => "group g(x) {\nplace g(x) as a\nplace g(x) as b\n}\nplace g(1) as q\n", "WN1014"),
        ["panels in a row"] = (() => "sheet ply {\nthickness 6 mm\nsize 48 in by 96 in\n}\nstack s {\nsheet ply\n}\nplan p {\nstart at (0 in, 10 in)\nleg a run 20 in\nleg b across 20 in\nleg c run 20 in\nleg d home\n}\n"
            + "panel p0 of s {\ncovers plan p, underside at 1 in\n}\n" + Times(2000, i => $"panel p{i + 1} of s {{\ncovers plan p, underside at p{i}.top\n}}\n"), ""),
        ["a fact without end"] = (() => "plan p { start at " + Times(1_000_000, "x ") + "\n}\n", "WN0010"),
        ["ten megabytes of remarks"] = (() => Times(100_000, "-- " + new string('x', 100) + "\n"), ""),
        ["ten megabytes of junk"] = (() => Times(500_000, "@#$%^&*() { ] ) \" ' \n"), "WN0003"),
        ["ten megabytes of words"] = (() => Times(600_000, "foo bar baz qux\n"), "WN1001"),
        ["one quote without end"] = (() => "let a = \"" + new string('x', 1_000_000), "WN0004"),
        ["many quotes"] = (() => new string('"', 1_000_001), "WN0003"),
        ["signs"] = (() => "let a = " + Times(Deep, "- ") + "1\nlet b = " + Times(Deep, "not ") + "1\n", "WN0003"),
        ["two quotes and a backslash"] = (() => "let a = \"\\", "WN0004"),
        ["half a pair of surrogates"] = (() => "let a = \uD83D\n", "WN0003"),
        ["carriage returns alone"] = (() => "let a = 1\rrequire a > 2\r", "WN2007"),
        ["an exponent too large"] = (() => "let a = 1e99999999999\n", "WN0009"),
        ["a word of a million letters"] = (() => "let " + new string('a', 1_000_000) + " = 1\n", "WN0010"),
        ["a number of a million digits"] = (() => "let a = " + new string('9', 1_000_000) + "\n", "WN0009"),
        ["a path of ten thousand words"] = (() => "let a = b" + Times(Deep, ".c") + "\n", "WN1004"),
    };

    /// <summary>Compiles one case, or all; for the child process.</summary>
    public static string Try(string name)
    {
        var (text, code) = Cases[name];
        var source = new SourceText("a.wain", text());
        var errors = Compiler.Compile(source).Findings.Where(f => f.Level == Level.Error).ToList();
        if (source.Text.Length < 300_000) Tidy.Format(source);
        if (code.Length == 0) return errors.Count == 0 ? "" : $"{name}: {errors[0].Code} {errors[0].Message}";
        if (errors.Any(e => e.Message.Length > 20_000)) return $"{name}: a message of {errors.Max(e => e.Message.Length)} letters";
        return errors.Any(e => e.Code == code) ? "" : $"{name}: {code} is wanted, and there is {(errors.Count == 0 ? "nothing" : errors[0].Code + " " + errors[0].Message)}";
    }

    /// <summary>Runs every case, each on a thread of this stack, as the child process does.</summary>
    public static int TryAll()
    {
        int wrong = 0;
        foreach (string name in Cases.Keys)
        {
            var clock = System.Diagnostics.Stopwatch.StartNew();
            string told = Try(name);
            Console.Error.WriteLine($"{clock.ElapsedMilliseconds,6} ms {name}");
            if (told.Length == 0) continue;
            wrong++;
            Console.Out.WriteLine(told);
        }
        return wrong == 0 ? 0 : 1;
    }

    [Fact]
    public void Nothing_ends_the_program_with_a_stack_of_one_megabyte()
    {
        // Stack size in hexadecimal, as the runtime reads it.
        var (exit, output, error) = Child.Run(["hostile"], ("DOTNET_DefaultStackSize", "100000"), ("DOTNET_Thread_DefaultStackSize", "100000"));
        Assert.True(exit == 0, output + error);
    }

    [Fact]
    public void Includes_end()
    {
        (string, string)[] chain = [.. Enumerable.Range(0, Deep).Select(i => ($"f{i}.wain", $"use \"f{i + 1}.wain\"\n"))];
        var files = chain.ToDictionary(c => c.Item1, c => c.Item2);
        var found = Compiler.Compile(new SourceText("a.wain", "use \"f0.wain\"\n"), path => files.TryGetValue(path, out var text) ? (new SourceText(path, text), null) : (null, null)).Findings;
        Assert.Equal(["WN1014"], found.Where(f => f.Level == Level.Error).Select(f => f.Code));
    }

    [Fact]
    public void Random_text_never_throws()
    {
        const string Signs = "ab1 2/3.5\"'{}()[],.=<>!+-*/^%#@;:\\\n\r\tÉ°½–“×\u2014";
        Gen.OneOf(Gen.String[Gen.Char[Signs], 0, 200], Gen.String[0, 100]).Sample(text => { Run(text); }, iter: 3000);
    }

    [Fact]
    public void Mutated_specs_never_throw()
    {
        string[] specs = [.. GrammarTests.Paths.Select(s => GrammarTests.Spec(s).Text.ReplaceLineEndings("\n"))];
        string[] bits = ["{", "}", "(", ")", "[", "]", ",", ".", "=", "\"", "-", " - ", "/", "1 in", "let ", "for ", "if ", "else", "\n", "home", "of ", "as ", "between ", "\0", "'"];
        Gen.Select(Gen.Int[0, specs.Length - 1], Gen.Select(Gen.Double[0, 1], Gen.Int[0, 30], Gen.Int[0, bits.Length - 1]).Array[1, 5]).Sample((spec, edits) =>
        {
            string text = specs[spec];
            // A window of the spec keeps the run short and cuts blocks in half, which is what an editor shows most of the time.
            int start = (int)(edits[0].Item1 * text.Length);
            text = text.Substring(start, Math.Min(3000, text.Length - start));
            foreach (var (at, cut, bit) in edits)
            {
                int place = (int)(at * text.Length);
                text = text[..place] + bits[bit] + text[Math.Min(text.Length, place + cut)..];
            }
            Run(text);
        }, iter: 400);
    }

    private static void Run(string text)
    {
        var source = new SourceText("a.wain", text);
        foreach (var finding in Compiler.Compile(source).Findings)
        {
            Assert.InRange(finding.Place.Start, 0, text.Length);
            Assert.InRange(finding.Place.End, finding.Place.Start, text.Length);
            Assert.False(string.IsNullOrWhiteSpace(finding.Message));
            Assert.All(finding.Fixes, f => Assert.InRange(f.Place.End, f.Place.Start, text.Length));
        }
        Tidy.Format(source);
    }
}
