using System.Collections.Immutable;
using Wain.Core;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Tests.Drawing.Panels;

/// <summary>The demo, compiled once, and single panels made by hand.</summary>
internal static class Samples
{
    private static readonly Lazy<Design> Demo = new(Compile);

    public static Design Compile()
    {
        string folder = Path.Combine(Root(), "specs", "heron");
        var source = new SourceText("heron.wain", File.ReadAllText(Path.Combine(folder, "heron.wain")));
        var result = Compiler.Compile(source, name => (new SourceText(name, File.ReadAllText(Path.Combine(folder, name))), null));
        return result.Design!;
    }

    public static Design Heron => Demo.Value;

    private static string Root()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
            if (File.Exists(Path.Combine(at.FullName, "Wain.slnx"))) return at.FullName;
        throw new DirectoryNotFoundException("The tests run inside the repository.");
    }

    private static PlacedPanel Plain(Frame face, Outline outline, double thickness)
    {
        var model = Heron.Structure.Panels[0];
        var stack = new Stack("plain", [new StackLayer(LayerKind.Air, null, thickness, model.Fact)], model.Fact);
        return new("plain", model.Fact, stack, face, outline, [], [], PanelPlacing.Through, null, null);
    }

    /// <summary>A board with square edges but for the right one (mm, radians).</summary>
    public static PlacedPanel Bevelled(double length, double thickness, double tilt)
    {
        var outline = new Outline([new(new(0, 0), 0, "bottom"), new(new(length, 0), 0, "right", tilt), new(new(length, 300), 0, "top"), new(new(0, 300), 0, "left")]);
        return Plain(Frame.World, outline, thickness);
    }

    /// <summary>One side of a hopper between two neighbours, cut by the planes that halve the corners.</summary>
    public static PlacedPanel Hopper(Vec3 own, Vec3 left, Vec3 right, double thickness)
    {
        var face = Frame.Of(own * 500, new Vec3(0, 1, 0), new Vec3(-own.Z, 0, own.X))!.Value;
        var outline = new Outline([new(new(-400, -100), 0, "bottom"), new(new(400, -100), 0, "right"), new(new(400, 100), 0, "top"), new(new(-400, 100), 0, "left")]);
        foreach (var (name, other) in new[] { ("right", left), ("left", right) })
        {
            var cut = FaceCut.Of(face, Plane.Through(Vec3.Zero, other - own))!.Value;
            outline = CornerTrim.OnCut(outline, outline.IndexOf(name), cut)!;
        }
        return Plain(face, outline, thickness);
    }
}
