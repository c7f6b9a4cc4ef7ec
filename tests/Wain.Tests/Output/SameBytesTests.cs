using Wain.Cli.Commands;
using Wain.Cli.Output;
using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Parsing;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Tests.Output;

/// <summary>What changes the text of the demo and not its design changes no byte of any output: workbook, text form, summary, pictures, plots, PDF, model.json.</summary>
public class SameBytesTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "specs", "heron");

    private static readonly Dictionary<string, string> Files = Directory.GetFiles(Folder, "*.wain").ToDictionary(f => Path.GetFileName(f), f => File.ReadAllText(f).ReplaceLineEndings("\n"));

    private static readonly Lazy<Dictionary<string, byte[]>> Plain = new(() => Build(Files));

    [Fact]
    public void Remarks_and_blank_lines() => AssertSame(new(Files)
    {
        ["heron.wain"] = "-- A remark before all.\n\n" + string.Join('\n', Files["heron.wain"].Split('\n').SelectMany(Remarked)),
        ["materials.wain"] = "\n\n-- More of it.\n" + Files["materials.wain"].Replace("\n}", "\n    -- And here.\n\n}", StringComparison.Ordinal),
    });

    [Fact]
    public void Declarations_in_another_order()
    {
        var turned = new Dictionary<string, string>(Files);
        foreach (var (name, text) in Files) turned[name] = string.Concat(Declarations(name, text).Reverse());
        Assert.NotEqual(Files["heron.wain"], turned["heron.wain"]);
        AssertSame(turned);
    }

    // Legs, layers and other lists keep their order; the rest of a block has none.
    [Fact]
    public void Facts_of_a_block_in_another_order()
    {
        string text = Files["heron.wain"];
        foreach (string keyword in (string[])["panel", "joint", "lift", "load", "shop", "night", "case", "built", "camper"])
        {
            foreach (var fact in SpecParser.Parse(new SourceText("heron.wain", text)).Value.Statements.OfType<Fact>().Where(f => f.Head.Text == keyword && f.Body is { Length: > 1 }))
            {
                var body = fact.Body!.Value;
                int start = body[0].Span.Start, end = body[^1].Span.End;
                string turned = string.Join("\n    ", body.Reverse().Select(s => s.Span.Text));
                text = text[..start] + turned + text[end..];
            }
        }
        Assert.NotEqual(Files["heron.wain"], text);
        AssertSame(new(Files) { ["heron.wain"] = text });
    }

    [Fact]
    public void A_move_into_a_file_that_is_used()
    {
        string text = Files["heron.wain"];
        var statements = Declarations("heron.wain", text);
        // Every other panel, plan, stack, joint and number goes, so that both files need each other.
        int turn = 0;
        var moved = statements.Where(s => s.TrimStart().Split(' ')[0] is "panel" or "plan" or "stack" or "joint" or "let" or "load" or "mirror" && turn++ % 2 == 0).ToHashSet(StringComparer.Ordinal);
        Assert.True(moved.Count > 20);
        AssertSame(new(Files)
        {
            ["heron.wain"] = "use \"parts/moved.wain\"\n" + string.Concat(statements.Where(s => !moved.Contains(s))),
            ["parts/moved.wain"] = string.Concat(moved),
        });
    }

    private static IEnumerable<string> Remarked(string line) => line.EndsWith('{') ? [line, "    -- What follows is meant so."] : line.Trim().Length == 0 ? [line] : [line + " -- so"];

    /// <summary>The top-level statements as text, each with the line end after it.</summary>
    private static string[] Declarations(string name, string text) => [.. SpecParser.Parse(new SourceText(name, text)).Value.Statements.Select(s => s.Span.Text + "\n")];

    private static void AssertSame(Dictionary<string, string> files)
    {
        var built = Build(files);
        Assert.Equal(Plain.Value.Keys.Order(StringComparer.Ordinal), built.Keys.Order(StringComparer.Ordinal));
        Assert.Empty(built.Where(f => !f.Value.AsSpan().SequenceEqual(Plain.Value[f.Key])).Select(f => f.Key));
    }

    private static Dictionary<string, byte[]> Build(Dictionary<string, string> files)
    {
        IncludeReader read = path => files.TryGetValue(path, out string? text) ? (new SourceText(path, text), null) : (null, "there is no such file");
        var compiled = Compiler.Compile(new SourceText("heron.wain", files["heron.wain"]), read);
        Assert.NotNull(compiled.Design);
        var (outputs, _, problem) = Outputs.Of(compiled, Path.Combine(Folder, "heron.wain"), Path.Combine(Folder, "nowhere"), draft: false);
        Assert.Null(problem);
        Assert.Contains(outputs, o => o.Path == Outputs.WorkbookName);
        if (Environment.GetEnvironmentVariable("WAIN_KEEP") is { } keep)
        {
            string folder = Path.Combine(keep, Path.GetRandomFileName());
            OutputSet.Write(folder, outputs, true, Outputs.EssenceOf);
        }
        return outputs.ToDictionary(o => o.Path, o => o.Bytes);
    }
}
