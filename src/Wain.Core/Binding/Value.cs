using Wain.Core.Units;

namespace Wain.Core.Binding;

/// <summary>What an expression comes to.</summary>
public abstract record Value;

public sealed record QuantityValue(Quantity Quantity) : Value;

public sealed record TruthValue(bool Truth) : Value;

public sealed record TextValue(string Text) : Value;

/// <summary>The key of a loop, or a word that stands for itself.</summary>
public sealed record WordValue(string Word) : Value;

/// <summary>A place of two or three lengths.</summary>
public sealed record PlaceValue(System.Collections.Immutable.ImmutableArray<Quantity> Items) : Value;
