using Wain.Cli;
using Wain.Cli.Commands;
using Wain.Core.Findings.Renderers;

HeadStart.Begin(args);
return Entry.Run(args, Console.Out, Console.Error);

namespace Wain.Cli
{
    /// <summary>Exit codes: 0 no error; 1 errors found in the spec; 2 wrong use, or a file that can't be read or written; 3 a fault of the program.</summary>
    public static class Entry
    {
        public static int Run(string[] args, TextWriter output, TextWriter errors)
        {
            try
            {
                if (args.Length == 0 || args[0] is "--help" or "-h" or "help") return Help.Print(args.Skip(1).FirstOrDefault(), output);
                if (args[0] == "--version")
                {
                    output.WriteLine("wain, language " + Core.Language.SettingBlocks.LanguageVersion);
                    return 0;
                }
                if (CommandList.Find(args[0]) is not { } command) throw new UsageError($"There is no command \"{args[0]}\".{Core.Text.NearestName.Ask(Core.Text.NearestName.Of(args[0], CommandList.All.Select(c => c.Name)))} wain --help lists them.");
                if (args.Skip(1).Any(a => a is "--help" or "-h")) return Help.Print(command.Name, output);
                return command.Run(Options.Parse(command, args[1..]), output, errors);
            }
            catch (UsageError e)
            {
                errors.WriteLine($"wain: {DisplayText.PlainLines(e.Message)}");
                return 2;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                errors.WriteLine($"wain: {DisplayText.PlainLines(Output.FileFaults.Said(e))}");
                return 2;
            }
            catch (Exception e)
            {
                errors.WriteLine($"wain: a fault of the program itself: {e.GetType().Name}: {DisplayText.PlainLines(Output.FileFaults.Said(e))}");
                errors.WriteLine("Nothing was written. Please keep the spec that caused it; WAIN_TRACE=1 shows where it happened.");
                if (Environment.GetEnvironmentVariable("WAIN_TRACE") == "1") errors.WriteLine(e.StackTrace);
                return 3;
            }
        }
    }
}
