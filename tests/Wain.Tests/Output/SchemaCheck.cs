using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Wain.Tests.Output;

/// <summary>Holds a document against the keywords of JSON Schema (draft 2020-12) that the project's schemas use; any other keyword is an error, so none goes unchecked.</summary>
internal static class SchemaCheck
{
    private static readonly HashSet<string> Known = new(StringComparer.Ordinal)
    {
        "$schema", "$defs", "$ref", "title", "description", "type", "properties", "required", "additionalProperties", "items", "enum", "const", "pattern", "minimum", "minLength",
    };

    public static void Holds(JsonNode? value, JsonNode schema, JsonNode root, string where)
    {
        var rules = schema.AsObject();
        foreach (var (keyword, _) in rules) Assert.True(Known.Contains(keyword), $"{where}: the check does not know {keyword}");
        if (rules["$ref"] is { } reference)
        {
            Holds(value, reference.GetValue<string>().Split('/').Skip(1).Aggregate(root, (node, step) => node[step]!), root, where);
        }
        if (rules["type"] is { } type)
        {
            string[] types = type is JsonArray many ? many.Select(t => t!.GetValue<string>()).ToArray() : [type.GetValue<string>()];
            Assert.True(types.Contains(TypeOf(value)) || TypeOf(value) == "integer" && types.Contains("number"), $"{where} is a {TypeOf(value)}, not {string.Join(" or ", types)}");
        }
        if (rules["const"] is { } constant) Assert.True(JsonNode.DeepEquals(value, constant), $"{where} is not {constant}");
        if (rules["enum"] is JsonArray choices) Assert.True(choices.Any(choice => JsonNode.DeepEquals(value, choice)), $"{where} is {value}");
        if (rules["pattern"] is { } pattern && value is not null) Assert.Matches(new Regex(pattern.GetValue<string>()), value.GetValue<string>());
        if (rules["minimum"] is { } minimum) Assert.True(value!.GetValue<double>() >= minimum.GetValue<double>(), $"{where} is {value}");
        if (rules["minLength"] is { } length) Assert.True(value!.GetValue<string>().Length >= length.GetValue<int>(), $"{where} is too short");
        if (value is JsonObject map)
        {
            foreach (var name in rules["required"]?.AsArray() ?? []) Assert.True(map.ContainsKey(name!.GetValue<string>()), $"{where} lacks {name}");
            foreach (var (name, item) in map)
            {
                if (rules["properties"]?[name] is { } property) Holds(item, property, root, $"{where}.{name}");
                else if (rules["additionalProperties"] is JsonValue closed && closed.GetValueKind() == JsonValueKind.False) Assert.Fail($"{where} has {name}, which the schema does not name");
                else if (rules["additionalProperties"] is JsonObject others) Holds(item, others, root, $"{where}.{name}");
            }
        }
        if (value is JsonArray list && rules["items"] is { } items)
        {
            for (int i = 0; i < list.Count; i++) Holds(list[i], items, root, $"{where}[{i}]");
        }
    }

    private static string TypeOf(JsonNode? value) => value?.GetValueKind() switch
    {
        null or JsonValueKind.Null => "null",
        JsonValueKind.True or JsonValueKind.False => "boolean",
        JsonValueKind.Number => value.GetValue<double>() == Math.Floor(value.GetValue<double>()) ? "integer" : "number",
        JsonValueKind.String => "string",
        JsonValueKind.Array => "array",
        _ => "object",
    };
}
