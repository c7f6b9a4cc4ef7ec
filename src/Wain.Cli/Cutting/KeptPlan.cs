using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Wain.Core.CutLists;

namespace Wain.Cli.Cutting;

/// <summary>The plan that is kept beside the outputs of a spec. It belongs to the person who asked for it, so a build reads it and never writes it.</summary>
public static class KeptPlan
{
    public const string Name = "cutting.plan";

    /// <summary>Larger than the plan of any camper; a file beyond is not read.</summary>
    private const long SizeLimit = 256L << 20;

    /// <summary>The folder of outputs of a spec, where its plan lies.</summary>
    public static string FolderOf(string spec, Options options) => Path.Combine(options.Value("--out") ?? "output", Path.GetFileNameWithoutExtension(spec));

    /// <summary>The plan in a folder, whatever it was made for; null if there is no file.</summary>
    public static PlanFile? Read(string folder)
    {
        string path = Path.Combine(folder, Name);
        try
        {
            if (!File.Exists(path)) return null;
            if (new FileInfo(path).Length > SizeLimit) return Faulty("the file is too large");
            return new PlanFile(Whole(JsonSerializer.Deserialize(File.ReadAllBytes(path), PlanJson.Default.CuttingPlan)), null, PlanProof.Bound) is { Plan: not null } file ? file : Faulty("it is no cutting plan");
        }
        catch (Exception fault) when (fault is JsonException or NotSupportedException)
        {
            return Faulty("it is no cutting plan, or one of another version");
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return Faulty(Output.FileFaults.Said(fault).TrimEnd('.'));
        }
    }

    // A list that the text leaves out is no list at all, which would strike whoever reads it.
    private static CuttingPlan? Whole(CuttingPlan? plan) =>
        plan is { Splices.IsDefault: false, Materials.IsDefault: false }
        && plan.Splices.All(s => s is { At.IsDefault: false })
        && plan.Materials.All(m => m is { Sheets.IsDefault: false, Rips.IsDefault: false, Bought.IsDefault: false, Problems.IsDefault: false }
            && m.Rips.All(r => r is { Layers.IsDefault: false }) && m.Bought.All(b => b is not null) && m.Problems.All(p => p is not null)
            && m.Sheets.All(s => s is { Parts.IsDefault: false, Cuts.IsDefault: false, Offcuts.IsDefault: false, Faults.IsDefault: false }
                && s.Parts.All(p => p is { Outline.IsDefault: false }) && s.Cuts.All(c => c is not null) && s.Offcuts.All(o => o is not null))) ? plan : null;

    private static PlanFile Faulty(string fault) => new(null, fault, (_, _) => null);

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
internal sealed partial class PlanJson : JsonSerializerContext;
