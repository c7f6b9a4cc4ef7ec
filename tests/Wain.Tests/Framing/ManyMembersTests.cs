using Wain.Core;
using Wain.Core.Text;

namespace Wain.Tests.Framing;

/// <summary>Marks go on past the alphabet: blocking between thirty bays has as many marks as pieces.</summary>
public sealed class ManyMembersTests
{
    [Fact]
    public void No_two_members_have_one_mark()
    {
        var compiled = Compiler.Compile(new SourceText("many.wain", """
            sheet ply { thickness 6 mm
                size 60 in by 144 in }
            stick strip { section 3/4 in by 1 1/2 in
                length 144 in }
            stack wall_stack { sheet ply
                core frame of strip flat
                sheet ply }
            panel wall of wall_stack { through (0 in, 0 in, 0 in) along (120 in, 0 in, 0 in) up (0 in, 0 in, 40 in)
                frame { studs every 4 in
                    blocking at 20 in up } }
            """));
        var marks = compiled.Design!.Frames.Members.Select(m => m.PartMark).ToList();
        Assert.Contains("wall.blocking1_aa", marks);
        Assert.Equal(marks.Distinct(StringComparer.Ordinal).Count(), marks.Count);
        Assert.All(compiled.Design.CutLists, l => Assert.Equal(l.Parts.Length, l.Parts.Select(p => p.Mark).Distinct(StringComparer.Ordinal).Count()));
    }
}
