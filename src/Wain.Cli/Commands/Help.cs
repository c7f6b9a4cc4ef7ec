using Wain.Core.Findings.Renderers;
using Wain.Core.Text;

namespace Wain.Cli.Commands;

/// <summary>What --help prints.</summary>
public static class Help
{
    public static int Print(string? name, TextWriter output)
    {
        if (name is null)
        {
            output.WriteLine("wain compiles the plain-text spec of a self-built camper into findings,\na workbook, drawings and summaries.\n");
            output.WriteLine("usage: wain COMMAND ...\n");
            foreach (var c in CommandList.All)
            {
                string label = c.Name;
                foreach (string line in DisplayText.Wrapped(c.Summary, 68))
                {
                    output.WriteLine($"  {label,-9} {line}");
                    label = "";
                }
            }
            output.WriteLine("\nwain COMMAND --help says more, with examples.");
            output.WriteLine("Exit codes: 0 no error, 1 errors in the spec, 2 wrong use or a file that\ncan't be read or written, 3 a fault of the program.");
            return 0;
        }
        if (CommandList.Find(name) is not { } command) throw new UsageError($"There is no command \"{name}\".{NearestName.Ask(NearestName.Of(name, CommandList.All.Select(c => c.Name)))}");
        output.WriteLine($"usage: wain {command.Name} {command.Arguments}\n");
        foreach (string line in DisplayText.Wrapped(command.Summary, 78)) output.WriteLine(line);
        if (command.Options.Length > 0)
        {
            output.WriteLine("\noptions:");
            foreach (var option in command.Options)
            {
                output.WriteLine($"  {option.Name}{(option.Value is null ? "" : " " + option.Value)}");
                foreach (string line in DisplayText.Wrapped(option.Meaning, 70)) output.WriteLine($"      {line}");
            }
        }
        output.WriteLine("\nexamples:");
        foreach (string example in command.Examples) output.WriteLine($"  {example}");
        return 0;
    }
}
