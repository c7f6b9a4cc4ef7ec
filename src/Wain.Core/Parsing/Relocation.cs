using System.Collections.Immutable;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Parsing;

/// <summary>Statements as they were read, with their places in another text further down.</summary>
internal sealed class Relocation(SourceText source, int by)
{
    public Statement Of(Statement statement)
    {
        var span = At(statement.Span);
        return statement switch
        {
            Fact s => new Fact(span, Of(s.Head), Clauses(s.Clauses), s.Body is { } body ? Of(body) : null),
            LetStatement s => new LetStatement(span, Of(s.Name), Of(s.Value)),
            SetStatement s => new SetStatement(span, Of(s.Name), Of(s.Value)),
            FunctionStatement s => new FunctionStatement(span, Of(s.Name), Of(s.Parameters), Of(s.Value)),
            GroupStatement s => new GroupStatement(span, Of(s.Name), Of(s.Parameters), Of(s.Body)),
            IfStatement s => new IfStatement(span, [.. s.Branches.Select(b => new Branch(Of(b.Condition), Of(b.Body)))], Of(s.Otherwise)),
            ForStatement s => new ForStatement(span, Of(s.Name), Of(s.Keyword), [.. s.Keys.Select(k => new ForKey(Of(k.Name), k.Value is { } value ? Of(value) : null))], Of(s.Body)),
            RequireStatement s => new RequireStatement(span, Of(s.Condition), s.Message),
            BrokenStatement s => new BrokenStatement(span, Of(s.Name)),
            _ => throw new InvalidOperationException($"unknown statement {statement.GetType().Name}"),
        };
    }

    private Expression Of(Expression expression)
    {
        var span = At(expression.Span);
        return expression switch
        {
            NameExpression e => new NameExpression(span, Parts(e.Parts)),
            MeasureExpression e => new MeasureExpression(span, e.Value, e.Unit),
            NumberExpression e => new NumberExpression(span, e.Value),
            TextExpression e => new TextExpression(span, e.Value),
            DateExpression e => new DateExpression(span, e.Value),
            CallExpression e => new CallExpression(span, Of(e.Name), [.. e.Arguments.Select(a => new Argument(a.Name is { } name ? Of(name) : null, Of(a.Value)))]),
            PlaceExpression e => new PlaceExpression(span, Of(e.Items)),
            ChainExpression e => new ChainExpression(span, Of(e.Operands), e.Operators),
            NegateExpression e => new NegateExpression(span, Of(e.Operand)),
            PowerExpression e => new PowerExpression(span, Of(e.Base), Of(e.Exponent)),
            CompareExpression e => new CompareExpression(span, Of(e.Left), e.Operator, Of(e.Right)),
            JoinExpression e => new JoinExpression(span, Of(e.Operands), e.All),
            NotExpression e => new NotExpression(span, Of(e.Operand)),
            ChoiceExpression e => new ChoiceExpression(span, [.. e.Branches.Select(b => (Of(b.Condition), Of(b.Value)))], Of(e.Otherwise)),
            BrokenExpression => new BrokenExpression(span),
            _ => throw new InvalidOperationException($"unknown expression {expression.GetType().Name}"),
        };
    }

    private Span At(Span span) => new(source, span.Start + by, span.Length);

    private Word Of(Word word) => new(word.Text, At(word.Span));

    private ImmutableArray<Word> Of(ImmutableArray<Word> words)
    {
        if (words.IsEmpty) return words;
        var moved = ImmutableArray.CreateBuilder<Word>(words.Length);
        foreach (var word in words) moved.Add(Of(word));
        return moved.MoveToImmutable();
    }

    private ImmutableArray<Statement> Of(ImmutableArray<Statement> statements)
    {
        var moved = ImmutableArray.CreateBuilder<Statement>(statements.Length);
        foreach (var statement in statements) moved.Add(Of(statement));
        return moved.MoveToImmutable();
    }

    private ImmutableArray<Expression> Of(ImmutableArray<Expression> expressions)
    {
        var moved = ImmutableArray.CreateBuilder<Expression>(expressions.Length);
        foreach (var expression in expressions) moved.Add(Of(expression));
        return moved.MoveToImmutable();
    }

    private ImmutableArray<ImmutableArray<Expression>> Clauses(ImmutableArray<ImmutableArray<Expression>> clauses)
    {
        var moved = ImmutableArray.CreateBuilder<ImmutableArray<Expression>>(clauses.Length);
        foreach (var clause in clauses) moved.Add(Of(clause));
        return moved.MoveToImmutable();
    }

    private ImmutableArray<NamePart> Parts(ImmutableArray<NamePart> parts)
    {
        var moved = ImmutableArray.CreateBuilder<NamePart>(parts.Length);
        foreach (var part in parts) moved.Add(new NamePart(Of(part.Name), Of(part.Keys)));
        return moved.MoveToImmutable();
    }
}
