using System.Collections.Immutable;
using Wain.Core.Units;

namespace Wain.Core.Binding;

/// <summary>The functions that a spec may call without defining them.</summary>
public static class BuiltInFunctions
{
    /// <summary>Name, how it is called, what it gives.</summary>
    public static readonly ImmutableArray<(string Name, string Call, string Meaning)> All =
    [
        ("sin", "sin(angle)", "sine"), ("cos", "cos(angle)", "cosine"), ("tan", "tan(angle)", "tangent"),
        ("asin", "asin(ratio)", "angle of a sine"), ("acos", "acos(ratio)", "angle of a cosine"), ("atan", "atan(ratio)", "angle of a tangent"),
        ("atan2", "atan2(rise, run)", "angle of a rise over a run"), ("sqrt", "sqrt(x)", "square root; of an area, a length"), ("hypot", "hypot(a, b)", "long side of a right triangle"),
        ("abs", "abs(x)", "without its sign"), ("min", "min(a, b, ...)", "the smallest"), ("max", "max(a, b, ...)", "the largest"),
        ("round", "round(x, step)", "to the nearest step, halves up"), ("floor", "floor(x, step)", "down to a step"), ("ceiling", "ceiling(x, step)", "up to a step"),
    ];

    public static IEnumerable<string> Names => All.Select(f => f.Name);

    /// <summary>Calls a function. Known is false for an unknown name; a problem is a sentence for the user.</summary>
    public static (bool Known, Value? Result, string? Problem) Call(string name, ImmutableArray<Value> values)
    {
        var entry = All.FirstOrDefault(f => f.Name == name);
        if (entry.Name is null) return (false, null, null);
        var q = values.OfType<QuantityValue>().Select(v => v.Quantity).ToArray();
        if (q.Length != values.Length || q.Length == 0) return (true, null, $"{entry.Call} takes numbers.");
        int wanted = entry.Call.Contains("...", StringComparison.Ordinal) ? q.Length : entry.Call.Count(c => c == ',') + 1;
        bool stepLeftOut = name is "round" or "floor" or "ceiling" && q.Length == 1 && q[0].Dimension.IsNone;
        if (q.Length != wanted && !stepLeftOut) return (true, null, $"{entry.Call} takes {Evaluator.Count(wanted, "value")}.");
        var a = q[0];
        bool alike = q.All(x => x.Dimension == a.Dimension);
        switch (name)
        {
            case "sin" or "cos" or "tan":
                if (a.Dimension != Dimension.OfAngle) return (true, null, $"{entry.Call} takes an angle, such as 8 deg; this is {a.Dimension.Describe()}.");
                double r = name switch { "sin" => Math.Sin(a.Radians), "cos" => Math.Cos(a.Radians), _ => Math.Tan(a.Radians) };
                if (name == "tan" && Math.Abs(Math.Cos(a.Radians)) < 1e-12) return (true, null, "The tangent of a right angle has no value.");
                return (true, new QuantityValue(new Quantity(r, Dimension.None)), null);
            case "asin" or "acos" or "atan":
                if (!a.Dimension.IsNone) return (true, null, $"{entry.Call} takes a ratio; this is {a.Dimension.Describe()}.");
                if (name != "atan" && Math.Abs(a.Value) > 1) return (true, null, $"{entry.Call} takes a ratio between -1 and 1.");
                return (true, new QuantityValue(Quantity.FromRadians(name switch { "asin" => Math.Asin(a.Value), "acos" => Math.Acos(a.Value), _ => Math.Atan(a.Value) })), null);
            case "sqrt":
                var d = a.Dimension;
                if (a.Value < 0) return (true, null, "A negative number has no root.");
                if (new[] { d.Length, d.Mass, d.Time, d.Temperature, d.Angle, d.Money }.Any(e => e % 2 != 0)) return (true, null, $"The root of {d.Describe()} is no quantity.");
                return (true, new QuantityValue(new Quantity(Math.Sqrt(a.Value), new Dimension((sbyte)(d.Length / 2), (sbyte)(d.Mass / 2), (sbyte)(d.Time / 2), (sbyte)(d.Temperature / 2), (sbyte)(d.Angle / 2), (sbyte)(d.Money / 2), d.Currency, false))), null);
            case "abs": return (true, new QuantityValue(a.Value < 0 ? a.Negate() : a), null);
        }
        if (!alike && !stepLeftOut) return (true, null, $"{entry.Call} takes values of one kind; these are {string.Join(" and ", q.Select(x => x.Dimension.Describe()).Distinct())}.");
        switch (name)
        {
            case "atan2": return (true, new QuantityValue(Quantity.FromRadians(Math.Atan2(a.Value, q[1].Value))), null);
            case "hypot": return (true, new QuantityValue(new Quantity(Math.Sqrt(a.Value * a.Value + q[1].Value * q[1].Value), a.Dimension)), null);
            case "min": return (true, new QuantityValue(q.Aggregate((x, y) => y.CompareTo(x) < 0 ? y : x)), null);
            case "max": return (true, new QuantityValue(q.Aggregate((x, y) => y.CompareTo(x) > 0 ? y : x)), null);
            default: return Step(name, a, stepLeftOut ? Quantity.Count(1) : q[1]);
        }
    }

    private static (bool, Value?, string?) Step(string name, Quantity value, Quantity step)
    {
        if (step.Value <= 0) return (true, null, "A step is larger than zero.");
        // A value within a billionth of a step counts as on it, since trigonometry leaves crumbs.
        double steps = value.Value / step.Value;
        double near = Math.Round(steps);
        if (Math.Abs(steps - near) < 1e-9 * Math.Max(1, Math.Abs(steps))) steps = near;
        double whole = name switch { "round" => Math.Floor(steps + 0.5), "floor" => Math.Floor(steps), _ => Math.Ceiling(steps) };
        if (Math.Abs(whole) > 1e15) return (true, null, "The step is too small for the value.");
        return (true, new QuantityValue(Quantity.Multiply(step, Quantity.Count((long)whole), step.Dimension)), null);
    }
}
