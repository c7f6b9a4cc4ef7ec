using Wain.Core.Text;

namespace Wain.Cli.Output;

/// <summary>
/// Why a file can't be read or written, in words. The program is published without the runtime's own sentences, whose place a key such as
/// <c>IO_PathNotFound_Path</c> takes; what the system says itself, such as a full disk, is passed on.
/// </summary>
internal static class FileFaults
{
    public static string Said(Exception fault)
    {
        if (fault is not (IOException or UnauthorizedAccessException or UsageError)) return SystemWords.Said(fault) + ".";
        string message = fault.Message;
        int comma = message.IndexOf(", ", StringComparison.Ordinal);
        string head = comma < 0 ? message : message[..comma], path = comma < 0 ? "" : message[(comma + 2)..];
        if (!head.Contains('_', StringComparison.Ordinal) || head.Contains(' ', StringComparison.Ordinal)) return message;
        string why = fault switch
        {
            DirectoryNotFoundException => "a folder on the way there is missing, or a file stands in its place",
            FileNotFoundException => "there is no such file",
            PathTooLongException => "the path is too long",
            UnauthorizedAccessException => "it may not be opened",
            _ when head.Contains("Exists", StringComparison.Ordinal) => "something of that name is there already",
            _ when head.Contains("Sharing", StringComparison.Ordinal) => "another program holds it open",
            _ => "the system refuses it",
        };
        return path.Length > 0 ? $"{path}: {why}." : $"{char.ToUpperInvariant(why[0])}{why[1..]}.";
    }
}
