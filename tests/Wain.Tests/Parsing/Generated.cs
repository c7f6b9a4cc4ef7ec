using System.Text;
using Wain.Core.Language;

namespace Wain.Tests.Parsing;

/// <summary>Random text that is right in its shape: every statement of the grammar, and facts from the tables of the language. What it says is nonsense.</summary>
internal static class Generated
{
    private static readonly string[] Words = ["a", "floor", "let_it", "for", "nose", "wall_2", "left", "in", "and", "deck", "sheet", "top"];
    private static readonly string[] Units = ["in", "mm", "lb", "deg", "oz/yd2", "%", "degF", "USD", "lb/ft3"];
    private static readonly string[] Numbers = ["1", "0.5", "5 1/2", "5/16", "1.5e2", "7"];

    public static string Spec(Random random, int statements)
    {
        var text = new StringBuilder();
        for (int i = 0; i < statements; i++) Statement(random, text, 0);
        return text.ToString();
    }

    private static T One<T>(Random random, IReadOnlyList<T> from) => from[random.Next(from.Count)];

    private static string Name(Random random) => One(random, Words.Where(w => w is not ("for" or "and")).ToList());

    private static void Statement(Random random, StringBuilder text, int depth)
    {
        if (random.Next(8) == 0) text.Append("\n\n");
        if (random.Next(8) == 0) text.Append("-- a remark (with { signs\n");
        text.Append(' ', random.Next(5));
        switch (random.Next(depth > 3 ? 4 : 9))
        {
            case 0: text.Append($"let {Name(random)} = {Value(random, 3)}"); break;
            case 1: text.Append($"require {Condition(random, 2)}").Append(random.Next(2) == 0 ? ", \"why – so\"" : ""); break;
            case 2 or 3 or 4: Fact(random, text, depth); break;
            case 5: text.Append($"function f({Name(random)}, b) = {Value(random, 3)}"); break;
            case 6:
                text.Append($"if {Condition(random, 2)}");
                Block(random, text, depth);
                if (random.Next(2) == 0)
                {
                    text.Append(random.Next(2) == 0 ? "\nelse" : " else").Append($" if {Condition(random, 1)}");
                    Block(random, text, depth);
                    text.Append(" else");
                    Block(random, text, depth);
                }
                break;
            case 7:
                text.Append($"for {Name(random)} in left, right = {Sum(random, 2)}");
                Block(random, text, depth);
                break;
            default:
                text.Append($"group g{random.Next(100)}(a, b)");
                Block(random, text, depth);
                break;
        }
        text.Append(random.Next(6) == 0 ? "  -- why\n" : "\n");
    }

    private static void Block(Random random, StringBuilder text, int depth)
    {
        text.Append(random.Next(3) == 0 ? "{\n" : " {\n");
        for (int i = random.Next(4); i > 0; i--) Statement(random, text, depth + 1);
        text.Append('}');
    }

    private static void Fact(Random random, StringBuilder text, int depth)
    {
        var shape = One(random, SettingBlocks.Spec.Facts);
        if (shape.Body is { Facts.Length: > 0 } body && random.Next(2) == 0) shape = One(random, body.Facts);
        text.Append(shape.Keyword);
        foreach (var phrase in shape.Phrases)
        {
            if (phrase.Optional && random.Next(2) == 0) continue;
            if (phrase.Optional) text.Append(random.Next(2) == 0 ? ", " : ",\n   ");
            foreach (var item in phrase.Items) text.Append(' ').Append(item is Slot slot ? Term(random, slot) : item);
        }
        if (shape.Body is not null && depth < 4) Block(random, text, depth);
    }

    private static string Term(Random random, Slot slot)
    {
        if (!slot.Choices.IsEmpty) return One(random, slot.Choices);
        return slot.Kind switch
        {
            "text" => "\"a × b\"",
            "date" => "2026-05-02",
            "place2" => $"({Sum(random, 1)}, {Sum(random, 1)})",
            "place3" => $"({Sum(random, 1)}, {Sum(random, 1)} ,  {Sum(random, 1)})",
            "call" => $"g({Value(random, 1)}, b = {Value(random, 1)})",
            "new" or "word" => Name(random) + (random.Next(4) == 0 ? "[left]" : ""),
            "leg" or "edge" => $"{Name(random)}.{One(random, Words)}",
            var kind when kind.StartsWith("bounds_", StringComparison.Ordinal) => One(random, ["at least 2 in", "between 1 in and 2 in", "at most 3 in"]),
            _ when !slot.Things.IsEmpty => Name(random),
            _ => Sum(random, 2),
        };
    }

    private static string Value(Random random, int depth) => random.Next(4) switch
    {
        0 when depth > 0 => $"if {Condition(random, depth - 1)} then {Sum(random, depth - 1)} else {Sum(random, depth - 1)}",
        1 when depth > 0 => Condition(random, depth - 1),
        _ => Sum(random, depth),
    };

    private static string Condition(Random random, int depth)
    {
        string one = $"{Sum(random, depth)} {One(random, ["<", "<=", "==", "!=", ">", ">="])} {Sum(random, depth)}";
        return random.Next(3) switch { 0 when depth > 0 => $"{one} {One(random, ["and", "or"])} not {Sum(random, 0)} < {Sum(random, 0)}", 1 => $"not {one}", _ => one };
    }

    private static string Sum(Random random, int depth)
    {
        string text = Product(random, depth);
        for (int i = random.Next(2); i > 0 && depth > 0; i--) text += One(random, [" + ", " - ", "  +\n  "]) + Product(random, depth - 1);
        return text;
    }

    private static string Product(Random random, int depth)
    {
        string text = Primary(random, depth);
        if (depth > 0 && random.Next(3) == 0) text += random.Next(2) == 0 ? $" * {Primary(random, depth - 1)}" : $" / ({Sum(random, depth - 1)})";
        return text;
    }

    private static string Primary(Random random, int depth) => random.Next(7) switch
    {
        0 => One(random, Numbers),
        1 or 2 => $"{One(random, Numbers)}{One(random, [" ", "  "])}{One(random, Units)}",
        3 => "-" + (random.Next(2) == 0 ? "3 in" : Name(random)),
        4 when depth > 0 => $"({Value(random, depth - 1)})",
        5 when depth > 0 => $"min({Sum(random, depth - 1)}, {Sum(random, depth - 1)})",
        6 => $"{Name(random)}.{One(random, Words)}[left]",
        _ => Name(random) + (depth > 1 && random.Next(4) == 0 ? " ^ 2" : ""),
    };
}
