using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Text;
using Wain.Tests.Parsing;

namespace Wain.Tests.Binding;

/// <summary>Names, files, groups, loops and order.</summary>
public class NameTests
{
    private const string Ply = "sheet ply {\n    thickness 6 mm\n    size 48 in by 96 in\n}\n";
    private const string Deck = Ply + "stack deck {\n    sheet ply\n}\n";

    private static (string, int, int, string) Short(Finding f) => (f.Code, f.Place.Line, f.Place.Column, f.Message);

    private static IEnumerable<string> Names(string text) => Told.Bound(text).Facts.Select(f => f.Name ?? f.Keyword);

    [Fact]
    public void Order_of_declarations_has_no_meaning()
    {
        string[] parts =
        [
            "let wide = truck.width > 60 in\n", "carrier truck {\n    bed 70 in by width_of_bed\n    track 64 in\n}\n", "let width_of_bed = 62 in\n", "if truck.track > 60 in {\n    stack deck {\n        sheet ply\n    }\n}\n",
            "for side in left, right {\n    load tank[side] {\n        full tank_volume\n        at (0 in, 0 in, 0 in)\n    }\n}\n", "let tank_volume = 12 gal\n", "group box(size) {\n    load inner {\n        full size\n    }\n}\n", "place box(tank_volume) as port\n",
            Ply, "load last {\n    if truck.track > 60 in {\n        full tank_volume\n    } else {\n        full 1 gal\n    }\n}\n",
        ];
        parts[0] = "let wide = truck.track\nrequire wide > 60 in\n";
        string[]? first = null;
        for (int seed = 0; seed < 30; seed++)
        {
            string[] shuffled = [.. parts];
            new Random(seed).Shuffle(shuffled);
            var spec = Told.Bound(string.Concat(shuffled));
            string[] model = [.. spec.Facts.SelectMany(f => f.Body.Select(b => $"{b.Path} {spec.Evaluator.Quantity(b, "volume")?.Value}")).Order(StringComparer.Ordinal)];
            first ??= model;
            Assert.Equal(first, model);
        }
        Assert.Contains("port_inner.full " + Told.Value("let a = 12 gal", "a").Value, first!);
        Assert.Contains("last.full " + Told.Value("let a = 12 gal", "a").Value, first!);
    }

    [Fact]
    public void What_decides_the_parts_cannot_hang_on_a_part_that_is_decided()
    {
        var errors = Told.Errors("let a = 1\nif a > 0 {\n    load w {\n        full 3 gal\n    }\n}\nif w.full > 1 gal {\n    load v {\n        full 1 gal\n    }\n}\n");
        Assert.Equal([("WN1017", 7, 4)], errors.Select(e => (e.Code, e.Place.Line, e.Place.Column)));
    }

    [Theory]
    [InlineData("let a = 1\nlet a = 2\nrequire a > 0\n", "\"a\" is declared twice.", 2, 1)]
    [InlineData("let ply = 1\nrequire ply > 0\n" + Deck, "\"ply\" is declared twice.", 3, 1)]
    [InlineData(Deck + Ply, "\"ply\" is declared twice.", 8, 1)]
    [InlineData("function f(a, a) = a\nrequire f(1, 2) > 0\n", "\"a\" is declared twice.", 1, 1)]
    [InlineData("function min(a) = a\n", "min is a function of the language; choose another name.", 1, 1)]
    [InlineData("group g(a) {\n}\ngroup g(b) {\n}\nplace g(1) as h\n", "\"g\" is declared twice.", 3, 1)]
    [InlineData("for s in left, left {\n}\n", "\"left\" is declared twice.", 1, 1)]
    public void A_name_twice_is_told_with_both_places(string text, string message, int line, int first)
    {
        var error = Assert.Single(Told.Errors(text).Where(e => e.Code == "WN1005"));
        Assert.Equal((message, line), (error.Message, error.Place.Line));
        if (error.Related.Length > 0) Assert.Equal(first, error.Related[0].Place.Line);
    }

    [Theory]
    [InlineData("joint a.top to b.bottom\njoint b.bottom to a.top\n")]
    [InlineData("built a {\n}\nbuilt a {\n}\n")]
    [InlineData("camper \"A\" {\n}\ncamper \"B\" {\n}\n")]
    [InlineData("lift a {\n    carries {\n        b\n        b\n    }\n}\n")]
    [InlineData("load a {\n    full 1 gal\n    full 2 gal\n}\n")]
    [InlineData("panel a of deck {\n bevel left 10 deg\n bevel left 20 deg\n}\n")]
    [InlineData("panel a of deck {\n overhang rear by 1 in\n for e in front, rear {\n  overhang e by 2 in\n }\n}\n")]
    [InlineData("load bag {\n weighs 5 lb\n when ready 50 %\n when ready 70 %\n}\n")]
    [InlineData("built a {\n measured width 39 in\n measured width 38 in\n}\npanel a of deck {\n}\n")]
    [InlineData("default squeeze_out 0.3\ndefault squeeze_out 0.4\n")]
    [InlineData("camper \"A\" {\n exchange 1 EUR is 1.1 USD on 2026-01-05\n exchange 1 EUR is 1.2 USD on 2026-01-05\n}\n")]
    [InlineData("camper \"A\" {\n exchange 1 EUR is 1.1 USD on 2026-01-05\n exchange 1 USD is 0.8 EUR on 2026-01-05\n}\n")]
    [InlineData("panel a of deck {\n overhang rear by 1 in\n inset rear by 2 in\n}\n")]
    [InlineData("panel a of deck {\n inset all by 1 in\n overhang all by 2 in\n}\n")]
    public void A_fact_twice_is_told(string text) => Assert.Contains(SpecFindings(text), f => f.Code == "WN1010" && f.Related.Length == 1);

    [Theory]
    [InlineData("camper \"A\" {\n exchange 1 EUR is 1.1 USD on 2026-01-05\n exchange 1 EUR is 1.2 USD on 2026-02-05\n exchange 1 EUR is 1.6 CAD on 2026-01-05\n}\n")]
    [InlineData("panel a of deck {\n overhang all by 1 in\n inset rear by 2 in\n}\n")]
    public void What_differs_in_its_day_or_edge_is_no_fact_twice(string text) => Assert.DoesNotContain(SpecFindings(text), f => f.Code == "WN1010");

    /// <summary>In whatever order the rates are written: 10 EUR at 1.2 are 12 USD, and the older rate is a record.</summary>
    [Theory]
    [InlineData("exchange 1 EUR is 1.1 USD on 2026-01-05", "exchange 1 EUR is 1.2 USD on 2026-02-05")]
    [InlineData("exchange 1 EUR is 1.2 USD on 2026-02-05", "exchange 1 EUR is 1.1 USD on 2026-01-05")]
    [InlineData("exchange 1.2 USD is 1 EUR on 2026-02-05", "exchange 1 EUR is 1.1 USD on 2026-01-05")]
    public void Of_two_rates_the_later_counts(string one, string other) =>
        Assert.Equal(12, Told.Value($"camper \"A\" {{\n {one}\n {other}\n}}\nlet cost = 0 USD + 10 EUR\n", "cost").Value, 9);

    [Theory]
    [InlineData("adhesive", "an adhesive")]
    [InlineData("opening", "an opening")]
    [InlineData("unit", "a unit")]
    [InlineData("panel|mirror", "a panel|mirror")]
    public void A_kind_has_its_article(string kind, string said) => Assert.Equal(said, Core.Text.Article.With(kind));

    [Fact]
    public void The_kind_of_a_thing_is_told_with_its_article()
    {
        var told = SpecFindings("adhesive glue_a {\n}\nsheet ply {\n thickness 6 mm\n}\nstack deck {\n sheet ply\n}\njoint glue_a.left to glue_a.right {\n butt\n}\n");
        Assert.Contains(told, f => f.Message.EndsWith("is an adhesive.", StringComparison.Ordinal));
    }

    private static IEnumerable<Finding> SpecFindings(string text) => Told.By(text);

    [Fact]
    public void A_file_is_read_once_and_a_circle_is_told_with_its_chain()
    {
        Told.Bound("use \"m.wain\"\nuse \"b.wain\"\nrequire x > 0\n", ("m.wain", "use \"c.wain\"\n"), ("b.wain", "use \"c.wain\"\n"), ("c.wain", "let x = 1\n"));
        var errors = Told.Errors("use \"lib/b.wain\"\n", ("lib/b.wain", "use \"c.wain\"\n"), ("lib/c.wain", "use \"b.wain\"\n"));
        Assert.Equal(["Files in a circle: lib/b.wain uses lib/c.wain uses lib/b.wain."], errors.Select(e => e.Message));
        Assert.Equal("lib/c.wain", errors[0].Place.Source.Path);
        Assert.Equal(["Files in a circle: a.wain uses a.wain."], Told.Errors("use \"a.wain\"\n").Select(e => e.Message));
    }

    [Theory]
    [InlineData("use \"../b.wain\"\n", "\"../b.wain\" leads out of the spec's folder.")]
    [InlineData("use \"lib/../../b.wain\"\n", "\"lib/../../b.wain\" leads out of the spec's folder.")]
    [InlineData("use \"/etc/b.wain\"\n", "\"/etc/b.wain\" leads out of the spec's folder.")]
    [InlineData("use \"C:/b.wain\"\n", "\"C:/b.wain\" leads out of the spec's folder.")]
    [InlineData("use \"..\\\\b.wain\"\n", "\"..\\b.wain\" leads out of the spec's folder.")]
    [InlineData("use \"b.wain\"\nrequire x > 1\n", "\"b.wain\" can't be read: there is no such file.")]
    [InlineData("use b\n", "The name of a file is a text in quotes: use \"materials.wain\".")]
    [InlineData("if 1 > 0 {\n    use \"b.wain\"\n}\n", "\"use\" stands at the top of a file, outside of any if, for or group: which files there are can't hang on a value.")]
    public void A_file_that_cannot_be_used_is_one_finding(string text, string message) => Assert.Equal([message], Told.Errors(text).Select(e => e.Message));

    [Fact]
    public void A_mistake_in_a_used_file_is_told_there()
    {
        var error = Assert.Single(Told.Errors("use \"b.wain\"\nrequire x > 1\n", ("b.wain", "let x = = 2\n")));
        Assert.Equal(("b.wain", 1, 9), (error.Place.Source.Path, error.Place.Line, error.Place.Column));
    }

    [Theory]
    [InlineData("use \"b.wain\"\nset x = 3 in\nrequire x == 3 in\n", null)]
    [InlineData("use \"b.wain\"\nset x = 3 in\nset x = 4 in\nrequire x > 0 in\n", "\"x\" is set twice.")]
    [InlineData("use \"b.wain\"\nset wide = 3 in\nrequire x > 0 in\n", "There is no \"let wide\" for this to replace.")]
    [InlineData("let y = 1 in\nset y = 3 in\nrequire y > 0 in\n", "\"let y\" stands in this very file; change it there.")]
    [InlineData("use \"b.wain\"\nif x > 0 in {\n    set x = 3 in\n}\n", "\"set\" stands at the top of a file, outside of any block.")]
    public void Set_replaces_once(string text, string? message) =>
        Assert.Equal(message is null ? [] : [message], Told.Errors(text, ("b.wain", "let x = 2 in\n")).Select(e => e.Message));

    [Fact]
    public void A_value_may_be_given_from_outside()
    {
        var given = ((Core.Syntax.LetStatement)Told.Parsed("let q = 7 in").Statements[0]).Value;
        var found = Compiler.Compile(Told.Source("let a = 1 in\nlet b = 2 in\nrequire a < 5 in\n"), null, new Dictionary<string, Core.Syntax.Expression> { ["a"] = given, ["b"] = given }).Findings;
        Assert.Equal(["The requirement is not met: a is 7 in and should be less than 5 in, off by 2 in."], found.Select(f => f.Message));
    }

    [Fact]
    public void Groups_give_names_of_their_own_and_take_numbers_words_and_things()
    {
        string text = Deck + """
            group locker(side, width, of_stack) {
                let depth = width / 2
                load box {
                    at (0 in, if side == left then width else -width, depth)
                }
                level shelf at depth
                panel door of of_stack {
                    outside side
                }
            }
            for s in left, right {
                place locker(s, width = 18 in, of_stack = deck) as port[s]
            }
            require port_left_shelf == 9 in
            """;
        var spec = Told.Bound(text);
        Assert.Equal(["port_left_box", "port_left_door", "port_left_shelf", "port_right_box", "port_right_door", "port_right_shelf"], spec.Facts.Select(f => f.Name!).Where(n => n.StartsWith("port", StringComparison.Ordinal)).Order(StringComparer.Ordinal));
        Assert.Equal(-457.2, spec.Evaluator.Place(spec.Find("port_right_box")!.Find("at")!, "at")!.Value[1], 1e-9);
        Assert.Equal("right", spec.Find("port_right_door")!.Find("outside")!.Word("face"));
        Assert.Equal("deck", spec.Evaluator.Thing(spec.Find("port_right_door")!, "stack")!.Name);
    }

    /// <summary>A range is no one figure: a rule about it is told so at the rule, and nowhere else.</summary>
    [Fact]
    public void A_range_is_no_figure() =>
        Assert.Equal(["s has no figure named \"works\"."], Told.Errors("seal s { works between 1/4 in and 1/2 in }\nrequire s.works > 0 in\n").Select(e => e.Message));

    // Parts are named after the mark of their panel, and members and figures after the zone or opening that they belong to.
    [Theory]
    [InlineData("part_mark \"M1\"", "part_mark \"M1\"", "\"M1\" marks parts of both a and b.")]
    [InlineData("", "part_mark \"a\"", "\"a\" marks parts of both a and b.")]
    [InlineData("part_mark \"b\"", "", "\"b\" marks parts of both a and b.")]
    [InlineData("zone bay of deck from 5 in to 10 in along", "part_mark \"a.bay\"", "\"a.bay\" marks parts of both a and b.")]
    [InlineData("zone bay of deck from 5 in to 10 in along\nopening bay {\n size 4 in by 4 in\n lower left at (20 in, 5 in)\n}", "", "\"bay\" is declared twice.")]
    [InlineData("part_mark \"M1\"", "part_mark \"M2\"", null)]
    public void No_two_parts_have_one_mark(string first, string second, string? message)
    {
        string Panel(string name, int y, string facts) => $"panel {name} of deck {{\n through (0 in, {y} in, 0 in) along (-40 in, {y} in, 0 in) up (0 in, {y} in, 30 in)\n{facts}\n}}\n";
        var found = Compiler.Compile(Told.Source(Deck + Panel("a", 0, first) + Panel("b", 20, second) + "mirror b as c\n")).Findings.Where(f => f.Level == Core.Findings.Level.Error);
        Assert.Equal(message is null ? [] : [message], found.Select(f => f.Message));
    }

    [Fact]
    public void A_group_sees_the_parts_of_a_group_that_it_places()
    {
        string text = Deck + """
            group shelf(up) {
                level board at up
            }
            group rack(up) {
                place shelf(up) as lower
                for k in middle = up + 10 in, top = up + 20 in {
                    place shelf(k.value) as row[k]
                }
                level hook at lower_board + 2 in
                level rail at row_top_board + 1 in
            }
            group hall(up) {
                place rack(up) as left
                level lamp at left_row_middle_board + 5 in
            }
            place hall(30 in) as front
            require front_left_hook == 32 in and front_left_rail == 51 in and front_lamp == 45 in
            """;
        Assert.Empty(Told.Errors(text));
    }

    [Theory]
    [InlineData("locker(1 in)", "locker lacks its value \"b\". It reads: locker(a, b).")]
    [InlineData("locker(1 in, 2 in, 3 in)", "locker takes 2 values, and 3 are given. It reads: locker(a, b).")]
    [InlineData("locker(1 in, c = 2 in)", "locker has no value named \"c\". It reads: locker(a, b).")]
    [InlineData("locker(1 in, a = 2 in)", "\"a\" is given twice. It reads: locker(a, b).")]
    [InlineData("locker(b = 1 in, 2 in)", "After a value with a name, every value has one. It reads: locker(a, b).")]
    public void A_call_that_does_not_fit_is_told(string call, string message)
    {
        Assert.Equal([message], Told.Errors($"group locker(a, b) {{\n    level l at a + b\n}}\nplace {call} as x\n").Select(e => e.Message));
        Assert.Equal([message], Told.Errors($"function locker(a, b) = a + b\nrequire {call} > 0 in\n").Select(e => e.Message));
    }

    [Fact]
    public void Keys_of_a_loop_stand_in_names_and_carry_values()
    {
        string text = Deck + """
            for shelf in upper = 30 in, lower = 12 in {
                level rack[shelf] at shelf.value
                if shelf == upper {
                    level top at rack[shelf] + 1 in
                }
            }
            require rack_upper - rack_lower == 18 in
            require top == 31 in
            """;
        Assert.Equal(["rack_lower", "rack_upper", "top", "ply", "deck"], Names(text));
    }

    [Fact]
    public void A_mirror_is_a_thing_with_the_figures_of_the_first()
    {
        Told.Bound(Deck + "plan p {\n    start at (0 in, 10 in)\n    leg a run 20 in\n    leg b across 20 in\n    leg c run 20 in\n    leg d home\n}\npanel left of deck {\n    stands on p.a, from 0 in to 20 in\n    slope at least 2 deg\n}\nmirror left as right\nrequire right.slope == 2 deg\n");
        var error = Assert.Single(Told.Errors(Deck + "mirror deck as roof\n"));
        Assert.Equal("Only a panel or a load has a mirror; \"deck\" is a stack.", error.Message);
    }

    [Fact]
    public void What_is_never_used_is_told_but_not_what_is_set_from_outside()
    {
        var warnings = Told.By("let a = 1\nfunction f(x) = x\ngroup g(x) {\n}\n" + Deck + "let used = 1\nrequire used > 0\n").Where(f => f.Level == Level.Warning).Select(f => (f.Place.Line, f.Message));
        Assert.Equal([(1, "The value a is never used."), (2, "The function f is never used."), (3, "The group g is never used."), (9, "The stack deck is never used.")], warnings);
        var notes = Told.By("use \"b.wain\"\nrequire x > 0\n", ("b.wain", "let x = 1\nlet y = 1\nlet z = 1\n")).Where(f => f.Code == "WN1020").ToList();
        Assert.Equal([(Level.Note, "Of b.wain this spec does not use: y, z.")], notes.Select(f => (f.Level, f.Message)));
    }

    [Fact]
    public void A_fact_that_no_result_uses_is_kept_checked_and_told_once()
    {
        string text = "work sand {\n    takes 2 h\n}\nwork paint {\n    takes 3 h\n}\nrequire sand.takes < 9 h\n";
        // Bound alone, so that no pass has read anything.
        var notes = Told.Bound(text).Findings.Where(f => f.Code == "WN1022").ToList();
        Assert.Equal(["\"work\" is kept, and no result uses it."], notes.Select(f => f.Message));
        Assert.Equal("WN2002", Assert.Single(Told.Errors("work sand {\n    takes 2 in\n}\n")).Code);
    }
}
