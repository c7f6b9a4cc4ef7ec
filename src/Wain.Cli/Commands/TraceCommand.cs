using Wain.Core.Text;
using Wain.Cli.Cutting;
using Wain.Core.Figures;
using Wain.Core.Units;

namespace Wain.Cli.Commands;

/// <summary>Prints how a figure came about, down to spec lines and sources.</summary>
public static class TraceCommand
{
    public static readonly Command Shape = new("trace", "SPEC NAME", "Prints how a figure came about: its formula, its inputs and theirs, down to spec lines and sources.",
        [new("--out", "FOLDER", "where the folder of the spec is, with its cutting plan; output if it is left out"), new("--depth", "N", "how many steps down; 3 if it is left out"), new("--set", "NAME=VALUE", "gives a let of the spec another value for this run", Many: true)],
        ["wain trace my.wain total.weight", "wain trace my.wain rear_wall.weight --depth 5"], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count != 2) throw new UsageError("trace needs a spec and the name of a figure: wain trace SPEC total.weight");
        var compiled = SpecFiles.Compile(options.Arguments[0], options, KeptPlan.Read(KeptPlan.FolderOf(options.Arguments[0], options)));
        if (compiled.Design is not { } design)
        {
            FindingsOutput.Print(compiled.Findings, Options.Parse(CheckCommand.Shape, []), errors);
            return 1;
        }
        string name = options.Arguments[1];
        if (design.Figures.Trace(name) is not { } node) throw new UsageError($"There is no figure named {name}.{Core.Text.NearestName.Ask(design.Figures.Nearest(name))} wain query SPEC figures lists them.");
        Print(node, 0, options.Whole("--depth", 3), compiled.Structure!.Spec.Say, output);
        return 0;
    }

    private static void Print(TraceNode node, int level, int depth, Core.Text.Say say, TextWriter output)
    {
        string indent = new(' ', 2 * level);
        if (node.Figure is not { } figure)
        {
            output.WriteLine($"{indent}{node.Name}: {(node.Missing is { } missing ? "missing, since " + missing.Reason : "stated elsewhere")}");
            return;
        }
        string spread = figure.Low is { } low && figure.High is { } high ? $" ({QuantityText.Show(low, say: say)} to {QuantityText.Show(high, say: say)})" : "";
        output.WriteLine($"{indent}{figure.Name} = {QuantityText.Show(figure.Value, say: say)}{spread}");
        if (!figure.IsComplete) Wrapped(output, indent + "  ", "not whole: ", $"it lacks {figure.LacksInShort}");
        if (figure.Formula.Length > 0) Wrapped(output, indent + "  ", "how: ", figure.Formula);
        if (figure.From is { } from) Wrapped(output, indent + "  ", "line: ", $"{from}: {Core.Reporting.SpecLine.Of(from)}");
        if (figure.Source is { } source) Wrapped(output, indent + "  ", "source: ", source);
        if (level >= depth)
        {
            if (node.Inputs.Length > 0) output.WriteLine($"{indent}  and {node.Inputs.Length} below; --depth shows more");
            return;
        }
        foreach (var input in node.Inputs) Print(input, level + 1, depth, say, output);
    }

    /// <summary>Lines of at most 80 columns where words allow it, later ones set in under the first.</summary>
    private static void Wrapped(TextWriter output, string indent, string label, string text)
    {
        string line = indent + label;
        bool bare = true;
        foreach (string word in text.Split(' '))
        {
            if (!bare && line.Length + 1 + word.Length > 80)
            {
                output.WriteLine(line);
                line = indent + "    " + word;
            }
            else line += bare ? word : " " + word;
            bare = false;
        }
        output.WriteLine(line);
    }
}
