using Wain.Core.Geometry.Kernel;
using Wain.Core;
using Wain.Core.Text;

var source = new SourceText(args[1], File.ReadAllText(args[1]));
string folder = Path.GetDirectoryName(Path.GetFullPath(args[1]))!;
var result = Compiler.Compile(source, p => File.Exists(Path.Combine(folder, p)) ? (new SourceText(p, File.ReadAllText(Path.Combine(folder, p))), null) : (null, null));
foreach (var f in result.Findings)
{
    Console.WriteLine($"{f.Place}: {f.Level}: {f.Code} {f.Message}" + (f.Hint is null ? "" : "\n    " + f.Hint));
    foreach (var r in f.Related) Console.WriteLine($"    {r.Place}: {r.Message}");
}
foreach (var p in result.Structure?.Panels ?? [])
{
    Console.WriteLine($"{p.Name}: {Show.Length(p.Width)} x {Show.Length(p.Height)} x {Show.Length(p.Thickness)} area {p.Outline.Area() / 645.16 / 144:0.00} ft2; origin {p.Face.Origin / 25.4} N {p.Face.N}; " + string.Join(", ", p.Outline.Edges.Select(e => $"{e.Name}({e.Start.X / 25.4:0.###},{e.Start.Y / 25.4:0.###} tilt {e.Tilt * 57.29578:0.##})")));
    foreach (var o in p.Openings) Console.WriteLine($"    opening {o.Name} {o.Hole.Bounds}");
}
foreach (var j in result.Structure?.Joints ?? []) Console.WriteLine($"joint {j.Name} length {Show.Length(j.Length)} dihedral {Show.Angle(j.Dihedral)} gap {j.Gap:0.000} {j.Kind}");
return result.HasErrors ? 1 : 0;
