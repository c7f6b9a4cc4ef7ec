using Wain.Core;
using Wain.Core.Engineering;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Engineering;

/// <summary>Small designs of our own for the engineering of whole specs. All figures are invented but for those that a test names the source of.</summary>
internal static class ModelSpecs
{
    /// <summary>A plywood of round figures.</summary>
    public const string Ply = "sheet ply {\n thickness 12 mm\n size 100 in by 120 in\n price 40 USD per sheet on 2026-01-01\n density 600 kg/m3 from 550 kg/m3 to 700 kg/m3\n modulus 8 GPa\n modulus_across 8 GPa\n shear_modulus 0.5 GPa\n bending_strength 30 MPa\n safety 2.5\n conductivity 0.13 W/m/K\n vapour 200\n}\nstack skin { sheet ply }\n";

    /// <summary>A level panel of a stack, its front edge at x and its middle on the centre line, its outside up.</summary>
    public static string Deck(string name, string stack, string length, string width, string top = "0 in", string front = "0 in") =>
        $"plan {name}_plan {{\n start at ({front}, {width} / 2)\n leg front right length {width}\n leg right aft length {length}\n leg rear left length {width}\n leg left home\n}}\npanel {name} of {stack} {{ covers plan {name}_plan, top at {top} }}\n";

    public static Compilation Compile(string text) => Compiler.Compile(new SourceText("test.wain", text));

    /// <summary>Compiles; fails on an error that is not among those allowed.</summary>
    public static Compilation Of(string text, params string[] allowed)
    {
        var result = Compile(text);
        var errors = result.Findings.Where(f => f.Level == Level.Error && !allowed.Contains(f.Code)).ToList();
        Assert.True(errors.Count == 0 && result.Design is not null, string.Join("\n", errors.Select(f => $"{f.Place} {f.Code} {f.Message}")));
        return result;
    }

    public static EngineeringResult Engineering(this Compilation result) => result.Design!.Engineering;

    /// <summary>A figure in base units.</summary>
    public static double Figure(this Compilation result, string name) => result.Design!.Figures.Find(name) is { } figure ? figure.Value.Value
        : throw new Xunit.Sdk.XunitException($"There is no figure {name}{(result.Design.Figures.FindMissing(name) is { } m ? $": {m.Reason}" : "")}; near: {string.Join(", ", result.Design.Figures.Nearest(name))}");
}
