using System.Text.Json;
using Json.Schema;

namespace Wain.Tests.Revisions;

/// <summary>Edits of a spec, and what compare says of each. What an edit does is plain arithmetic on what the spec states.</summary>
public sealed class CompareTests : IDisposable
{
    private readonly RevisionFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private void Same(params (string, string)[] edits)
    {
        var (code, output) = _folder.CompareWith(edits);
        Assert.True(code == 0, output);
        Assert.Contains("No difference", output);
    }

    private string Differs(params (string, string)[] edits)
    {
        var (code, output) = _folder.CompareWith(edits);
        Assert.True(code == 1, output);
        Assert.All(output.Split('\n'), line => Assert.True(line.Length <= 80, line));
        return output;
    }

    [Fact]
    public void A_comment_is_no_difference() => Same(("plan bunk {", "-- walked counter-clockwise\n\nplan bunk {"));

    [Fact]
    public void Another_unit_for_the_same_length_is_no_difference() => Same(("let nose_run = 50 in", "let nose_run = 4 ft 2 in"));

    [Fact]
    public void A_moved_declaration_is_no_difference()
    {
        string wall = RevisionFolder.Main[RevisionFolder.Main.IndexOf("mirror left_nose_wall", StringComparison.Ordinal)..RevisionFolder.Main.IndexOf("panel nose_wall", StringComparison.Ordinal)];
        Same((wall, ""), ("plan bunk {", wall + "plan bunk {"));
    }

    [Fact]
    public void A_value_moved_into_functions_and_names_is_no_difference() =>
        Same(("let body_width = 64 in", "let half = 32 in\nfunction twice(x) = 2 * x\nlet body_width = twice(half)"), ("require bunk_floor.area < 30 ft2", "let most = 30 ft2\nrequire bunk_floor.area < most"));

    [Fact]
    public void Declarations_moved_into_the_file_that_is_used_are_no_difference()
    {
        string stack = RevisionFolder.Main[RevisionFolder.Main.IndexOf("stack deck", StringComparison.Ordinal)..RevisionFolder.Main.IndexOf("stack wall", StringComparison.Ordinal)];
        Same((stack, ""), ("sheet ply_9mm {", stack + "sheet ply_9mm {"));
    }

    [Fact]
    public void A_moved_window_is_told_once_with_its_mirror_and_its_line()
    {
        string output = Differs(("at (10 in, 8 in)", "at (12 in, 8 in)"));
        Assert.Contains("left_nose_wall.vent, and its mirror right_nose_wall.vent: moved", output);
        Assert.Contains("along 10 in -> 12 in (+2 in)", output);
        Assert.DoesNotContain("\n  right_nose_wall", output);
        Assert.Contains("+ lower left at (12 in, 8 in), seen from outside", output);
    }

    [Fact]
    public void A_renamed_panel_is_a_rename_and_nothing_else()
    {
        string output = Differs(("panel nose_wall", "panel front_wall"), ("nose_wall.inside", "front_wall.inside"));
        Assert.Contains("front_wall (was nose_wall): renamed", output);
        Assert.DoesNotContain("parts:", output);
        Assert.DoesNotContain("Joints", output);
    }

    private string DiffersBetween(string old, string now)
    {
        var (code, output, errors) = RevisionFolder.Run("compare", _folder.Write("was", RevisionFolder.Main + old), _folder.Write("is", RevisionFolder.Main + now));
        Assert.Equal("", errors);
        Assert.True(code == 1, output);
        return output;
    }

    private static string Spare(string name, string height = "90 in") => $"panel {name} of deck {{ covers plan bunk, underside at {height} }}\n";

    /// <summary>Two panels of one shape in one place, both with new names: which is which can't be told, so two are gone and two are new.</summary>
    [Fact]
    public void An_uncertain_match_is_gone_and_new()
    {
        string output = DiffersBetween(Spare("spare_a") + Spare("spare_b"), Spare("spare_c") + Spare("spare_d"));
        foreach (string told in new[] { "spare_a: gone", "spare_b: gone", "spare_c: new", "spare_d: new" }) Assert.Contains(told, output);
        Assert.DoesNotContain("renamed", output);
        // One of them alone with a new name is no guess.
        Assert.Contains("spare_c (was spare_a): renamed", DiffersBetween(Spare("spare_a") + Spare("spare_b"), Spare("spare_c") + Spare("spare_b")));
        // Another name and another place leave nothing to know it by.
        string moved = DiffersBetween(Spare("spare_a"), Spare("spare_c", "95 in"));
        Assert.Contains("spare_a: gone", moved);
        Assert.Contains("spare_c: new", moved);
    }

    private const string Group = "group box(height) {\n    panel lid of deck { covers plan bunk, underside at height }\n}\n";

    /// <summary>What a group or a loop is given stands on another line than what comes of it: that line is named.</summary>
    [Theory]
    [InlineData(Group + "place box(90 in) as spare\n", Group + "place box(95 in) as spare\n", "+ place box(95 in) as spare")]
    [InlineData(Group + "place box(90 in) as spare\n", Group + "place box(90 in) as store\n", "+ place box(90 in) as store")]
    [InlineData("for z in low = 90 in, high = 95 in {\n    panel spare[z] of deck { covers plan bunk, underside at z.value }\n}\n", "for z in low = 90 in, high = 97 in {\n    panel spare[z] of deck { covers plan bunk, underside at z.value }\n}\n", "+ for z in low = 90 in, high = 97 in {")]
    [InlineData("for z in low = 90 in, high = 95 in {\n    panel spare[z] of deck { covers plan bunk, underside at z.value }\n}\n", "for z in low = 90 in, top = 95 in {\n    panel spare[z] of deck { covers plan bunk, underside at z.value }\n}\n", "+ for z in low = 90 in, top = 95 in {")]
    public void The_line_that_places_one_of_many_is_the_cause(string old, string now, string line)
    {
        string output = DiffersBetween(old, now);
        Assert.Contains(line, output);
        Assert.DoesNotContain("+ panel ", output);
        Assert.Contains("All of it comes from", output);
    }

    [Fact]
    public void A_renamed_material_is_no_change_of_a_part()
    {
        string output = Differs(("ply_5mm", "thin_ply"));
        // The name is what is told, with its line, and no figure that goes by it.
        Assert.Contains("thin_ply (was ply_5mm): renamed", output);
        Assert.Contains("materials.wain:", output);
        Assert.DoesNotContain("more figures differ", output);
        Assert.DoesNotContain("Panels", output);
        Assert.DoesNotContain("parts:", output);
        Assert.DoesNotContain("Buying", output);
    }

    [Fact]
    public void A_price_changes_money_and_no_part()
    {
        string output = Differs(("price 31 USD", "price 33 USD"));
        Assert.Contains("ply_5mm:", output);
        Assert.Contains("total.cost", output);
        Assert.DoesNotContain("Panels", output);
        Assert.Contains("materials.wain:", output);
    }

    [Fact]
    public void A_wider_body_names_the_value_behind_it_and_puts_what_is_built_first()
    {
        string built = "built bunk_floor {\n    cut on 2026-10-17\n}\n";
        _folder.Write("old", RevisionFolder.Main + built);
        string output = Differs(("let body_width = 64 in", "let body_width = 66 in"), ("require bunk_floor", built + "require bunk_floor"));
        Assert.Contains("bunk_floor (cut on 2026-10-17): must be cut again", output);
        Assert.True(output.IndexOf("Already built", StringComparison.Ordinal) < output.IndexOf("Panels", StringComparison.Ordinal));
        Assert.Contains("- let body_width = 64 in", output);
        Assert.Contains("+ let body_width = 66 in", output);
    }

    [Fact]
    public void Layers_in_another_order_are_a_difference()
    {
        string output = Differs(("    sheet ply_5mm, glued with wood_glue\n    core frame of strip_1x2, flat, filled with foam_board, glued with wood_glue\n    sheet ply_5mm\n", "    sheet ply_9mm, glued with wood_glue\n    core frame of strip_1x2, flat, filled with foam_board, glued with wood_glue\n    sheet ply_5mm\n"));
        Assert.Contains("wall: changed", output);
    }

    [Fact]
    public void A_length_below_what_is_shown_is_no_change_of_a_part()
    {
        // 0.1 mm is far below the 1/16 in that the spec shows; only the line itself is told.
        string output = Differs(("to 66 in", "to 1676.5 mm"));
        Assert.DoesNotContain("Panels", output);
    }

    [Fact]
    public void A_new_requirement_is_a_difference() => Assert.Contains("require", Differs(("require bunk_floor.area < 30 ft2", "require bunk_floor.area < 31 ft2")));

    [Fact]
    public void A_side_with_errors_is_compared_as_far_as_it_goes()
    {
        string output = Differs(("stands on bunk.nose, from bunk_floor.top to 66 in", "stands on bunk.nose, from bunk_floor.top to 66 lb"));
        Assert.Contains("Not all:", output);
        Assert.Contains("nose_wall: changed", output);
        Assert.DoesNotContain("left_nose_wall", output.Split("Findings")[0]);
    }

    [Fact]
    public void Json_follows_its_schema_and_the_folder_holds_all_forms()
    {
        string edited = _folder.Write("new", RevisionFolder.Main.Replace("let body_width = 64 in", "let body_width = 66 in", StringComparison.Ordinal));
        var (code, output, _) = RevisionFolder.Run("compare", _folder.At("old"), edited, "--as", "json", "--out", _folder.At("out"));
        Assert.Equal(1, code);
        var schema = JsonSchema.FromFile(Path.Combine(Repository.Root, "grammar", "comparison.schema.json"));
        using var json = JsonDocument.Parse(output);
        Assert.True(schema.Evaluate(json.RootElement).IsValid);
        Assert.Equal("differs", json.RootElement.GetProperty("result").GetString());
        foreach (string file in (string[])["comparison.md", "comparison.json", "comparison.xlsx", "panels/bunk_floor.svg"]) Assert.True(File.Exists(_folder.At("out/" + file)), file);
        Assert.Contains("stroke-dasharray", File.ReadAllText(_folder.At("out/panels/bunk_floor.svg")));
        Assert.Contains("== Changes ==", RevisionFolder.Run("textconv", _folder.At("out/comparison.xlsx")).Output);
    }

    [Fact]
    public void Two_designs_are_told_as_such()
    {
        var (code, output, _) = RevisionFolder.Run("compare", _folder.At("old"), Path.Combine(Repository.Root, "specs", "heron", "heron.wain"));
        Assert.Equal(1, code);
        Assert.Contains("two designs", output);
    }

    [Fact]
    public void What_is_no_text_can_not_be_compared()
    {
        File.WriteAllBytes(_folder.At("picture.wain"), [0x89, 0x50, 0x4E, 0x47, 0, 1, 2, 255, 254]);
        var (code, _, errors) = RevisionFolder.Run("compare", _folder.At("old"), _folder.At("picture.wain"));
        Assert.Equal(2, code);
        Assert.Contains("no text", errors);
    }
}
