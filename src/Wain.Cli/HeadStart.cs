using Wain.Cli.Commands;
using Wain.Core;
using Wain.Core.Text;

namespace Wain.Cli;

/// <summary>
/// A short run spends most of its time on what the runtime sets up when a pass is first entered. While this core reads and parses the spec, another takes the beginner's spec through all
/// passes, so that the later ones are ready when the spec comes to them. What it makes is thrown away.
/// </summary>
internal static class HeadStart
{
    private static Thread? _thread;

    /// <summary>Commands that compile no spec have nothing to get ready for.</summary>
    public static void Begin(string[] args)
    {
        if (args is not ["check" or "build" or "query" or "trace" or "compare", _, ..] || Environment.ProcessorCount < 2) return;
        _thread = new Thread(Run, maxStackSize: 4 << 20) { IsBackground = true, Name = "head start" };
        _thread.Start();
    }

    /// <summary>Until all passes are ready; returns at once where none was begun.</summary>
    public static void Wait() => _thread?.Join();

    private static void Run()
    {
        try
        {
            Compiler.Compile(new SourceText("new.wain", NewCommand.Text()));
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // The run itself will meet the same fault and say it in its own words.
        }
    }
}
