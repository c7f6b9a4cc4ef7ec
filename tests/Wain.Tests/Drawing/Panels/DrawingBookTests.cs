using System.Text.RegularExpressions;
using Wain.Cli.Cutting;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Drawing;
using Wain.Core.Drawing.Panels;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Reporting;
using Wain.Core.Text;
using Wain.Reports.Pdf;
using Paper = Wain.Core.Drawing.Paper;

namespace Wain.Tests.Drawing.Panels;

public class DrawingBookTests
{
    private static DrawingOptions Options(Paper? paper = null) => new() { Camper = "Heron", Revision = "A", ValuesHash = "0123456789abcdef", Mass = _ => 12.3, Paper = paper ?? Paper.Letter };

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void EverySheetOfTheSetIsReadable(bool a4)
    {
        var sheets = DrawingBook.Sheets(Samples.Heron, Options(a4 ? Paper.A4 : Paper.Letter));
        foreach (var sheet in sheets) LayoutChecks.Readable(sheet);
        Assert.Equal(sheets.Length, sheets.Select(s => s.Name).Distinct(StringComparer.Ordinal).Count());
        Assert.Superset(new HashSet<string> { "cover", "parts", "views", "views-closed", "views-raised" }, sheets.Select(s => s.Name).ToHashSet(StringComparer.Ordinal));
        Assert.Equal($"{sheets.Length} of {sheets.Length}", sheets[^1].Sheet.Title.Number);
        foreach (string caution in CoverSheet.Cautions) Assert.Contains(sheets[0].Labels, l => caution.StartsWith(l.Text, StringComparison.Ordinal));
        foreach (var panel in Samples.Heron.Structure.Panels) Assert.Contains(sheets[1].Labels, l => l.Text == panel.Name);
    }

    /// <summary>Who goes to the saw takes the book: it holds every part of the plan with its mark, between the panels and the joints; without a plan there are no such sheets.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void WhatIsCutStandsInTheBook(bool a4)
    {
        var lists = Samples.Heron.CutLists.Where(l => l.Material is "ply_9mm" or "strip_1x3");
        var plan = new CuttingPlan([], [.. lists.Select(l => CutRun.Plan(l, 2_000, _ => { }, default))]);
        var options = Options(a4 ? Paper.A4 : Paper.Letter);
        var sheets = DrawingBook.Sheets(Samples.Heron, options with { Cutting = o => CuttingPictures.Of(plan, new ReportUnits(Say.Usual, 16), o) });
        var cut = sheets.Index().Where(s => s.Item.Name.StartsWith("cutting/", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(cut);
        Assert.Equal(cut.Count, cut[^1].Index - cut[0].Index + 1);
        Assert.StartsWith("panel-", sheets[cut[0].Index - 1].Name, StringComparison.Ordinal);
        Assert.StartsWith("joint-", sheets[cut[^1].Index + 1].Name, StringComparison.Ordinal);
        Assert.All(cut, c => Assert.Equal((a4 ? Paper.A4 : Paper.Letter, $"{c.Index + 1} of {sheets.Length}"), (c.Item.Sheet.Paper, c.Item.Sheet.Title.Number)));
        string said = string.Concat(cut.SelectMany(c => c.Item.Labels).Select(l => l.Text.Replace(" ", "", StringComparison.Ordinal)));
        foreach (string mark in plan.Materials.SelectMany(m => m.Sheets.SelectMany(s => s.Parts).Select(p => p.Mark.Replace("." + m.Material, "", StringComparison.Ordinal)))) Assert.Contains(mark, said, StringComparison.Ordinal);
        Assert.Contains(sheets[0].Labels, l => l.Text.StartsWith("sheets, boards and sticks as they are cut", StringComparison.Ordinal));
        Assert.DoesNotContain(DrawingBook.Sheets(Samples.Heron, options), s => s.Name.StartsWith("cutting/", StringComparison.Ordinal));
    }

    /// <summary>The cover's list has every sheet once, in order, and the sheets that it sends to are the ones it names.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void TheCoverLeadsToTheSheets(bool a4)
    {
        var options = Options(a4 ? Paper.A4 : Paper.Letter);
        // The demo has so many joints that they are told in one line, the small spec few.
        var first = Wain.Cli.SpecFiles.Compile(Path.Combine(Repository.Root, "specs", "first", "first.wain"), Wain.Cli.Options.Parse(Wain.Cli.Commands.CheckCommand.Shape, [])).Design!;
        int joints = 0;
        foreach (var design in new[] { Samples.Heron, first })
        {
            var set = DrawingBook.Of(design, options);
            var sheets = DrawingBook.Sheets(design, options);
            var labels = sheets[0].Labels;
            double column = labels.Single(l => l.Text == "Sheet").Bounds.Left, top = labels.Single(l => l.Text == "Sheet").Bounds.Bottom;
            var rows = labels.Where(l => Math.Abs(l.Bounds.Left - column) < 0.01 && l.Bounds.Top < top).Select(l => (Numbers: l.Text.Split(" to ").Select(int.Parse).ToArray(), What: labels.Single(w => w.Bounds.Left > l.Bounds.Left && Math.Abs(w.Bounds.Bottom - l.Bounds.Bottom) < 0.01 && !w.Text.StartsWith("1:", StringComparison.Ordinal)).Text)).ToList();
            Assert.Equal(Enumerable.Range(1, sheets.Length), rows.SelectMany(r => Enumerable.Range(r.Numbers[0], r.Numbers[^1] - r.Numbers[0] + 1)));
            foreach (var (numbers, what) in rows.Where(r => r.What.StartsWith("joint ", StringComparison.Ordinal)))
            {
                joints++;
                Assert.Equal("joint " + sheets[numbers[0] - 1].Sheet.Title.Name, what);
            }
            Assert.Contains($"{design.Structure.Panels.Length} panels, by name", labels.Select(l => l.Text));
            Assert.Contains($"at the end {SheetWords.Several(set.Pages.Length - sheets.Length, "page")} of templates", labels.Select(l => l.Text));
        }
        Assert.Equal(2, joints);
    }

    /// <summary>Every member of a frame stands in the list beside the frame, or on a sheet that follows; a sheet of its own is taken only where the frame would come out too small.</summary>
    [Fact]
    public void MembersAreListedBesideTheirFrame()
    {
        var sheets = DrawingBook.Sheets(Samples.Heron, Options());
        Assert.DoesNotContain(Samples.Heron.Frames.All, f => f.Members.Length < 8 && sheets.Any(s => s.Name == $"panel-{f.Panel.Name}-frame-members"));
        foreach (var frame in Samples.Heron.Frames.All)
        {
            // Named in the drawing and in the list.
            var labels = sheets.Where(s => s.Name.StartsWith($"panel-{frame.Panel.Name}-frame", StringComparison.Ordinal)).SelectMany(s => s.Labels).ToList();
            var numbers = FrameSheet.Numbers([.. Samples.Heron.Frames.Of(frame.Panel).SelectMany(f => f.Members)]);
            foreach (var member in frame.Members) Assert.True(labels.Count(l => l.Text == member.Key) == 2 || labels.Count(l => l.Text == numbers[member.Key]) >= 2, member.PartMark);
        }
    }

    /// <summary>
    /// By hand: the bunk's rails are trapezoids, its slanted stiles parallelograms, both 2 by 1 1/2 in by tan 8.5 degrees longer than they are short. The nose wall meets
    /// walls that lean out behind it, so its inside face is the longer; the roof leans aft, so the nose rail's long point is outside and the rear rail's inside.
    /// </summary>
    [Fact]
    public void EndsAreToldWithoutTheDrawing()
    {
        var sheets = DrawingBook.Sheets(Samples.Heron, Options());
        string Ends(string panel, string member) => Cells(panel, member)[0];
        // From the right: ends, short, long, wide.
        List<string> Cells(string panel, string member)
        {
            var labels = sheets.Last(s => s.Name == $"panel-{panel}-frame" || s.Name == $"panel-{panel}-frame-members").Labels;
            // Of the list, which is not turned and stands in rows.
            return labels.Where(l => l.Text == member).Select(row => labels.Where(l => Math.Abs(l.Bounds.Bottom - row.Bounds.Bottom) < 0.01 && l.Bounds.Left > row.Bounds.Left).OrderByDescending(l => l.Bounds.Left).Select(l => l.Text).ToList()).First(cells => cells.Count >= 3);
        }
        Assert.Equal("8.5\u00B0", Ends("bunk_floor", "rail_aft"));
        Assert.Equal("8.5\u00B0, alike", Ends("bunk_floor", "stile_left_nose"));
        Assert.Equal("bevel 8.5\u00B0 in", Ends("nose_wall", "rail_bottom"));
        Assert.Equal("8.5\u00B0, rip 1\u00B0 out", Ends("roof", "rail_nose"));
        Assert.Equal("square, rip 1\u00B0 in", Ends("roof", "rail_rear"));
        // The left wall's nose end is at the right of its frame, which is drawn from inside; by hand 71 in less 5 mm, then 5 mm and 3/4 in, by tan 4.25 degrees.
        Assert.Equal(["square / bevel 4.5\u00B0 out", "70 15/16", "71", "1 1/2"], Cells("left_wall", "rail_bottom"));
        Assert.Equal(["bevel 4.5\u00B0 out / square", "70 15/16", "71", "1 1/2"], Cells("right_wall", "rail_bottom"));
        // Ripped on a bevel: what is told is the wider face, which the stick has.
        Assert.Contains("1 1/2", Cells("nose_wall", "stile_left"));
    }

    /// <summary>A part that is higher than wide is drawn on upright paper where that lets it be larger, and then it is larger: the demo's floor is 71 in by 40 in.</summary>
    [Fact]
    public void HighPartsStandOnUprightPaper()
    {
        var sheets = DrawingBook.Sheets(Samples.Heron, Options());
        foreach (var sheet in sheets.Where(s => s.Sheet.Paper.Height > s.Sheet.Paper.Width))
        {
            var panel = Samples.Heron.Structure.Panels.Single(p => p.Name == sheet.Name.Split('-')[1]);
            Assert.True(panel.Height > panel.Width, sheet.Name);
            Assert.Contains(sheet.Sheet.Title.View, SheetFrame.Compose(sheet.Sheet).Description, StringComparison.Ordinal);
            string foot = string.Join(' ', SheetFrame.Compose(sheet.Sheet).Marks.OfType<TextMark>().Select(t => t.Text));
            Assert.Contains(sheet.Sheet.Title.View, foot, StringComparison.Ordinal);
        }
        Assert.Contains(sheets, s => s.Name == "panel-floor-frame" && s.Sheet.Paper.Height > s.Sheet.Paper.Width);
    }

    /// <summary>No leader at the left of a panel runs over a text, and no text there stands on an extension line (paper mm).</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void NotesAtTheLeftStandClearOfDimensions(bool a4)
    {
        int told = 0;
        foreach (var sheet in DrawingBook.Sheets(Samples.Heron, Options(a4 ? Paper.A4 : Paper.Letter)).Where(s => s.Name.StartsWith("panel-", StringComparison.Ordinal)))
        {
            var lines = sheet.Sheet.Marks.OfType<PathMark>().Where(m => m.Tone is null && m.Pen == Pen.Narrow).SelectMany(m => m.Contours).Where(c => !c.Closed).SelectMany(c => c.Segments).ToList();
            var names = sheet.Sheet.Marks.OfType<TextMark>().Where(t => t.Anchor == Anchor.End && t.Angle == 0 && Regex.IsMatch(t.Text, "^[a-z_]+[0-9a-z_.]*$")).ToList();
            told += names.Count;
            foreach (var name in names) Assert.DoesNotContain(lines, l => name.Bounds.Grow(-0.05).Crosses(l.From, l.To));
        }
        Assert.True(told >= 5, $"only {told} notes stand at the left");
    }

    /// <summary>An error of nothing is not told, and one angle is rounded to one setting wherever it stands: the demo's mitres of 4 1/4 degrees go to 4.5.</summary>
    [Fact]
    public void WhatIsToldOfAnglesIsOfUseAndOfOneMind()
    {
        var texts = DrawingBook.Sheets(Samples.Heron, Options()).SelectMany(s => s.Labels).Select(l => l.Text).ToList();
        Assert.DoesNotContain("0.000 in", string.Join(" ", texts), StringComparison.Ordinal);
        Assert.Contains("0.001 in off at the far end", string.Join(" ", texts), StringComparison.Ordinal);
        Assert.Contains(texts, t => t == "8.5\u00B0 / 4.5\u00B0, alike");
        var settings = ShopTemplates.Of(Samples.Heron, Options()).Where(t => t.Name == "Angle 4.25\u00B0").SelectMany(t => t.Marks).OfType<TextMark>().Select(t => t.Text);
        Assert.Contains("other side 85.75\u00B0, saw at 4.5\u00B0", settings);
    }

    /// <summary>The part list sends the reader to the first sheet of each part, and the plan names the roof that it shows.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void ThePartListLeadsToTheSheets(bool a4)
    {
        var sheets = DrawingBook.Sheets(Samples.Heron, Options(a4 ? Paper.A4 : Paper.Letter));
        var list = sheets.Single(s => s.Name == "parts").Labels;
        double column = list.Single(l => l.Text == "Sheet" && l.Bounds.Top > list.Single(l => l.Text == "roof" && l.Bounds.Left > 40).Bounds.Top).Bounds.Right;
        foreach (var panel in Samples.Heron.Structure.Panels)
        {
            double row = list.Last(l => l.Text == panel.Name).Bounds.Top;
            string number = list.Single(l => Math.Abs(l.Bounds.Top - row) < 0.01 && Math.Abs(l.Bounds.Right - column) < 0.01).Text;
            Assert.Equal("panel-" + panel.Name, sheets[int.Parse(number, System.Globalization.CultureInfo.InvariantCulture) - 1].Name);
        }
        var views = sheets.Single(s => s.Name == "views-closed").Labels;
        Assert.True(views.Single(l => l.Text == "roof").Bounds.Bottom > views.Single(l => l.Text.StartsWith("Plan", StringComparison.Ordinal)).Bounds.Top);
    }

    /// <summary>Panels that run on in line are drawn upright, with names on both sides: no leader is longer than the section is wide, in paper mm.</summary>
    [Fact]
    public void LeadersOfSectionsInLineAreShort()
    {
        var joint = Samples.Heron.Structure.Joints.Single(j => j.Name.StartsWith("left_wall.left", StringComparison.Ordinal));
        var sheet = JointTypes.Of(Samples.Heron.Structure).Where(t => t.Joints.Any(j => j.Joint == joint)).SelectMany(t => JointSection.Of(Samples.Heron, t, Options())).First();
        var leaders = sheet.Sheet.Marks.OfType<PathMark>().Where(m => m.Tone is null && m.Pen == Pen.Narrow).SelectMany(m => m.Contours).Where(c => !c.Closed && c.Segments.Length == 2).Select(c => c.Segments[1].Chord.Length).ToList();
        Assert.True(leaders.Count >= 6, $"{leaders.Count} leaders");
        Assert.All(leaders, l => Assert.InRange(l, 0, 45));
    }

    /// <summary>Raised, the roof stands higher by the lift's travel, which the demo states as 18 in; the overall heights of the two sheets differ by it.</summary>
    [Fact]
    public void TheRaisedViewIsHigherByTheTravel()
    {
        double Height(string name) => DrawingBook.Views(Samples.Heron.Structure, Options()).Single(s => s.Name == name).Labels.Select(l => l.Text).Select(Inches).OfType<double>().Order().SkipWhile(v => v < 55).First(v => Math.Abs(v - 71.125) > 0.01 && v < 100);
        Assert.Equal(18, Height("views-raised") - Height("views-closed"), 6);

        static double? Inches(string text)
        {
            var parts = text.Split(' ');
            if (!parts[0].All(char.IsAsciiDigit)) return null;
            double whole = double.Parse(parts[0], System.Globalization.CultureInfo.InvariantCulture);
            if (parts.Length == 1) return whole;
            var fraction = parts[1].Split('/');
            return whole + double.Parse(fraction[0], System.Globalization.CultureInfo.InvariantCulture) / double.Parse(fraction[1], System.Globalization.CultureInfo.InvariantCulture);
        }
    }

    /// <summary>PDF (ISO 32000) writes a MediaBox for each page; letter is 612 by 792 points.</summary>
    [Theory]
    [InlineData(false, "[0 0 792 612]")]
    [InlineData(true, "[0 0 841.89 595.28]")]
    public void ThePrintedSetIsWhole(bool a4, string box)
    {
        var set = DrawingBook.Of(Samples.Heron, Options(a4 ? Paper.A4 : Paper.Letter));
        var bytes = PdfWriter.Write("Heron", set.Pages);
        string text = System.Text.Encoding.Latin1.GetString(bytes);
        Assert.StartsWith("%PDF-", text, StringComparison.Ordinal);
        Assert.Contains($"/MediaBox{box}", text, StringComparison.Ordinal);
        Assert.Contains($"/Count {set.Pages.Length}", text, StringComparison.Ordinal);
        Assert.True(set.Pages.Length > set.Pictures.Length);
        Assert.Equal(bytes, PdfWriter.Write("Heron", DrawingBook.Of(Samples.Compile(), Options(a4 ? Paper.A4 : Paper.Letter)).Pages));
    }

    [Fact]
    public void EveryJointStandsInOneType()
    {
        var structure = Samples.Heron.Structure;
        var types = JointTypes.Of(structure);
        Assert.Equal(structure.Joints.Length, types.Sum(t => t.Joints.Length));
        Assert.True(types.Length < structure.Joints.Length);
        foreach (var type in types)
        {
            foreach (var one in type.Joints)
            {
                Assert.Equal(type.Joint.Kind, one.Joint.Kind);
                Assert.Equal(type.Joint.Dihedral, one.Joint.Dihedral, 2);
                Assert.Equal(type.Joint.First.Panel.Stack.Name, one.Joint.First.Panel.Stack.Name);
            }
            var texts = string.Join(' ', JointSection.Of(Samples.Heron, type, Options()).SelectMany(s => s.Labels).Select(l => l.Text));
            foreach (var joint in type.Joints) Assert.Contains(joint.Joint.Second.Panel.Name, texts, StringComparison.Ordinal);
            foreach (string word in new[] { "fillet", "seal", "screws" })
                if (type.Joint.Fact.All(word).Any()) Assert.Contains(char.ToUpperInvariant(word[0]) + word[1..] + ":", texts, StringComparison.Ordinal);
        }
    }

    /// <summary>The layers cut by the section fill the panels: their areas on paper are the areas of the bands, and the bands of two joined panels share none (shoelace formula).</summary>
    [Fact]
    public void SectionsAreTrueToScale()
    {
        foreach (var type in JointTypes.Of(Samples.Heron.Structure))
        {
            var plane = CutPlane.Across(type.Joint);
            foreach (var panel in new[] { type.Joint.First.Panel, type.Joint.Second.Panel })
            {
                var cut = new PanelCut(panel, plane, 80, []);
                foreach (var layer in panel.Stack.Layers.Where(l => l.Thickness > 0))
                {
                    double area = cut.Areas(Samples.Heron.Frames).Where(a => a.Layer == layer).Sum(a => Math.Abs(Outline.Polygon(a.Contour.Segments.Select(s => s.From)).SignedArea()));
                    double top = panel.Stack.DepthOf(layer);
                    double Wide(double d) => cut.Span(d) is var (low, high) ? Math.Min(high, 80) - Math.Max(low, -80) : 0;
                    Assert.Equal(layer.Thickness * (Wide(top) + Wide(top + layer.Thickness)) / 2, area, 3);
                }
            }
        }
    }

    /// <summary>A design in millimetres is drawn in them throughout, inches only in brackets behind what is sold so.</summary>
    [Fact]
    public void AMetricSetSpeaksMillimetres()
    {
        var sheets = DrawingBook.Sheets(Samples.Heron, Options() with { Metric = true });
        foreach (var sheet in sheets) LayoutChecks.Readable(sheet);
        var labels = sheets.Where(s => s.Name != "cover").SelectMany(s => s.Labels).Select(l => Regex.Replace(l.Text, @"\[[^\]]*\]|1/8 in|\b1 in\b", "")).ToList();
        Assert.Empty(labels.Where(t => Regex.IsMatch(t, @"[0-9]/[0-9]|[0-9] in(?! all)\b")));
        Assert.Contains("Scribe R 25.4 mm", ShopTemplates.Of(Samples.Heron, Options() with { Metric = true }).Select(t => t.Name));
        Assert.Contains("Scribe R 1 in", ShopTemplates.Of(Samples.Heron, Options()).Select(t => t.Name));
        var floor = Samples.Heron.Structure.Panel("floor")!;
        Assert.Contains(labels, t => t == Math.Round(floor.Height).ToString(System.Globalization.CultureInfo.InvariantCulture));
    }

    /// <summary>Leaders of a joint's section run clear of the dimensions of its panels.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void NoLeaderCrossesADimension(bool a4)
    {
        var options = Options(a4 ? Paper.A4 : Paper.Letter);
        int dimensions = 0;
        foreach (var type in JointTypes.Of(Samples.Heron.Structure))
        {
            var sheet = JointSection.Of(Samples.Heron, type, options).First().Sheet;
            var values = sheet.Marks.OfType<TextMark>().Where(t => Regex.IsMatch(t.Text, @"^[0-9]+( [0-9]+/[0-9]+)?$|^[0-9]+/[0-9]+$")).ToList();
            dimensions += values.Count;
            // A leader ends in a dot or an arrow within the panels and begins with a level shelf: three points.
            var leaders = sheet.Marks.OfType<PathMark>().Where(m => m.Tone is null && m.Contours.Length == 1 && m.Contours[0].Segments.Length == 2 && !m.Contours[0].Closed).Select(m => m.Contours[0].Segments[1]).ToList();
            foreach (var value in values)
                Assert.DoesNotContain(leaders, l => value.Bounds.Crosses(l.From, l.To));
        }
        Assert.True(dimensions > 10, $"only {dimensions} dimensions are drawn");
    }

    /// <summary>At a corner lap the section shows each panel without its step: the two areas share nothing and add to the corner (plain arithmetic).</summary>
    [Theory]
    [InlineData("lap depth half", 4.5)]
    [InlineData("rabbet depth 3 mm", 3)]
    public void SectionsShowSteps(string kind, double depth)
    {
        const double thick = 9, reach = 80;
        var compilation = Compiler.Compile(new SourceText("corner.wain", $$"""
            sheet ply { thickness 9 mm
                size 48 in by 96 in }
            stack board { sheet ply }
            plan box {
                start at (0 mm, 500 mm)
                leg left run 800 mm
                leg front across 1000 mm
                leg right mirror of left
                leg aft home, across 1000 mm
                through front
            }
            panel front of board { stands on box.front, from 0 mm to 500 mm }
            panel side of board { stands on box.left, from 0 mm to 500 mm }
            joint side.left to front.right { {{kind}} }
            """.ReplaceLineEndings("\n")));
        var (design, joint) = (compilation.Design!, compilation.Structure!.Joints.Single());
        var plane = CutPlane.Across(joint);
        var areas = new[] { joint.First.Panel, joint.Second.Panel }.Select(p => new PanelCut(p, plane, reach, PanelStep.Of(design.Structure, p)).Areas(design.Frames).ToList()).ToList();
        Outline[] shapes = [.. areas.Select(a => Outline.Polygon(a.Single().Contour.Segments.Select(s => s.From)).CounterClockwise)];
        Assert.Equal(0, Region.Of(shapes[0]).Intersection(Region.Of(shapes[1])).Area, 6);
        // The side is drawn from its end, the front from the middle of the side's thickness; they share the depth of the step once.
        Assert.Equal(reach * thick + (reach + thick / 2) * thick - depth * thick, shapes.Sum(s => s.Area()), 3);
        Assert.Contains(EdgeNotes.Of(design.Structure, compilation.Structure.Panel("front")!, Options()), n => n.Text.Contains("deep from the inside (", StringComparison.Ordinal));
    }

    /// <summary>The slanted side of an angle template runs off square by the tangent of its angle (right-triangle case), at full size.</summary>
    [Fact]
    public void TemplatesAreTrue()
    {
        var angles = ShopTemplates.DistinctAngles(Samples.Heron).ToList();
        Assert.Contains(angles, a => Math.Abs(a.Angle - 4.25 * Math.PI / 180) < 1e-4);
        Assert.Contains(angles, a => Math.Abs(a.Angle - 8.5 * Math.PI / 180) < 1e-3);
        var templates = ShopTemplates.Of(Samples.Heron, Options());
        Assert.Equal(angles.Count + ShopTemplates.DistinctArcs(Samples.Heron).Count(), templates.Length);
        for (int i = 0; i < angles.Count; i++)
        {
            var corners = ((PathMark)templates[i].Marks[0]).Contours[0].Segments.Select(s => s.From).ToList();
            var slant = corners[2] - corners[1];
            double fromSquare = Math.Atan2(slant.X, slant.Y);
            Assert.Equal(angles[i].Angle, angles[i].Angle > Math.PI / 4 ? Math.PI / 2 - fromSquare : fromSquare, 9);
        }
        foreach (var (arc, _) in ShopTemplates.DistinctArcs(Samples.Heron))
        {
            var drawn = templates.Skip(angles.Count).Select(t => ((PathMark)t.Marks[0]).Contours[0].Segments[1]).Single(s => Math.Abs(s.Radius - arc.Radius) < 0.05 && Math.Abs(Math.Abs(s.Sweep) - Math.Abs(arc.Sweep)) < 1e-3);
            Assert.Equal(arc.Radius, drawn.Radius, 6);
        }
    }
}
