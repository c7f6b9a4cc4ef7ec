using System.Collections.Immutable;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Revisions;

/// <summary>A named value and all that it is tried at.</summary>
/// <param name="Unit">As the first value was written; what the values are shown in.</param>
public sealed record Steps(string Name, ImmutableArray<Quantity> Values, string? Unit)
{
    /// <summary>No more values than this are tried of one name.</summary>
    public const int Limit = 1000;

    /// <summary>Reads the three values by the spec's own language, so that they may name its values.</summary>
    /// <returns>Null with a sentence that says what is wrong.</returns>
    public static (Steps? Steps, string? Problem) Read(Compilation spec, string name, string from, string to, string step)
    {
        if (!spec.Spec.NamedValues.Any(v => v.Name == name && v.Scope.Outer is null)) return (null, $"There is no \"let {name}\" in the spec.{NearestName.Ask(NearestName.Of(name, spec.Spec.NamedValues.Select(v => v.Name)))}");
        var values = new List<Quantity>();
        foreach (string text in new[] { from, to, step })
        {
            var (value, findings) = spec.Evaluate(text);
            if (value is not Binding.QuantityValue { Quantity: var q }) return (null, $"\"{text}\" is no value: {findings.FirstOrDefault()?.Message ?? "a number with its unit is expected"}");
            values.Add(q);
        }
        var (first, last, by) = (values[0], values[1], values[2]);
        if (first.Dimension != last.Dimension || first.Dimension != by.Dimension) return (null, $"{from}, {to} and {step} are not of one kind.");
        if (spec.Evaluate(name).Value is Binding.QuantityValue { Quantity: var own } && own.Dimension != first.Dimension) return (null, $"{name} is {own.Dimension.Describe()} and {from} {first.Dimension.Describe()}.");
        if (by.Value == 0) return (null, "A step of nothing leads nowhere.");
        double count = Math.Floor((last.Value - first.Value) / by.Value + 1e-9) + 1;
        if (count < 1) return (null, $"Steps of {step} from {from} never come to {to}.");
        if (count > Limit) return (null, $"That would be {count:0} values; {Limit} are tried at most. Take a larger step.");
        var all = ImmutableArray.CreateBuilder<Quantity>();
        var at = first;
        for (int i = 0; i < count; i++)
        {
            all.Add(at);
            at = Quantity.Add(at, by, first.Dimension);
        }
        string unit = new([.. from.Reverse().TakeWhile(c => char.IsLetterOrDigit(c) || c is '_' or '/').Reverse()]);
        return (new Steps(name, all.ToImmutable(), unit), null);
    }

    public string Show(Quantity value) => QuantityText.Show(value, Unit);

    /// <summary>A value in the unit shown.</summary>
    public double Number(Quantity value) => Unit is not null && UnitTable.Find(Unit) is { } u && u.Dimension == value.Dimension ? (double)decimal.Parse(QuantityText.Show(value, Unit).Split(' ')[0], System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture) : value.Value;

    /// <summary>What takes the place of the let.</summary>
    public static Expression Expression(Quantity value) => new MeasureExpression(new Span(new SourceText("sweep", ""), 0, 0), value, "");
}
