using System.Text;
using Wain.Cli;
using Wain.Cli.Output;

namespace Wain.Tests.Commands;

/// <summary>Bad input through the whole command line, file to exit code. Run by <see cref="BadInputTests"/> in a child process with a small stack.</summary>
internal static class BadInputCases
{
    private const int Deep = 10_000;

    private const string Ply = "sheet ply {\n    thickness 6 mm\n    size 48 in by 96 in, price 40 USD, on 2026-01-05\n    density 34 lb/ft3\n}\nstack deck {\n    sheet ply\n}\n";

    private const string Shelf = Ply + "plan base {\n    start at (0 in, 10 in)\n    leg a run 30 in\n    leg b across 20 in\n    leg c run 30 in\n    leg d home\n}\npanel shelf of deck {\n    covers plan base, underside at 1 in\n}\n";

    /// <summary>One run of the program: how the folder is set up, the words after "wain", the exit code, and what must be told.</summary>
    private sealed record Case(string Name, Action SetUp, string[] Args, int Code, params string[] Told)
    {
        /// <summary>True if the run may write outputs.</summary>
        public bool Writes { get; init; }
    }

    private static void Text(string path, string text) => Bytes(path, Encoding.UTF8.GetBytes(text));

    private static void Bytes(string path, byte[] bytes)
    {
        if (Path.GetDirectoryName(path) is { Length: > 0 } folder) Directory.CreateDirectory(folder);
        File.WriteAllBytes(path, bytes);
    }

    private static string Times(int n, Func<int, string> part) => string.Concat(Enumerable.Range(0, n).Select(part));

    private static IEnumerable<Case> All()
    {
        Case Spec(string name, string text, int code, params string[] told) => new(name, () => Text("a.wain", text), ["build", "a.wain"], code, told);

        // What a file may hold.
        yield return new("an empty file", () => Text("a.wain", ""), ["build", "a.wain"], 0, "WN1023", "a.wain says nothing") { Writes = true };
        yield return new("a binary", () => Bytes("a.wain", [0x7f, (byte)'E', (byte)'L', (byte)'F', 0x1b, (byte)'[', (byte)'2', (byte)'J', 0, 1, 2, 3]), ["build", "a.wain"], 1, "WN0001", "a.wain, line 1");
        yield return new("Latin letters of another encoding", () => Bytes("a.wain", Encoding.Latin1.GetBytes("let caf\u00e9 = 3 in\n")), ["build", "a.wain"], 1, "WN0001", "UTF-8");
        yield return new("sixteen bits a letter", () => Bytes("a.wain", [.. Encoding.Unicode.Preamble, .. Encoding.Unicode.GetBytes(Ply)]), ["build", "a.wain"], 1, "WN0001");
        yield return new("carriage returns", () => Text("a.wain", Shelf.Replace("\n", "\r\n", StringComparison.Ordinal)), ["build", "a.wain"], 0) { Writes = true };
        yield return new("a byte order mark", () => Bytes("a.wain", [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(Shelf)]), ["build", "a.wain"], 0) { Writes = true };
        yield return Spec("ten megabytes of words", Times(600_000, _ => "foo bar baz qux\n"), 1, "WN1001");
        yield return new("ten megabytes of one word", () => Text("a.wain", new string('a', 10_000_000)), ["check", "a.wain"], 1, "WN0010", "a word of 10,000,000 letters");
        yield return new("ten megabytes of remarks", () => Text("a.wain", Times(100_000, _ => "-- " + new string('x', 100) + "\n") + Shelf), ["check", "a.wain"], 0);
        yield return new("a title that a spreadsheet, a terminal or a page might run", () => Text("a.wain", $"camper \"=cmd|'/C calc'!A0 \u202e<script>|{new string('x', 5000)}\" revision \"@SUM(1)\" {{\n}}\n" + Shelf), ["build", "a.wain"], 0) { Writes = true };
        yield return new("a title with an escape sequence", () => Text("a.wain", "camper \"\u001b[2J\" {\n}\n" + Shelf), ["build", "a.wain"], 1, "WN0001");

        // Files that use files.
        yield return Spec("a missing file", "use \"b.wain\"\n" + Shelf, 1, "WN1007", "there is no such file");
        yield return new("files in a circle", () => { Text("a.wain", "use \"b.wain\"\n"); Text("b.wain", "use \"a.wain\"\n"); }, ["build", "a.wain"], 1, "WN1008", "a.wain uses b.wain uses a.wain");
        yield return new("a file that climbs out", () => { Text("x/a.wain", "use \"../b.wain\"\n"); Text("b.wain", "let x = 1\n"); }, ["build", "x/a.wain"], 1, "WN1007", "leads out of the spec's folder");
        yield return new("a link that leads out", () => { Text("x/a.wain", "use \"b.wain\"\n"); Text("b.wain", "let x = 1\n"); File.CreateSymbolicLink("x/b.wain", Path.GetFullPath("b.wain")); }, ["build", "x/a.wain"], 1, "WN1007", "a link that leads out");
        yield return new("ten thousand files, each using the next", () => { for (int i = 0; i < Deep; i++) Text($"f{i}.wain", $"use \"f{i + 1}.wain\"\n"); Text($"f{Deep}.wain", ""); }, ["build", "f0.wain"], 1, "WN1014");

        // Names and numbers.
        yield return Spec("a name twice", "let a = 1 in\nlet a = 2 in\nrequire a > 0 in\n", 1, "WN1005", "line 2", "line 1");
        yield return Spec("division by zero", "let a = 3 in / (2 - 2)\nrequire a > 0 in\n", 1, "WN2003", "line 1");
        yield return Spec("zero by zero", "let a = 0/0 in\nrequire a > 0 in\n", 1, "WN0009", "line 1");
        yield return Spec("overflow", "let a = 10 ^ 900\nrequire a > 0\n", 1, "WN2005", "line 1");
        yield return Spec("a loop of a billion", Times(9, i => $"for k{i} in a, b, c, d, e, f, g, h, i, j {{\n") + "require 1 > 0\n" + Times(9, _ => "}\n"), 1, "WN1014");

        // Nesting.
        yield return Spec("brackets", "let a = " + new string('(', Deep) + "1" + new string(')', Deep) + "\n", 1, "WN0002");
        yield return Spec("blocks", Times(Deep, _ => "if 1 > 0 {\n") + Times(Deep, _ => "}\n"), 1, "WN0002");
        yield return Spec("blocks of facts", Times(Deep, i => $"panel p{i} of deck {{\n") + Times(Deep, _ => "}\n"), 1, "WN0002");
        yield return Spec("functions calling functions", "function f0(x) = x\n" + Times(Deep, i => $"function f{i + 1}(x) = f{i}(x) + 1\n") + $"require f{Deep}(1) > 3\n", 1, "WN1014");
        yield return new("a chain of conditions", () => Text("a.wain", "let a = 3\nif a == 0 {\n}" + Times(Deep, i => $" else if a == {i + 4} {{\n}}") + "\n"), ["check", "a.wain"], 0);
        yield return Spec("a chain of values in a circle", Times(Deep, i => $"let a{i} = a{(i + 1) % Deep} + 1 in\n"), 1, "WN1011");

        // Templates.
        Case Template(string name, string text, params string[] told) => new(name, () => { Text("a.wain", Shelf); Text("a.summary.md", text); }, ["build", "a.wain"], 1, ["a.summary.md", .. told]);
        yield return Template("a template that never ends", "{{ while true }}{{ end }}");
        yield return Template("a template that calls itself", "{{ func f }}{{ f }}{{ end }}{{ f }}");
        yield return Template("a template that includes itself", "{{ include 'a.summary.md' }}");
        yield return Template("a template of brackets", "{{ " + new string('(', Deep) + "1" + new string(')', Deep) + " }}");
        yield return Template("a template of blocks", Times(Deep, _ => "{{ if true }}") + Times(Deep, _ => "{{ end }}"));
        yield return Template("a template that reads elsewhere", "{{ include '../../../../etc/passwd' }}");
        yield return Template("a template with a name that is not there", "one\n{{ figures['no.such'].text }}");

        // Files and folders.
        yield return new("no such file", () => { }, ["build", "none.wain"], 2, "none.wain");
        yield return new("a name with an escape sequence", () => { }, ["check", "\u001b[2Jnone.wain"], 2, "none.wain");
        yield return new("a folder", () => Directory.CreateDirectory("d"), ["check", "d"], 2, "is a folder");
        yield return new("an output folder that can't be made", () => { Text("a.wain", Shelf); Text("out", "a file"); }, ["build", "a.wain", "--out", "out"], 2, "out");
        yield return new("a workbook held open", () =>
        {
            Text("a.wain", Shelf);
            Entry.Run(["build", "a.wain"], TextWriter.Null, TextWriter.Null);
            Text("a.wain", Shelf.Replace("40 USD", "41 USD", StringComparison.Ordinal));
            Text("output/a/.~lock.workbook.xlsx#", "");
        }, ["build", "a.wain", "--replace"], 2, "workbook.xlsx", "open in another program");
        yield return new("an output of somebody else", () => { Text("a.wain", Shelf); Text("output/a/summary.md", "mine"); }, ["build", "a.wain"], 2, "summary.md", "--replace") { Writes = true };
        yield return new("no section to refresh", () => { Text("a.wain", Shelf); Text("README.md", "text\n"); }, ["build", "a.wain", "--into", "README.md"], 2, "README.md", "wain:begin summary");
        yield return new("a page that is no text", () => { Text("a.wain", Shelf); Bytes("README.md", [0xff, 0xfe, 0x00]); }, ["build", "a.wain", "--into", "README.md"], 2, "UTF-8");
        yield return new("no page at all", () => Text("a.wain", Shelf), ["build", "a.wain", "--into", "none.md"], 2, "none.md");

        // Wrong use.
        yield return new("no such command", () => { }, ["chekc"], 2, "Did you mean check?");
        yield return new("no such option", () => Text("a.wain", Shelf), ["check", "a.wain", "--ass", "json"], 2, "Did you mean --as?");
        yield return new("an option without its value", () => Text("a.wain", Shelf), ["check", "a.wain", "--as"], 2, "--as needs a value");
        yield return new("a form that there is not", () => Text("a.wain", Shelf), ["check", "a.wain", "--as", "xml"], 2, "people, lines, json, sarif");
        yield return new("no spec", () => { }, ["build"], 2, "wain build SPEC");
        yield return new("two specs of one name", () => { Text("a.wain", Shelf); Text("b/a.wain", Shelf); }, ["build", "a.wain", "b/a.wain"], 2, "Two specs are named a");
        yield return new("no such code", () => { }, ["explain", "WN401"], 2, "Did you mean");
        yield return new("no such figure", () => Text("a.wain", Shelf), ["query", "a.wain", "shelf.aera"], 1, "shelf has no figure named");
        yield return new("a folder that has a spec", () => Text("my/my.wain", "x"), ["new", "my"], 2, "is there already");
        yield return new("warnings as errors", () => Text("a.wain", "let unused = 3 in\n" + Shelf), ["build", "a.wain", "--warnings-are-errors"], 1, "WN1020", "nothing was written");
    }

    /// <summary>Runs every case in a folder of its own; tells what went wrong on standard output.</summary>
    public static int TryAll(string root)
    {
        int wrong = 0;
        foreach (var (i, one) in All().Index())
        {
            Directory.SetCurrentDirectory(Directory.CreateDirectory(Path.Combine(root, $"{i}")).FullName);
            one.SetUp();
            var before = Files();
            var (output, errors) = (new StringWriter(), new StringWriter());
            var clock = System.Diagnostics.Stopwatch.StartNew();
            int code = Entry.Run(one.Args, output, errors);
            string told = output.ToString() + errors;
            Console.Error.WriteLine($"{clock.ElapsedMilliseconds,6} ms {one.Name}");
            List<string> problems = [];
            if (code != one.Code) problems.Add($"exit code {code}, not {one.Code}");
            problems.AddRange(one.Told.Where(t => !told.Contains(t, StringComparison.Ordinal)).Select(t => $"\"{t}\" is not told"));
            if (told.Contains("   at ", StringComparison.Ordinal) || told.Contains("Exception", StringComparison.Ordinal)) problems.Add("a stack trace is told");
            if (told.Any(c => char.IsControl(c) && c is not ('\n' or '\r'))) problems.Add("a control character is told");
            if (!one.Writes && !Files().SequenceEqual(before)) problems.Add("files were written: " + string.Join(", ", Files().Except(before)));
            if (one.Writes && code == 0 && !File.Exists(Path.Combine("output", "a", OutputManifest.Name))) problems.Add("nothing was written");
            if (one.Writes && code != 0 && Files().Any(f => f.Contains("model.json", StringComparison.Ordinal))) problems.Add("a part was written");
            if (problems.Count == 0) continue;
            wrong++;
            Console.Out.WriteLine($"{one.Name}: {string.Join("; ", problems)}\n{(told.Length > 600 ? told[..600] : told)}\n");
        }
        return wrong == 0 ? 0 : 1;
    }

    private static List<string> Files() => [.. Directory.EnumerateFileSystemEntries(".", "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
}
