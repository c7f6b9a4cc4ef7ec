using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace Wain.Core.Methods;

/// <summary>Why a figure is not there, in words for the person who builds. Turns into a <see cref="Result{T}"/> of any type.</summary>
public sealed record Missing(string Reason);

/// <summary>A figure, or the reason that it cannot be had. Never a silent zero and never NaN: a figure that is not finite becomes a reason.</summary>
public sealed record Result<T>
{
    private readonly T? value;

    private Result(T? value, string? reason) => (this.value, Reason) = (value, reason);

    /// <summary>Null if the figure is known.</summary>
    public string? Reason { get; }

    public bool IsKnown => Reason is null;

    public bool TryGet([MaybeNullWhen(false)] out T figure)
    {
        figure = value;
        return IsKnown;
    }

    /// <summary>The figure, or <paramref name="otherwise"/> if it is missing.</summary>
    public T Or(T otherwise) => IsKnown ? value! : otherwise;

    public Result<U> Map<U>(Func<T, U> next) => IsKnown ? next(value!) : new Missing(Reason!);

    public Result<U> Then<U>(Func<T, Result<U>> next) => IsKnown ? next(value!) : new Missing(Reason!);

    public static implicit operator Result<T>(T value) => value is double number && !double.IsFinite(number)
        ? new Result<T>(default, "the figures given lead to no finite answer")
        : new Result<T>(value, null);

    public static implicit operator Result<T>(Missing missing) => new(default, missing.Reason);
}

/// <summary>What a method asks of its inputs. Each function returns null if the input will do, otherwise the reason why not.</summary>
internal static class Need
{
    public static string? Finite(double value, string what) => double.IsFinite(value) ? null : $"{what} is not a number";

    public static string? Positive(double value, string what) =>
        Finite(value, what) ?? (value > 0 ? null : $"{what} must be above zero and is {Show(value)}");

    public static string? NotNegative(double value, string what) =>
        Finite(value, what) ?? (value >= 0 ? null : $"{what} must not be negative and is {Show(value)}");

    public static string? Between(double value, double low, double high, string what) =>
        Finite(value, what) ?? (value >= low && value <= high ? null : $"{what} must be from {Show(low)} to {Show(high)} and is {Show(value)}");

    public static string? Some(int count, string what) => count > 0 ? null : $"there is no {what}";

    public static string? That(bool holds, string reason) => holds ? null : reason;

    /// <summary>The first reason among several, so that a person is told one thing at a time.</summary>
    public static string? All(params ReadOnlySpan<string?> reasons)
    {
        foreach (var reason in reasons)
        {
            if (reason is not null)
            {
                return reason;
            }
        }

        return null;
    }

    public static string? Each<T>(IEnumerable<T> items, Func<T, string?> ask) => items.Select(ask).FirstOrDefault(reason => reason is not null);

    public static string Show(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
