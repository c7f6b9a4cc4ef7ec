using Wain.Core.Drawing;
using Wain.Reports.Svg;

namespace Wain.Cli.Commands;

public static class BuildCommand
{
    public static readonly Command Shape = new("build", "SPEC...", "Builds.", [.. Options.Common, new OptionShape("--out", "FOLDER", "where")], ["wain build x.wain"], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        var c = SpecFiles.Compile(options.Arguments[0], options);
        FindingsOutput.Print(c.Findings, options, errors);
        if (c.Structure is null) return 1;
        var sheet = ViewDrawing.ThreeViews(Paper.A3, new TitleBlock { Name = "Heron", Revision = "A" }, StructureFaces.Of(c.Structure), new LengthFormat());
        Directory.CreateDirectory(options.Value("--out") ?? "out");
        File.WriteAllBytes(Path.Combine(options.Value("--out") ?? "out", "views.svg"), SvgWriter.Write(sheet.ToPicture()));
        return 0;
    }
}
