namespace Wain.Cli.Commands;

/// <summary>Compiles specs and shows what was found; writes nothing.</summary>
public static class CheckCommand
{
    public static readonly Command Shape = new("check", "SPEC...", "Compiles each spec and tells every mistake with its place; writes nothing.", Options.Common,
        ["wain check specs/heron/heron.wain", "wain check my.wain --as lines", "wain check my.wain --set \"body_width=72 in\""], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count == 0) throw new UsageError("check needs a spec: wain check SPEC...");
        var compiled = options.Arguments.Select(a => SpecFiles.Compile(a, options)).ToList();
        var findings = compiled.SelectMany(c => c.Findings).ToList();
        FindingsOutput.Print([.. findings], options, output);
        return FindingsOutput.Fails([.. findings], options) ? 1 : 0;
    }
}
