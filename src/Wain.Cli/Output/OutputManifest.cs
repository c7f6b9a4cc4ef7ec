using System.Security.Cryptography;
using System.Text;

namespace Wain.Cli.Output;

/// <summary>What the last build wrote, by content: one line a file with the SHA-256 of its bytes, that of its essence or a dash, and its path.</summary>
internal static class OutputManifest
{
    public const string Name = "wain.manifest";

    private const string Head = "wain outputs 1";

    public sealed record Entry(string Hash, string? Essence);

    public static string Hash(ReadOnlySpan<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    public static string Text(IEnumerable<OutputFile> files)
    {
        var text = new StringBuilder(Head).Append('\n');
        foreach (var file in files.OrderBy(file => file.Path, StringComparer.Ordinal))
        {
            string essence = file.Essence is null ? "-" : Hash(Encoding.UTF8.GetBytes(file.Essence));
            text.Append(Hash(file.Bytes)).Append(' ').Append(essence).Append(' ').Append(file.Path).Append('\n');
        }
        return text.ToString();
    }

    /// <summary>Empty if there is none or it can't be understood: then nothing counts as written by a build, which is the careful reading.</summary>
    public static IReadOnlyDictionary<string, Entry> Read(string folder)
    {
        var entries = new Dictionary<string, Entry>(StringComparer.Ordinal);
        if (OutputPath.Read(folder, Name) is not { } bytes) return entries;
        string[] lines = Encoding.UTF8.GetString(bytes).ReplaceLineEndings("\n").Split('\n', StringSplitOptions.RemoveEmptyEntries);
        if (lines.Length == 0 || lines[0] != Head) return entries;
        foreach (string line in lines.Skip(1))
        {
            string[] parts = line.Split(' ', 3);
            if (parts.Length == 3) entries[parts[2]] = new Entry(parts[0], parts[1] == "-" ? null : parts[1]);
        }
        return entries;
    }
}
