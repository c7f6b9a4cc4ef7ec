using System.Text.Json;
using Wain.Cutting;

namespace Wain.Benchmarks;

/// <summary>A benchmark instance in one of its variants.</summary>
/// <param name="Name">Name as solutions give it: the instance's own, with "@OF", "@OG", "@RF" or "@RG" where it has variants.</param>
/// <param name="Set">The set it is reported under.</param>
/// <param name="Objective">"bins", "cost" or "area".</param>
/// <param name="Best">Best known value, if there is one.</param>
public sealed record CuttingInstance(
    string Name, string Set, string Variant, string Objective, double? Best, double? Lower, StickProblem? Sticks, SheetProblem? Sheets, double? ClassUtilisation);

/// <summary>A folder of instances cannot be read as such.</summary>
public sealed class InstanceException(string message) : Exception(message);

/// <summary>Reads instance files: lists of objects with "items" and either "stock_length" (sticks) or "stock" (sheets).</summary>
public static class CuttingInstances
{
    public static IReadOnlyList<CuttingInstance> Read(string folder)
    {
        if (!Directory.Exists(folder))
            throw new InstanceException($"There is no folder {folder}.");
        var result = new List<CuttingInstance>();
        foreach (var file in Directory.EnumerateFiles(folder, "*.json", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            try
            {
                using var document = JsonDocument.Parse(File.ReadAllText(file));
                if (document.RootElement.ValueKind != JsonValueKind.Array)
                    continue;
                foreach (var element in document.RootElement.EnumerateArray())
                {
                    // Files of published totals lie beside the instances; only what names itself and lists items is one.
                    if (element.ValueKind == JsonValueKind.Object && element.TryGetProperty("name", out _) && element.TryGetProperty("items", out _))
                        result.AddRange(Instances(element));
                }
            }
            catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or FormatException or OverflowException)
            {
                throw new InstanceException($"{file} is not a list of cutting instances: {e.Message}");
            }
        }

        if (result.Count == 0)
            throw new InstanceException($"No instance was found below {folder}.");
        return result;
    }

    private static IEnumerable<CuttingInstance> Instances(JsonElement o)
    {
        var name = o.GetProperty("name").GetString() ?? throw new InvalidOperationException("a name is missing");
        var set = (o.TryGetProperty("set", out var s) ? s.ToString() : "2D") + (o.TryGetProperty("class", out var c) ? " " + c : "");
        if (o.TryGetProperty("stock_length", out var length))
        {
            var sticks = new StickProblem(
                [new StockStick("bar", length.GetInt64(), 1)],
                [.. o.GetProperty("items").EnumerateArray().Select((i, n) => new StickPiece(n.ToString(), i.GetProperty("len").GetInt64(), i.GetProperty("n").GetInt32()))],
                o.GetProperty("kerf").GetInt64());
            yield return new CuttingInstance(name, "1D " + set, "-", "bins", Number(o, "best"), Number(o, "lower"), sticks, null, null);
            yield break;
        }

        var objective = o.TryGetProperty("objective", out var ob) ? ob.GetString()! : "bins";
        var mean = Number(o, "class_best_util");
        if (o.TryGetProperty("variants", out var variants))
        {
            foreach (var v in variants.EnumerateObject())
            {
                yield return new CuttingInstance($"{name}@{v.Name}", set, v.Name, objective, Number(v.Value, "best"), Number(v.Value, "lower"), null,
                    Sheets(o, objective, v.Name[0] == 'R', v.Name[1] == 'G'), mean);
            }
        }
        else
        {
            var guillotine = o.TryGetProperty("guillotine", out var g) && g.ValueKind == JsonValueKind.True;
            var turn = o.TryGetProperty("rotate", out var r) && r.ValueKind == JsonValueKind.True;
            yield return new CuttingInstance(name, set, "-", objective, Number(o, "best"), Number(o, "lower"), null, Sheets(o, objective, turn, guillotine), mean);
        }
    }

    private static SheetProblem Sheets(JsonElement o, string objective, bool turn, bool guillotine)
    {
        var stock = o.GetProperty("stock").EnumerateArray().Select((s, n) =>
        {
            var (w, h) = (s.GetProperty("w").GetInt64(), s.GetProperty("h").GetInt64());
            var cost = objective switch
            {
                "bins" => 1,
                "area" => w * h,
                _ => s.TryGetProperty("cost", out var c) ? c.GetInt64() : w * h,
            };
            int? count = s.TryGetProperty("count", out var k) && k.ValueKind == JsonValueKind.Number ? k.GetInt32() : null;
            return new StockSheet(n.ToString(), w, h, cost, count);
        }).ToArray();
        var pieces = o.GetProperty("items").EnumerateArray().Select((i, n) =>
        {
            var mayTurn = turn && !(i.TryGetProperty("rotate", out var r) && r.ValueKind == JsonValueKind.False);
            return new SheetPiece(n.ToString(), i.GetProperty("w").GetInt64(), i.GetProperty("h").GetInt64(), i.GetProperty("n").GetInt32(), mayTurn);
        }).ToArray();
        return new SheetProblem(stock, pieces, o.TryGetProperty("kerf", out var kerf) ? kerf.GetInt64() : 0, guillotine);
    }

    private static double? Number(JsonElement o, string name) =>
        o.TryGetProperty(name, out var v) && v.ValueKind == JsonValueKind.Number ? v.GetDouble() : null;
}
