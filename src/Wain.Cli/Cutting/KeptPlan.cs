using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization;
using Wain.Core.CutLists;

namespace Wain.Cli.Cutting;

/// <summary>The plan that is kept beside the outputs of a spec. It belongs to the person who asked for it, so a build reads it and never writes it.</summary>
public static class KeptPlan
{
    public const string Name = "cutting.plan";

    // Raised when the planner itself changes so much that older plans should be made again.
    private const string Version = "wain cutting 1\n";

    /// <summary>A hash of all that a plan follows from.</summary>
    public static string KeyOf(ImmutableArray<CutList> lists)
    {
        byte[] text = [.. System.Text.Encoding.UTF8.GetBytes(Version), .. JsonSerializer.SerializeToUtf8Bytes(lists, PlanJson.Default.ImmutableArrayCutList)];
        return Convert.ToHexStringLower(SHA256.HashData(text))[..32];
    }

    /// <summary>The plan in a folder, whatever it was made for; null if there is none that can be read.</summary>
    public static CuttingPlan? Read(string folder)
    {
        string path = Path.Combine(folder, Name);
        try
        {
            return File.Exists(path) ? JsonSerializer.Deserialize(File.ReadAllBytes(path), PlanJson.Default.CuttingPlan) : null;
        }
        catch (Exception fault) when (fault is JsonException or NotSupportedException or IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>The plan in a folder if it was made for these lists and still keeps their rules, since anybody can write into the file.</summary>
    public static CuttingPlan? Matching(string folder, ImmutableArray<CutList> lists) =>
        Read(folder) is { } plan && plan.Key == KeyOf(lists) && PlanCheck.FirstProblem(plan, lists) is null ? plan : null;

    public static bool Exists(string folder) => File.Exists(Path.Combine(folder, Name));

    /// <summary>Writes it whole or not at all.</summary>
    public static void Write(string folder, CuttingPlan plan)
    {
        Directory.CreateDirectory(folder);
        string path = Path.Combine(folder, Name), beside = Path.Combine(folder, ".wain-" + Name);
        using (var file = new FileStream(beside, FileMode.Create, FileAccess.Write))
        {
            file.Write(JsonSerializer.SerializeToUtf8Bytes(plan, PlanJson.Default.CuttingPlan));
            file.WriteByte((byte)'\n');
            file.Flush(flushToDisk: true);
        }
        File.Move(beside, path, overwrite: true);
    }
}

[JsonSourceGenerationOptions(WriteIndented = true, NewLine = "\n", IndentSize = 1, UseStringEnumConverter = true, RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(CuttingPlan))]
[JsonSerializable(typeof(ImmutableArray<CutList>))]
internal sealed partial class PlanJson : JsonSerializerContext;
