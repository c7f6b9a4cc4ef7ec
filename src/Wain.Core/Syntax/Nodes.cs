using System.Collections.Immutable;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Syntax;

/// <summary>One parsed text. Statements that could not be read are left out; their mistakes are findings.</summary>
public sealed record SyntaxFile(SourceText Source, ImmutableArray<Statement> Statements);

public abstract record Node(Span Span);

/// <summary>A word with its place.</summary>
public readonly record struct Word(string Text, Span Span);

public abstract record Statement(Span Span) : Node(Span);

/// <summary><c>let body_width = 70 in</c></summary>
public sealed record LetStatement(Span Span, Word Name, Expression Value) : Statement(Span);

/// <summary><c>set sheet_price = 42 USD</c>: takes the place of a <c>let</c> of an included file, once.</summary>
public sealed record SetStatement(Span Span, Word Name, Expression Value) : Statement(Span);

public sealed record FunctionStatement(Span Span, Word Name, ImmutableArray<Word> Parameters, Expression Value) : Statement(Span);

public sealed record GroupStatement(Span Span, Word Name, ImmutableArray<Word> Parameters, ImmutableArray<Statement> Body) : Statement(Span);

public sealed record IfStatement(Span Span, ImmutableArray<Branch> Branches, ImmutableArray<Statement> Otherwise) : Statement(Span);

public sealed record Branch(Expression Condition, ImmutableArray<Statement> Body);

public sealed record ForStatement(Span Span, Word Name, Word Keyword, ImmutableArray<ForKey> Keys, ImmutableArray<Statement> Body) : Statement(Span);

public sealed record ForKey(Word Name, Expression? Value);

public sealed record RequireStatement(Span Span, Expression Condition, string? Message) : Statement(Span);

/// <summary>
/// One fact: a head word, clauses parted by commas, and perhaps a block. Its shape alone; <c>Language</c> says what the words mean.
/// </summary>
public sealed record Fact(Span Span, Word Head, ImmutableArray<ImmutableArray<Expression>> Clauses, ImmutableArray<Statement>? Body) : Statement(Span);

/// <summary>A statement that could not be read, with the name that it would have given, so that what speaks of that name is not told as a second mistake.</summary>
public sealed record BrokenStatement(Span Span, Word Name) : Statement(Span);

public abstract record Expression(Span Span) : Node(Span);

/// <summary>A value that could not be read; why is told already.</summary>
public sealed record BrokenExpression(Span Span) : Expression(Span);

/// <summary>A number with a unit as written: <c>5 1/2 in</c>, <c>6 ft 3 1/2 in</c>.</summary>
public sealed record MeasureExpression(Span Span, Quantity Value, string Unit) : Expression(Span);

public sealed record NumberExpression(Span Span, Rational Value) : Expression(Span);

public sealed record TextExpression(Span Span, string Value) : Expression(Span);

public sealed record DateExpression(Span Span, DateOnly Value) : Expression(Span);

/// <summary>A word or a path such as <c>bunk.left_nose</c>; each part may carry keys in square brackets.</summary>
public sealed record NameExpression(Span Span, ImmutableArray<NamePart> Parts) : Expression(Span)
{
    /// <summary>The text if this is one word without keys, else null.</summary>
    public string? SingleWord => Parts.Length == 1 && Parts[0].Keys.IsEmpty ? Parts[0].Name.Text : null;
}

public sealed record NamePart(Word Name, ImmutableArray<Word> Keys);

public sealed record CallExpression(Span Span, Word Name, ImmutableArray<Argument> Arguments) : Expression(Span);

public sealed record Argument(Word? Name, Expression Value);

/// <summary><c>(x, y)</c> or <c>(x, y, z)</c>: always more than one item; one item in brackets is that item.</summary>
public sealed record PlaceExpression(Span Span, ImmutableArray<Expression> Items) : Expression(Span);

/// <summary>Operands with the operators between them, of one precedence, from left to right: + and -, or * and /.</summary>
public sealed record ChainExpression(Span Span, ImmutableArray<Expression> Operands, ImmutableArray<char> Operators) : Expression(Span);

public sealed record NegateExpression(Span Span, Expression Operand) : Expression(Span);

public sealed record PowerExpression(Span Span, Expression Base, Expression Exponent) : Expression(Span);

public sealed record CompareExpression(Span Span, Expression Left, string Operator, Expression Right) : Expression(Span);

/// <summary>Conditions joined by all <c>and</c> or all <c>or</c>.</summary>
public sealed record JoinExpression(Span Span, ImmutableArray<Expression> Operands, bool All) : Expression(Span);

public sealed record NotExpression(Span Span, Expression Operand) : Expression(Span);

/// <summary><c>if c then a else b</c> with any number of <c>else if</c>.</summary>
public sealed record ChoiceExpression(Span Span, ImmutableArray<(Expression Condition, Expression Value)> Branches, Expression Otherwise) : Expression(Span);
