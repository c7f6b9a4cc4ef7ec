using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Wain.Core;
using Wain.Core.Revisions;

namespace Wain.Cli.Revisions;

/// <summary>Keeps the figures of a revision by the hash of all that its folder holds and of the compiler, so that neither a name nor a date can mislead it.</summary>
public sealed class HistoryCache(string folder)
{
    public static string DefaultFolder => Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify) is { Length: > 0 } own ? own : Path.GetTempPath(), "wain", "history");

    private string FileOf(string treeId, string spec)
    {
        string key = $"{typeof(Compiler).Module.ModuleVersionId} {treeId} {spec}";
        return Path.Combine(folder, Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(key))[..16]) + ".json");
    }

    /// <summary>Null if nothing is kept, or what is kept can't be read.</summary>
    public KeyFigures? Find(string treeId, string spec)
    {
        try
        {
            string file = FileOf(treeId, spec);
            return File.Exists(file) ? JsonSerializer.Deserialize<KeyFigures>(File.ReadAllBytes(file)) : null;
        }
        catch (Exception e) when (e is IOException or JsonException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <returns>False if it could not be kept: the next run then computes it again.</returns>
    public bool Keep(string treeId, string spec, KeyFigures figures)
    {
        try
        {
            Directory.CreateDirectory(folder);
            string file = FileOf(treeId, spec), beside = $"{file}.{Environment.ProcessId}";
            File.WriteAllBytes(beside, JsonSerializer.SerializeToUtf8Bytes(figures));
            File.Move(beside, file, overwrite: true);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }
}
