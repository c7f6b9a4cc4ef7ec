using Scriban;
using Scriban.Parsing;
using Scriban.Runtime;
using Scriban.Syntax;

namespace Wain.Reports.Summaries;

/// <summary>Scriban's state with every limit set and everything removed that differs between two runs or compiles text.</summary>
internal sealed class SummaryContext : TemplateContext
{
    private readonly int _limit;
    private int _steps;

    public SummaryContext(SummaryLimits limits, Func<string, TemplateSource?>? load, CancellationToken cancel) : base(BuiltIns())
    {
        _limit = limits.Steps;
        LoopLimit = limits.Loops;
        LoopLimitQueryable = limits.Loops;
        RecursiveLimit = limits.Recursion;
        OutputLimit = limits.Output;
        LimitToString = limits.Output;
        // The default cuts silently.
        OnOutputLimit = ScriptLimitBehavior.Throw;
        OnStringLimit = ScriptLimitBehavior.Throw;
        RegexTimeOut = TimeSpan.FromSeconds(1);
        StrictVariables = true;
        EnableRelaxedMemberAccess = false;
        EnableRelaxedTargetAccess = false;
        EnableRelaxedIndexerAccess = false;
        EnableRelaxedFunctionAccess = false;
        NewLine = "\n";
        CancellationToken = cancel;
        TemplateLoader = new Loader(load);
        TryGetMember = (TemplateContext _, SourceSpan span, object _, string member, out object? value) =>
        {
            value = null;
            throw new ScriptRuntimeException(span, $"There is no {member} here. Ask with object.has_key first if it may be missing.");
        };
    }

    public override object? Evaluate(ScriptNode? scriptNode, bool aliasReturnedFunction)
    {
        if (++_steps > _limit) throw new ScriptRuntimeException(scriptNode?.Span ?? default, $"The template takes more than {_limit:N0} steps.");
        return base.Evaluate(scriptNode, aliasReturnedFunction);
    }

    public override string ObjectToString(object? value, bool nested = false) => value is double number && !double.IsFinite(number)
        ? throw new ScriptRuntimeException(CurrentSpan, "This is not a number: something was divided by zero or grew past every bound.")
        : base.ObjectToString(value, nested) ?? "";

    private static ScriptObject BuiltIns()
    {
        var all = GetDefaultBuiltinObject();
        // A clock, chance, and text that would be compiled past the count of its nesting.
        all.Remove("date");
        foreach (var (group, name) in new[] { ("math", "random"), ("math", "uuid"), ("object", "eval"), ("object", "eval_template"), ("object", "from_json") })
        {
            ((ScriptObject)all[group]!).Remove(name);
        }
        all.Add("show", TemplateFunctions.All());
        return all;
    }

    private sealed class Loader(Func<string, TemplateSource?>? load) : ITemplateLoader
    {
        private readonly Dictionary<string, TemplateSource> _loaded = new(StringComparer.Ordinal);

        public string GetPath(TemplateContext context, SourceSpan callerSpan, string templateName)
        {
            var source = load?.Invoke(templateName) ?? throw new ScriptRuntimeException(callerSpan, $"There is no template \"{templateName}\" beside the spec. Templates are read from the spec's folder alone.");
            if (TemplateNesting.Check(source) is { } tooDeep) throw new ScriptRuntimeException(callerSpan, $"{tooDeep.Path}, line {tooDeep.Line}: {tooDeep.Message}");
            _loaded[source.Path] = source;
            return source.Path;
        }

        public string Load(TemplateContext context, SourceSpan callerSpan, string templatePath) => _loaded[templatePath].Text;

        public ValueTask<string?> LoadAsync(TemplateContext context, SourceSpan callerSpan, string templatePath) => new(Load(context, callerSpan, templatePath));
    }
}
