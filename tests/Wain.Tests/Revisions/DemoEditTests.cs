namespace Wain.Tests.Revisions;

/// <summary>Edits of the demo, from a remark to a renamed panel, and what compare says of each. What an edit does follows from what the spec states.</summary>
public sealed class DemoEditTests : IDisposable
{
    private static readonly string Demo = Path.Combine(Repository.Root, "specs", "heron");

    private readonly RevisionFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private (int Code, string Output) After(params (string From, string To)[] edits)
    {
        string folder = Directory.CreateDirectory(_folder.At("heron")).FullName;
        var texts = Directory.GetFiles(Demo, "*.wain").ToDictionary(f => Path.GetFileName(f)!, File.ReadAllText);
        foreach (var (from, to) in edits)
        {
            string file = texts.First(t => t.Value.Contains(from, StringComparison.Ordinal)).Key;
            texts[file] = texts[file].Replace(from, to, StringComparison.Ordinal);
        }
        foreach (var (name, text) in texts) File.WriteAllText(Path.Combine(folder, name), text);
        var (code, output, errors) = RevisionFolder.Run("compare", Path.Combine(Demo, "heron.wain"), Path.Combine(folder, "heron.wain"));
        Assert.Equal("", errors);
        Assert.All(output.Split('\n'), line => Assert.True(line.Length <= 80 || !line.Contains(' '), line));
        return (code, output);
    }

    private static string Between(string text, string from, string to)
    {
        int start = text.IndexOf(from, StringComparison.Ordinal), end = text.IndexOf(to, start, StringComparison.Ordinal);
        return text[start..end];
    }

    private void Same(params (string, string)[] edits)
    {
        var (code, output) = After(edits);
        Assert.True(code == 0, output);
        Assert.EndsWith("No difference: both mean the same.\n", output, StringComparison.Ordinal);
    }

    private void Says((string, string)[] edits, params string[] lines)
    {
        var (code, output) = After(edits);
        Assert.True(code == 1, output);
        foreach (string line in lines)
        {
            if (line[0] == '!') Assert.False(output.Contains(line[1..], StringComparison.Ordinal), output);
            else Assert.True(output.Contains(line, StringComparison.Ordinal), $"\"{line}\" is not in:\n{output}");
        }
    }

    [Fact]
    public void A_remark() => Same(("-- How panels meet", "-- How the panels meet\n-- and with what"));

    [Fact]
    public void Another_order()
    {
        string text = File.ReadAllText(Path.Combine(Demo, "heron.wain")), joint = Between(text, "joint shell_rear.top", "joint shell_left.left");
        Same((joint, ""), ("-- How panels meet\n", "-- How panels meet\n" + joint));
    }

    [Fact]
    public void Functions_names_and_a_file_of_its_own()
    {
        string text = File.ReadAllText(Path.Combine(Demo, "heron.wain")), stacks = Between(text, "stack furniture", "-- Plans are walked");
        Same((stacks, ""), ("carrier truck {", stacks + "carrier truck {"),
            ("let tub_width = 40 in", "function half(x) = x / 2\nlet narrow = 20 in\nlet tub_width = 2 * narrow\nlet bed_floor = 0 in"),
            ("body_width / 2 - tub_width / 2", "half(body_width) - half(tub_width)"), ("plan tub, underside at 0 in", "plan tub, underside at bed_floor"));
    }

    [Fact]
    public void A_moved_window() => Says([("lower left at (22 in, 6 in), seen", "lower left at (24 in, 6 in), seen")],
        "shell_left.side_window, and its mirror shell_right.side_window: moved\n      along 22 in -> 24 in (+2 in)\n", "All of it comes from heron.wain:", "!\n  shell_right");

    [Fact]
    public void A_renamed_panel() => Says([("shell_nose of shell_wall", "shell_front of shell_wall"), ("    shell_nose\n", "    shell_front\n"), ("joint shell_nose.top", "joint shell_front.top"), ("to shell_nose.inside", "to shell_front.inside")],
        "Changed: 1 panel.", "shell_front (was shell_nose): renamed\n", "!parts:", "!Joints", "!Findings");

    [Fact]
    public void A_wider_body() => Says([("let body_width = 68 in", "let body_width = 69 in")],
        "rear_wall: cut to another shape\n      width ", "nose_wall: moved\n", "total.weight", "- let body_width = 68 in\n      + let body_width = 69 in");

    [Fact]
    public void A_price() => Says([("price 29.00 USD", "price 31.50 USD")], "ply_5mm: ", "total.cost", "!total.weight", "!Panels", "!parts:", "materials.wain:");

    [Fact]
    public void Another_skin() => Says([("    sheet ply_3mm\n    coating varnish", "    sheet ply_5mm\n    coating varnish")],
        "shell_wall: changed\n      layers ", "shell_left, and its mirror shell_right: cut to another shape\n", "thickness ", "ply_3mm: ");

    [Fact]
    public void Screws_closer() => Says([("deck_screw every 6 in, driven from outside", "deck_screw every 4 in, driven from outside")],
        "rear_wall.left to left_wall.inside, and its mirror rear_wall.right to", "!Panels");

    [Fact]
    public void A_floor_that_is_cut_already() => Says([("covers plan tub, underside at 0 in", "covers plan tub, underside at 1/2 in")],
        "Already built\n  floor (cut on 2026-10-17): moved\n      moved 1/2 in up\n", "All of it comes from heron.wain:", "tub_left, and its mirror tub_right: cut to another shape\n      height ", "(-1/2 in)");

    [Fact]
    public void A_wall_top_as_a_weight() => Says([("let wall_top = 57 in", "let wall_top = 57 lb")],
        "Not all: ", "left_wall: changed\n", "- let wall_top = 57 in\n      + let wall_top = 57 lb", "appeared: error WN2002 at heron.wain:", "!- require");

    [Fact]
    public void A_height_behind_many_panels_is_named_and_not_the_lines_that_read_the_same() => Says([("let wing_height = 22 in", "let wing_height = 22 1/2 in")],
        "All of it comes from heron.wain:", "left_wing, and its mirror right_wing: moved\n      moved 1/2 in up\n", "- let wing_height = 22 in\n      + let wing_height = 22 1/2 in");
}
