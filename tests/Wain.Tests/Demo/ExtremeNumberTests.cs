using System.Text.RegularExpressions;
using Wain.Core;
using Wain.Core.Drawing.Panels;
using Wain.Core.Text;

namespace Wain.Tests.Demo;

/// <summary>A number with too many digits, or none that makes sense, in any fact of the demo: the program tells what it finds, draws what is left, and throws nothing.</summary>
public partial class ExtremeNumberTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "specs", "heron");

    private static readonly Dictionary<string, string> Files = Directory.GetFiles(Folder, "*.wain").Order(StringComparer.Ordinal).ToDictionary(f => Path.GetFileName(f), File.ReadAllText);

    private static readonly string[] Extremes = ["0", "1e9", "1e-9", "1e300", "1e-300"];

    [GeneratedRegex(@"(?<![\w.])\d+(\.\d+)?(?! \d+/|/)\b")]
    private static partial Regex Number();

    /// <summary>Every seventh number, each with the next of the extremes, so that a run is short and no two kinds of fact always meet the same one.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    public void Of_a_fact(int from)
    {
        int count = 0, placed = 0;
        foreach (var (name, text) in Files)
        {
            var numbers = Number().Matches(text).Where(m => !text[(text.LastIndexOf('\n', m.Index) + 1)..m.Index].Contains("--", StringComparison.Ordinal)).ToList();
            for (int i = from; i < numbers.Count; i += 7)
            {
                var (number, extreme) = (numbers[i], Extremes[count++ % Extremes.Length]);
                string changed = text[..number.Index] + extreme + text[(number.Index + number.Length)..];
                try
                {
                    var compiled = Compiler.Compile(new SourceText("heron.wain", name == "heron.wain" ? changed : Files["heron.wain"]),
                        path => Files.TryGetValue(path, out string? file) ? (new SourceText(path, path == name ? changed : file), null) : (null, "there is no such file"));
                    if (compiled.Design is not { } design) continue;
                    placed++;
                    _ = design.Engineering.Pictures;
                    if (count % 8 == 0) DrawingBook.Of(design, new DrawingOptions { Camper = "Heron", Revision = "A", ValuesHash = "", DraftErrors = [], Mass = _ => null });
                }
                catch (Exception e)
                {
                    Assert.Fail($"{name}, line {text[..number.Index].Count(c => c == '\n') + 1}, {number.Value} made {extreme}: {e}");
                }
            }
        }
        Assert.True(count > 100 && placed > 20, $"{placed} of {count} were placed");
    }
}
