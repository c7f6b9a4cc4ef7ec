using Wain.Core.Findings;
using Wain.Core.Findings.Renderers;
using Wain.Core.Text;

namespace Wain.Cli.Commands;

/// <summary>Says what a code means, why it matters, and how a spec with it is mended.</summary>
public static class ExplainCommand
{
    public static readonly Command Shape = new("explain", "CODE", "Says what a finding means, with an example and its mended form. CODE is a code such as WN4001, or its name.", [],
        ["wain explain WN4001", "wain explain measures-disagree"], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count != 1) throw new UsageError("explain needs one code: wain explain WN4001");
        if (Catalogue.Find(options.Arguments[0]) is not { } info)
        {
            var all = Catalogue.All();
            throw new UsageError($"There is no code \"{options.Arguments[0]}\".{NearestName.Ask(NearestName.Of(options.Arguments[0], all.Select(i => i.Name).Concat(all.Select(i => i.Code))))}");
        }
        output.WriteLine($"{info.Code} {info.Name} ({info.Level.ToString().ToLowerInvariant()})");
        foreach (string line in DisplayText.Wrapped(info.Title + ".", 78)) output.WriteLine(line);
        output.WriteLine();
        foreach (string line in DisplayText.Wrapped(info.Why, 78)) output.WriteLine(line);
        Example(output, $"Told for this{info.Kept?.Beside}:", info.Bad);
        if (info.Bad == info.Good) output.WriteLine($"\n{Catalogue.MendedAnew}.");
        else Example(output, $"Mended{(info.Kept is null ? "" : ", and a plan made of it")}:", Catalogue.Changes(info.Bad, info.Good));
        return 0;
    }

    private static void Example(TextWriter output, string title, string text)
    {
        output.WriteLine();
        foreach (string line in DisplayText.Wrapped(title, 78)) output.WriteLine(line);
        foreach (string line in text.TrimEnd().Split('\n')) output.WriteLine("    " + line);
    }
}
