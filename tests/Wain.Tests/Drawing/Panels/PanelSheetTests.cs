using System.Text;
using Wain.Core;
using Wain.Core.Drawing;
using Wain.Core.Drawing.Panels;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Reports.Svg;

namespace Wain.Tests.Drawing.Panels;

public class PanelSheetTests
{
    private const double Inch = 25.4;

    private static DrawingOptions Options(Paper? paper = null) => new() { Camper = "Heron", Revision = "A", ValuesHash = "0123456789abcdef", Mass = _ => 12.3, Paper = paper ?? Paper.Letter };

    private static IEnumerable<LaidSheet> Sheets(Design design, DrawingOptions options) =>
        design.Structure.Panels.SelectMany(p => PanelSheet.Outside(design, p, options).Concat(FrameSheet.Of(design, p, options)).Concat(PanelSheet.Inside(design, p, options)));

    private static PlacedPanel Panel(string name) => Samples.Heron.Structure.Panel(name)!;

    private static HashSet<string> Texts(LaidSheet sheet) => [.. sheet.Labels.Select(l => l.Text)];

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void NoLabelCoversAnotherOrLeavesTheSheet(bool a4)
    {
        var options = Options(a4 ? Paper.A4 : Paper.Letter);
        int sheets = 0, labels = 0;
        foreach (var sheet in Sheets(Samples.Heron, options))
        {
            sheets++;
            LayoutChecks.Readable(sheet);
            labels += sheet.Labels.Length;
        }
        Assert.True(sheets > 60 && labels > 1000, $"{sheets} sheets, {labels} labels");
    }

    /// <summary>A member whose own length has no room for its mark between its holes has it beside itself, not at the end of a line across the frame.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void MarksStandBesideTheirMembers(bool a4)
    {
        var design = Samples.Heron;
        var sheet = FrameSheet.Of(design, design.Structure.Panel("nose_wall")!, Options() with { Paper = a4 ? Paper.A4 : Paper.Letter }).First();
        // The first of each is on the drawing, the second in the table. Seen from inside, the row runs the other way.
        LabelBox[] row = [.. new[] { "blocking1_d", "blocking1_c", "blocking1_b", "blocking1_a" }.Select(k => sheet.Labels.First(l => l.Text == k))];
        var stiles = new[] { "stile_right", "stile_left" }.Select(k => sheet.Labels.First(l => l.Text == k).Bounds.Centre.X).ToList();
        Assert.All(row, l => Assert.Equal(row[0].Bounds.Centre.Y, l.Bounds.Centre.Y, 6));
        Assert.Equal(row.Select(l => l.Bounds.Centre.X).Order(), row.Select(l => l.Bounds.Centre.X));
        Assert.All(row, l => Assert.InRange(l.Bounds.Centre.X, stiles[0], stiles[1]));
    }

    /// <summary>Parts of the list that stand under one another are one table, and its rows read down and on in the next column.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void MembersAreListedInOneTableAColumn(bool a4)
    {
        var design = Samples.Heron;
        foreach (var panel in design.Structure.Panels)
            foreach (var sheet in FrameSheet.Of(design, panel, Options() with { Paper = a4 ? Paper.A4 : Paper.Letter }))
            {
                var heads = sheet.Labels.Where(l => l.Text == "Member").Select(l => Math.Round(l.Bounds.Left, 3)).ToList();
                Assert.Equal(heads.Distinct().Count(), heads.Count);
                if (heads.Count == 0) continue;
                var listed = sheet.Labels.Where(l => heads.Contains(Math.Round(l.Bounds.Left, 3)) && design.Frames.Of(panel).Any(f => f.Members.Any(m => m.Key == l.Text)))
                    .OrderBy(l => Math.Round(l.Bounds.Left, 3)).ThenByDescending(l => l.Bounds.Top).Select(l => l.Text).ToList();
                var members = design.Frames.Of(panel).SelectMany(f => f.Members).OrderBy(m => m.Role).ThenBy(m => m.Key, StringComparer.Ordinal).Select(m => m.Key).ToList();
                Assert.Equal(members, listed);
            }
    }

    [Fact]
    public void EveryMemberAndEveryOpeningIsNamed()
    {
        var design = Samples.Heron;
        foreach (var panel in design.Structure.Panels)
        {
            var outside = Texts(PanelSheet.Outside(design, panel, Options()).First());
            var frame = FrameSheet.Of(design, panel, Options()).SelectMany(s => s.Labels).Select(l => l.Text).ToList();
            foreach (var member in design.Frames.Of(panel).SelectMany(f => f.Members))
            {
                string? number = FrameSheet.Numbers([.. design.Frames.Of(panel).SelectMany(f => f.Members)]).GetValueOrDefault(member.Key);
                Assert.True(outside.Contains(member.Key) || number is not null && outside.Contains(number), $"{panel.Name} {member.Key}");
                // Once on the drawing, by name or number, and once in its table.
                Assert.Contains(member.Key, frame);
                Assert.True(frame.Count(t => t == member.Key) >= 2 || number is not null && frame.Count(t => t == number) >= 2, $"{panel.Name} {member.Key}");
                Assert.Contains(LengthText.OfInches(member.LongPoint, unit: false), frame);
            }
            foreach (var opening in panel.Openings) Assert.Contains(opening.Name.Replace('_', ' '), outside);
            foreach (var zone in panel.Zones) Assert.Contains("zone " + zone.Name.Replace('_', ' '), outside);
            Assert.Contains(LengthText.OfInches(panel.Width, unit: false), outside);
            Assert.Contains(LengthText.OfInches(panel.Height, unit: false), outside);
        }
    }

    /// <summary>The demo states where the window of shell_left lies: (22 in, 6 in) from its lower left corner, 22 in by 12 in.</summary>
    [Fact]
    public void NumbersAreThoseOfTheSpecAndHandsAreRight()
    {
        var left = Panel("shell_left");
        var right = Panel("shell_right");
        string fromOtherEnd = LengthText.OfInches(left.Width - 22 * Inch, unit: false), farSide = LengthText.OfInches(left.Width - 44 * Inch, unit: false);
        var drawn = Texts(PanelSheet.Outside(Samples.Heron, left, Options()).First());
        Assert.Superset(new HashSet<string> { "22", "44", "6", "18" }, drawn);
        var mirrored = Texts(PanelSheet.Outside(Samples.Heron, right, Options()).First());
        Assert.Superset(new HashSet<string> { fromOtherEnd, farSide, "6", "18" }, mirrored);
        Assert.DoesNotContain("44", mirrored);
        // From inside, the left shell reads as the right one does from outside.
        var inside = Texts(PanelSheet.Inside(Samples.Heron, left, Options()).First());
        Assert.Superset(new HashSet<string> { fromOtherEnd, farSide, "6", "18" }, inside);
    }

    /// <summary>Each running dimension of the demo, read back as a tape would, is a place of the model to within half of 1/16 in.</summary>
    [Fact]
    public void RunningDimensionsReadBack()
    {
        int read = 0;
        foreach (var panel in Samples.Heron.Structure.Panels)
        {
            var sheet = PanelSheet.Outside(Samples.Heron, panel, Options()).First();
            var b = panel.Outline.Bounds;
            var outlines = panel.Openings.Select(o => o.Hole).Concat(panel.Zones.Select(z => z.Region)).Append(panel.Outline)
                .Concat(Core.Framing.PanelStep.Of(Samples.Heron.Structure, panel).SelectMany(s => s.Taken(panel.Outline))).ToList();
            var places = outlines.SelectMany(o => o.Corners.Append(o.Bounds.Min).Append(o.Bounds.Max)).SelectMany(p => new[] { p.X - b.Min.X, p.Y - b.Min.Y })
                .Concat(Footprint.Of(Samples.Heron.Structure, panel, s => !s.IsInside || !PanelSketch.HasInsideSkin(panel)).SelectMany(f => f.Region.Corners).SelectMany(p => new[] { p.X - b.Min.X, p.Y - b.Min.Y }))
                .Concat(Samples.Heron.Frames.Of(panel).SelectMany(f => f.Members).Select(m => m.CentreLine.At(0.5).X - b.Min.X))
                .Concat(Samples.Heron.Pieces.Splices.Where(s => s.Panel == panel).Select(s => s.At)).ToList();
            foreach (var label in sheet.Labels)
            {
                if (Tape(label.Text) is not { } inches) continue;
                // The number of a member is no dimension.
                if (FrameSheet.Numbers([.. Samples.Heron.Frames.Of(panel).SelectMany(f => f.Members)]).Values.Contains(label.Text) && !places.Exists(p => Math.Abs(p / Inch - inches) <= 1 / 32.0 + 1e-6)) continue;
                read++;
                Assert.True(places.Exists(p => Math.Abs(p / Inch - inches) <= 1 / 32.0 + 1e-6), $"{panel.Name}: {label.Text}");
            }
        }
        Assert.True(read > 250, $"{read}");
    }

    private static double? Tape(string text)
    {
        double sum = 0;
        foreach (string word in text.Split(' '))
        {
            var parts = word.Split('/');
            if (parts.Length > 2 || !parts.All(p => p.Length > 0 && p.All(char.IsAsciiDigit))) return null;
            sum += double.Parse(parts[0], System.Globalization.CultureInfo.InvariantCulture) / (parts.Length == 2 ? double.Parse(parts[1], System.Globalization.CultureInfo.InvariantCulture) : 1);
        }
        return sum;
    }

    /// <summary>What stands on a face is told, drawn and measured on the sheet of that face: by hand, the wardrobe's side spans at -52 in and the wing under it ends at -71 in, so it stands 19 in from the wing's rear.</summary>
    [Fact]
    public void WhatStandsOnAFaceIsOnTheSheetOfThatFace()
    {
        foreach (var panel in Samples.Heron.Structure.Panels.Where(PanelSketch.HasInsideSkin))
        {
            string inside = panel.IsLevel ? panel.Face.N.Z > 0 ? "On the bottom face" : "On the top face" : "On the inside face", outside = panel.IsLevel ? panel.Face.N.Z > 0 ? "On the top face" : "On the bottom face" : "On the outside face";
            Assert.DoesNotContain(PanelSheet.Outside(Samples.Heron, panel, Options()).SelectMany(s => s.Labels), l => l.Text.StartsWith(inside, StringComparison.Ordinal));
            Assert.DoesNotContain(PanelSheet.Inside(Samples.Heron, panel, Options()).SelectMany(s => s.Labels), l => l.Text.StartsWith(outside, StringComparison.Ordinal));
        }
        var wing = Texts(PanelSheet.Inside(Samples.Heron, Panel("right_wing"), Options()).First());
        Assert.Superset(new HashSet<string> { "wardrobe_side", "right_wall", "19" }, wing);
        Assert.DoesNotContain("wardrobe_side", Texts(PanelSheet.Outside(Samples.Heron, Panel("right_wing"), Options()).First()));
    }

    [Fact]
    public void TheSameSpecGivesTheSameBytes()
    {
        string All(Design design) => string.Concat(Sheets(design, Options()).Select(s => s.Name + Encoding.UTF8.GetString(SvgWriter.Write(s.Sheet.ToPicture()))));
        Assert.Equal(All(Samples.Heron), All(Samples.Compile()), StringComparer.Ordinal);
    }

    [Fact]
    public void ErrorsMakeADraftAndWeightMayBeMissing()
    {
        var options = Options() with { DraftErrors = ["WN1: something is wrong"], Mass = _ => null };
        var picture = PanelSheet.Outside(Samples.Heron, Panel("floor"), options).First().Sheet.ToPicture();
        var texts = SheetTests.Texts(picture.Marks).Select(t => t.Text).ToList();
        Assert.Contains("DRAFT", texts);
        Assert.DoesNotContain("Weight", texts);
        Assert.Contains("Weight", SheetTests.Texts(PanelSheet.Outside(Samples.Heron, Panel("floor"), Options()).First().Sheet.ToPicture().Marks).Select(t => t.Text));
    }
}

internal static class LayoutChecks
{
    /// <summary>Texts of a sheet that a line runs through, without white under the text to break it.</summary>
    private static IEnumerable<string> Struck(Sheet sheet)
    {
        List<Mark> marks = [.. Flat(sheet.Marks)];
        var lines = marks.Select((m, i) => (m, i)).Where(p => p.m is PathMark { Pen: not null }).SelectMany(p => ((PathMark)p.m).Contours.SelectMany(c => c.Flatten() is var f ? f.Zip(f.Skip(1)) : []).Select(s => (s.First, s.Second, p.i))).ToList();
        var white = marks.Select((m, i) => (m, i)).Where(p => p.m is PathMark { Tone: 1 }).Select(p => (p.m.Bounds, p.i)).ToList();
        for (int t = 0; t < marks.Count; t++)
        {
            if (marks[t] is not TextMark { Hollow: false } text) continue;
            // In the axes of the text, a little smaller than its letters.
            double left = text.Anchor switch { Anchor.Start => 0, Anchor.Middle => -text.Width / 2, _ => -text.Width };
            var box = new Box(left, 0, left + text.Width, text.Height).Grow(-0.35);
            Vec2 Own(Vec2 p) => (p - text.At) is var d && Vec2.FromAngle(text.Angle) is var along ? new Vec2(d.Dot(along), d.Dot(along.Left)) : default;
            int broken = white.Where(w => w.i < t && w.Bounds.Contains(text.Bounds.Grow(-0.35))).Select(w => w.i).DefaultIfEmpty(-1).Max();
            if (lines.Any(l => (l.i > broken) && box.Crosses(Own(l.First), Own(l.Second)))) yield return text.Text;
        }

        static IEnumerable<Mark> Flat(IEnumerable<Mark> marks) => marks.SelectMany(m => m is GroupMark g ? Flat(g.Marks) : [m]);
    }

    public static void Readable(LaidSheet sheet)
    {
        // Room for notes and dimensions is settled to half a millimetre.
        var area = SheetFrame.Area(sheet.Sheet.Paper, sheet.Sheet.Title).Grow(0.51);
        for (int i = 0; i < sheet.Labels.Length; i++)
        {
            var one = sheet.Labels[i];
            Assert.True(area.Contains(one.Bounds), $"{sheet.Name}: '{one.Text}' leaves the sheet");
            for (int k = i + 1; k < sheet.Labels.Length; k++)
                Assert.False(one.Bounds.Grow(-0.05).Overlaps(sheet.Labels[k].Bounds.Grow(-0.05)), $"{sheet.Name}: '{one.Text}' over '{sheet.Labels[k].Text}'");
        }
        Assert.Empty(Struck(sheet.Sheet).Select(text => $"{sheet.Name}: a line through '{text}'"));
    }
}
