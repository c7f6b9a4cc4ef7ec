using System.Collections.Immutable;
using Antlr4.Runtime;
using Antlr4.Runtime.Tree;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Core.Units;
using Wain.Grammar;

namespace Wain.Core.Parsing;

/// <summary>
/// Parse tree to AST, each statement as soon as it is read, so that no parse tree of the whole text is ever held. A statement in which the parser
/// stumbled is left out: its mistake is already told.
/// </summary>
internal sealed class AstBuilder(SourceText source) : IParseTreeListener
{
    private readonly Dictionary<WainParser.StatementContext, Statement?> _read = new(ReferenceEqualityComparer.Instance);

    public List<Finding> Findings { get; } = [];

    public SyntaxFile Finish(WainParser.SpecContext tree) => new(source, Statements(tree.statement()));

    public void EnterEveryRule(ParserRuleContext context) { }

    public void VisitTerminal(ITerminalNode node) { }

    public void VisitErrorNode(IErrorNode node) { }

    public void ExitEveryRule(ParserRuleContext context)
    {
        if (context is not WainParser.StatementContext statement) return;
        _read[statement] = statement.ChildCount > 0 && statement.GetChild(0) is ParserRuleContext inner ? Build(inner) : null;
        statement.children = null;
    }

    private ImmutableArray<Statement> Statements(WainParser.StatementContext[] contexts)
    {
        var statements = ImmutableArray.CreateBuilder<Statement>(contexts.Length);
        foreach (var context in contexts)
        {
            if (_read.Remove(context, out var statement) && statement is not null) statements.Add(statement);
        }
        return statements.ToImmutable();
    }

    private Statement? Build(ParserRuleContext context)
    {
        var span = SpanOf(context);
        if (Broken(context)) return Remains(context, span);
        switch (context)
        {
            case WainParser.FactContext fact: return Fact(fact, span);
            case WainParser.LetStatementContext let: return new LetStatement(span, Word(let.anyWord()), Value(let.value()));
            case WainParser.SetStatementContext set: return new SetStatement(span, Word(set.anyWord()), Value(set.value()));
            case WainParser.FunctionStatementContext function: return new FunctionStatement(span, CallWord(function.CALL()), Parameters(function.parameters()), Value(function.value()));
            case WainParser.GroupStatementContext group: return new GroupStatement(span, CallWord(group.CALL()), Parameters(group.parameters()), Body(group.block()));
            case WainParser.RequireStatementContext require: return new RequireStatement(span, Condition(require.condition()), require.STRING() is { } text ? Unquote(text.Symbol) : null);
            case WainParser.ForStatementContext loop:
                return new ForStatement(span, Word(loop.anyWord()), WordOf(loop.keyword), [.. loop.forKey().Select(k => new ForKey(Word(k.anyWord()), k.sum() is { } sum ? Sum(sum) : null))], Body(loop.block()));
            case WainParser.IfStatementContext condition:
                var conditions = condition.condition();
                var blocks = condition.block();
                return new IfStatement(span, [.. conditions.Select((c, i) => new Branch(Condition(c), Body(blocks[i])))], blocks.Length > conditions.Length ? Body(blocks[^1]) : []);
            default: return null;
        }
    }

    /// <summary>What a broken statement would have named, if it came that far.</summary>
    private Statement? Remains(ParserRuleContext context, Span span)
    {
        static bool Whole(ParserRuleContext? part) => part is { exception: null, Start: not null, Stop: not null } && part.Start == part.Stop;
        return context switch
        {
            WainParser.LetStatementContext let when Whole(let.anyWord()) => new LetStatement(span, Word(let.anyWord()), new BrokenExpression(span)),
            WainParser.FunctionStatementContext function when function.CALL() is { } call => new BrokenStatement(span, CallWord(call)),
            WainParser.GroupStatementContext group when group.CALL() is { } call => new BrokenStatement(span, CallWord(call)),
            WainParser.FactContext fact when fact.term() is [var first, ..] && Whole(first) && first.Start.Type == WainLexer.WORD => new BrokenStatement(span, WordOf(first.Start)),
            _ => null,
        };
    }

    // Blocks inside may hold broken statements, which are left out one by one; a broken head takes the whole statement.
    private static bool Broken(ParserRuleContext context)
    {
        if (context.exception is not null) return true;
        for (int i = 0; i < context.ChildCount; i++)
        {
            switch (context.GetChild(i))
            {
                case IErrorNode: return true;
                case WainParser.BlockContext block:
                    if (block.exception is not null) return true;
                    break;
                case ParserRuleContext child:
                    if (Broken(child)) return true;
                    break;
            }
        }
        return false;
    }

    private Fact Fact(WainParser.FactContext context, Span span)
    {
        var clauses = ImmutableArray.CreateBuilder<ImmutableArray<Expression>>();
        var clause = ImmutableArray.CreateBuilder<Expression>();
        ImmutableArray<Statement>? body = null;
        for (int i = 1; i < context.ChildCount; i++)
        {
            switch (context.GetChild(i))
            {
                case WainParser.TermContext term: clause.Add(Term(term)); break;
                case WainParser.BlockContext block: body = Body(block); break;
                default:
                    clauses.Add(clause.ToImmutable());
                    clause.Clear();
                    break;
            }
        }
        if (clause.Count > 0) clauses.Add(clause.ToImmutable());
        return new Fact(span, WordOf(context.WORD().Symbol), clauses.ToImmutable(), body);
    }

    private Expression Term(WainParser.TermContext context)
    {
        if (context.sum() is { } sum) return Sum(sum);
        var word = WordOf(context.keyword);
        return new NameExpression(word.Span, [new NamePart(word, [])]);
    }

    private ImmutableArray<Statement> Body(WainParser.BlockContext block) => Statements(block.statement());

    private ImmutableArray<Word> Parameters(WainParser.ParametersContext context) => [.. context.anyWord().Select(Word)];

    private Expression Value(WainParser.ValueContext context)
    {
        if (context.condition() is { } condition) return Condition(condition);
        var choice = context.choice();
        var conditions = choice.condition();
        var sums = choice.sum();
        return new ChoiceExpression(SpanOf(choice), [.. conditions.Select((c, i) => (Condition(c), Sum(sums[i])))], Sum(sums[^1]));
    }

    private Expression Condition(WainParser.ConditionContext context)
    {
        var parts = context.conjunction();
        return parts.Length == 1 ? Conjunction(parts[0]) : new JoinExpression(SpanOf(context), [.. parts.Select(Conjunction)], All: false);
    }

    private Expression Conjunction(WainParser.ConjunctionContext context)
    {
        var parts = context.negation();
        return parts.Length == 1 ? Negation(parts[0]) : new JoinExpression(SpanOf(context), [.. parts.Select(Negation)], All: true);
    }

    private Expression Negation(WainParser.NegationContext context)
    {
        var inner = Comparison(context.comparison());
        return context.NOT() is null ? inner : new NotExpression(SpanOf(context), inner);
    }

    private Expression Comparison(WainParser.ComparisonContext context)
    {
        var sums = context.sum();
        return sums.Length == 1 ? Sum(sums[0]) : new CompareExpression(SpanOf(context), Sum(sums[0]), context.@operator.Text, Sum(sums[1]));
    }

    private Expression Sum(WainParser.SumContext context)
    {
        var parts = context.product();
        return parts.Length == 1 ? Product(parts[0]) : new ChainExpression(SpanOf(context), [.. parts.Select(Product)], Operators(context._operators));
    }

    private Expression Product(WainParser.ProductContext context)
    {
        var parts = context.signed();
        return parts.Length == 1 ? Signed(parts[0]) : new ChainExpression(SpanOf(context), [.. parts.Select(Signed)], Operators(context._operators));
    }

    private static ImmutableArray<char> Operators(IList<IToken> tokens) => [.. tokens.Select(t => t.Text[0])];

    private Expression Signed(WainParser.SignedContext context)
    {
        var power = context.power();
        var primaries = power.primary();
        var inner = primaries.Length == 1 ? Primary(primaries[0]) : new PowerExpression(SpanOf(power), Primary(primaries[0]), Primary(primaries[1]));
        if (context.SIGN() is null) return inner;
        // The sign of a temperature belongs to its number: -10 degF is ten below zero, and not a negative temperature.
        if (inner is MeasureExpression { Value.Dimension.OnScale: true } measure && UnitTable.Find(measure.Unit) is { } unit)
        {
            var below = UnitTable.ToBase(UnitTable.NumberOf(measure.Value, unit).Negate(), unit);
            if (below.Value < 0) Findings.Add(new Finding(SyntaxFindings.BadNumber, $"{SpanOf(context).Text} is below absolute zero.", SpanOf(context)));
            return new MeasureExpression(SpanOf(context), below, measure.Unit);
        }
        return new NegateExpression(SpanOf(context), inner);
    }

    private Expression Primary(WainParser.PrimaryContext context)
    {
        var span = SpanOf(context);
        switch (context)
        {
            case WainParser.MeasureValueContext measure:
                var token = (MeasureToken)measure.MEASURE().Symbol;
                return new MeasureExpression(span, token.Value, token.Unit);
            case WainParser.NumberValueContext number:
                var value = NumberText.Parse(number.GetText());
                if (value is null) Findings.Add(new Finding(SyntaxFindings.BadNumber, number.GetText().Contains("/0", StringComparison.Ordinal) ? $"{number.GetText()} divides by zero." : NumberText.TooManyDigits(number.GetText()), span));
                return value is { } known ? new NumberExpression(span, known) : new BrokenExpression(span);
            case WainParser.TextValueContext text: return new TextExpression(span, Unquote(text.STRING().Symbol));
            case WainParser.DateValueContext date:
                if (DateOnly.TryParseExact(date.GetText(), "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture, System.Globalization.DateTimeStyles.None, out var day)) return new DateExpression(span, day);
                Findings.Add(new Finding(SyntaxFindings.BadNumber, $"{date.GetText()} is no day of the calendar.", span));
                return new BrokenExpression(span);
            case WainParser.CallValueContext call:
                return new CallExpression(span, CallWord(call.CALL()), [.. call.argument().Select(a => new Argument(a.WORD() is { } name ? WordOf(name.Symbol) : null, Value(a.value())))]);
            case WainParser.BracketValueContext bracket:
                var items = bracket.value();
                return items.Length == 1 ? Value(items[0]) : new PlaceExpression(span, [.. items.Select(Value)]);
            case WainParser.PathValueContext path: return Path(path.path(), span);
            default: throw new InvalidOperationException($"unknown primary {context.GetType().Name}");
        }
    }

    private NameExpression Path(WainParser.PathContext context, Span span)
    {
        var parts = ImmutableArray.CreateBuilder<NamePart>();
        parts.Add(new NamePart(WordOf(context.WORD().Symbol), Keys(context.index())));
        foreach (var part in context.pathPart()) parts.Add(new NamePart(Word(part.anyWord()), Keys(part.index())));
        return new NameExpression(span, parts.ToImmutable());
    }

    private ImmutableArray<Word> Keys(WainParser.IndexContext[] contexts) => [.. contexts.Select(c => Word(c.anyWord()))];

    private Word Word(WainParser.AnyWordContext context) => WordOf(context.Start);

    private Word WordOf(IToken token) => new(token.Text, new Span(source, token.StartIndex, token.StopIndex + 1 - token.StartIndex));

    private Word CallWord(ITerminalNode call)
    {
        var token = call.Symbol;
        return new(token.Text[..^1], new Span(source, token.StartIndex, token.StopIndex - token.StartIndex));
    }

    // From the text itself: inside quotes a dash or a quote of a word processor is the builder's own.
    private string Unquote(IToken token)
    {
        int end = token.StopIndex > token.StartIndex && token.Text[^1] == '"' ? token.StopIndex : token.StopIndex + 1;
        string inner = source.Text[(token.StartIndex + 1)..end];
        return inner.Contains('\\') ? inner.Replace("\\\"", "\"", StringComparison.Ordinal).Replace("\\\\", "\\", StringComparison.Ordinal) : inner;
    }

    private Span SpanOf(ParserRuleContext context)
    {
        int start = context.Start.StartIndex;
        int stop = context.Stop is { } last ? last.StopIndex + 1 : start;
        return new Span(source, start, Math.Max(0, stop - start));
    }
}
