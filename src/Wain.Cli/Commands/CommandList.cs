namespace Wain.Cli.Commands;

/// <summary>Every command, in the order that help shows.</summary>
public static class CommandList
{
    public static readonly Command[] All = [CheckCommand.Shape, BuildCommand.Shape, CutCommand.Shape, ExplainCommand.Shape, NewCommand.Shape, QueryCommand.Shape, TraceCommand.Shape, TidyCommand.Shape, CompareCommand.Shape, TextConvCommand.Shape, SweepCommand.Shape, SeekCommand.Shape, HistoryCommand.Shape, WatchCommand.Shape];

    public static Command? Find(string name) => All.FirstOrDefault(c => c.Name == name);
}
