using System.Globalization;
using System.Numerics;
using System.Text.Json;
using System.Text.Json.Serialization;
using Wain.Core.CutLists;
using Wain.Cutting;

namespace Wain.Cli.Cutting;

/// <summary>That a roll can't be shorter: the certificate shows that one increment less does not hold the parts.</summary>
public sealed record RollProof(long Length, SheetCertificate? Shorter);

/// <summary>What is kept with a plan so that a reader need not trust the search: one of these, by how the material was planned.</summary>
public sealed record PlanProof(SheetCertificate? Sheets = null, StickCertificate? Sticks = null, FoamCertificate? Boards = null, RollProof? Roll = null, bool ByVolume = false)
{
    public JsonElement ToJson() => JsonSerializer.SerializeToElement(this, ProofJson.Default.PlanProof);

    /// <summary>The lower bound of cost that a plan's proof gives for its list, in exact arithmetic; null if it proves none. Takes any text for a proof.</summary>
    public static long? Bound(CutList list, MaterialPlan plan)
    {
        if (plan.Proof is not { } json || list.Stock.IsEmpty) return null;
        try
        {
            return json.Deserialize(ProofJson.Default.PlanProof)?.Bound(list.InLowestTerms()) is { } steps ? checked(steps * list.CostStep) : null;
        }
        catch (Exception fault) when (fault is JsonException or NotSupportedException or FormatException or OverflowException or ArgumentException or InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>The same for this proof and a list in lowest terms.</summary>
    public long? Bound(CutList list)
    {
        if (Sheets is { } sheets) return SheetPlanner.CheckBound(Problems.Sheets(list), sheets);
        if (Sticks is { } sticks) return StickPlanner.CheckBound(Problems.Sticks(list), sticks);
        if (Boards is not null || ByVolume) return FoamPlanner.CheckBound(Problems.Boards(list).Problem, Boards);
        if (Roll is not { } roll) return null;
        var (problem, byTheRun) = Problems.Roll(list);
        return !RollPlanner.CheckBound(problem, roll.Length, roll.Shorter) ? null : byTheRun ? roll.Length / problem.Increment * list.Stock[0].Cost : list.Stock[0].Cost;
    }
}

/// <summary>Whole numbers without a limit, as text, since readers of JSON round long numbers.</summary>
internal sealed class BigIntegerText : JsonConverter<BigInteger>
{
    public override BigInteger Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => BigInteger.Parse(reader.GetString() ?? "", NumberStyles.None, CultureInfo.InvariantCulture);

    public override void Write(Utf8JsonWriter writer, BigInteger value, JsonSerializerOptions options) => writer.WriteStringValue(value.ToString(CultureInfo.InvariantCulture));
}

[JsonSourceGenerationOptions(UseStringEnumConverter = true, RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, Converters = [typeof(BigIntegerText)])]
[JsonSerializable(typeof(PlanProof))]
internal sealed partial class ProofJson : JsonSerializerContext;
