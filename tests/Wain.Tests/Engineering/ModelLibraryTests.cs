using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Model;
using Wain.Core.Shipped;
using Wain.Core.Text;

namespace Wain.Tests.Engineering;

/// <summary>The shipped lists of materials.</summary>
public class ModelLibraryTests
{
    public static TheoryData<string> Files => [.. ShippedMaterials.Paths];

    private static Compilation Use(string path, string more = "") => Compiler.Compile(new SourceText("test.wain", $"written for wain 1\nuse \"{path}\"\n{more}"));

    [Theory, MemberData(nameof(Files))]
    public void It_compiles_without_a_finding(string path)
    {
        var findings = Use(path).Findings;
        Assert.True(findings.IsEmpty, string.Join("\n", findings.Take(5).Select(f => $"{f.Place} {f.Code} {f.Message}")));
    }

    [Theory, MemberData(nameof(Files))]
    public void Every_figure_has_a_source(string path)
    {
        var materials = Use(path).Structure!.Materials;
        Assert.NotEmpty(materials);
        foreach (var material in materials)
        {
            Assert.NotEmpty(material.Figures);
            foreach (var (name, figure) in material.Figures) Assert.True(!string.IsNullOrWhiteSpace(figure.Source), $"{material.Name}.{name} has no source");
        }
    }

    [Fact]
    public void Every_file_of_the_folder_ships()
    {
        Assert.Equal("cloth foams glazing plywood resins screws woods", string.Join(" ", ShippedMaterials.Paths.Select(p => p["library/".Length..^".wain".Length])));
        Assert.Null(ShippedMaterials.Find("library/none.wain"));
        Assert.Null(ShippedMaterials.Find("woods.wain"));
    }

    /// <summary>A file of the spec's own with the same path comes first.</summary>
    [Fact]
    public void Own_files_come_first()
    {
        var own = new SourceText("library/woods.wain", "stick spruce_1x2 {\n section 20 mm by 40 mm\n density 400 kg/m3\n}\n");
        var result = Compiler.Compile(new SourceText("test.wain", "use \"library/woods.wain\"\n"), path => path == own.Path ? (own, null) : (null, "there is no such file"));
        Assert.Equal(40, Assert.IsType<StickMaterial>(Assert.Single(result.Structure!.Materials)).Width);
    }

    /// <summary>A file in a subfolder takes the library in by the same path, read once whoever names it; one of its own beside it comes first.</summary>
    [Theory]
    [InlineData("parts/materials.wain", 19.05)]
    [InlineData("parts/library/woods.wain", 20)]
    [InlineData("library/woods.wain", 20)]
    public void The_library_is_at_hand_from_every_folder(string file, double thick)
    {
        var files = new Dictionary<string, string> { ["parts/materials.wain"] = "use \"library/woods.wain\"\n", ["parts/more.wain"] = "use \"library/woods.wain\"\n" };
        files.TryAdd(file, "stick spruce_1x2 {\n section 20 mm by 40 mm\n density 400 kg/m3\n}\n");
        var result = Compiler.Compile(new SourceText("test.wain", "use \"parts/materials.wain\"\nuse \"parts/more.wain\"\nlet thick = spruce_1x2.section.thickness\n"),
            path => files.TryGetValue(path, out string? text) ? (new SourceText(path, text), null) : (null, "there is no such file"));
        Assert.DoesNotContain(result.Findings, f => f.Level == Level.Error);
        Assert.Equal(thick, result.Structure!.Materials.OfType<StickMaterial>().Single(m => m.Name == "spruce_1x2").Thickness, 9);
    }

    [Fact]
    public void A_name_that_is_no_library_file_is_told()
    {
        Assert.Equal("The program ships library/cloth.wain, library/foams.wain, library/glazing.wain, library/plywood.wain, library/resins.wain, library/screws.wain, library/woods.wain.", Assert.Single(Use("library/none.wain").Findings, f => f.Code == "WN1007").Hint);
        Assert.Contains(Use("library/none.wain").Findings, f => f.Level == Level.Error && f.Message.Contains("library/none.wain", StringComparison.Ordinal));
    }

    /// <summary>PS 20 (American Softwood Lumber Standard), dressed dry: 1x6 is 3/4 in by 5 1/2 in. ASTM C578 type IV: R 5 for an inch, which is 0.02885 W/(m K).</summary>
    [Fact]
    public void Figures_are_those_of_the_standards()
    {
        var six = Use("library/woods.wain").Structure!.Materials.OfType<StickMaterial>().Single(m => m.Name == "spruce_1x6");
        Assert.Equal(19.05, six.Thickness, 9);
        Assert.Equal(139.7, six.Width, 9);
        var board = Use("library/foams.wain").Structure!.Materials.Single(m => m.Name == "xps_25psi_1in");
        Assert.Equal(0.02885, board.Figure("conductivity")!.Value.Value, 5);
        Assert.Equal(92, board.Figure("vapour")!.Value.Value);
    }
}
