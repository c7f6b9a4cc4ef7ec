using Wain.Core.Findings;

namespace Wain.Core.Binding;

/// <summary>What can be wrong with names, facts, units and values.</summary>
public static class BindingFindings
{
    private const string Ply = "sheet ply { thickness 6 mm\n    size 48 in by 96 in }\n";

    private static string Post(string fact) => $"stick strip {{\n    section 3/4 in by 1 1/2 in\n    length 96 in\n{fact}}}\nstack framed {{\n    sheet ply\n    core frame of strip flat\n    sheet ply\n}}\npanel side of framed {{ through (0 in, 0 in, 0 in) along (40 in, 0 in, 0 in) up (0 in, 0 in, 20 in) }}\n";

    public static readonly FindingInfo UnknownFact = new("WN1001", "unknown-fact", Level.Error, "A fact begins with a word that has no meaning here",
        "Each block has its own keywords. A word that is none of them is most often a slip of the keys, and would be lost without a sound.",
        "sheet ply { thicknes 6 mm\n    size 48 in by 96 in }\nstack deck { sheet ply }\n", Ply + "stack deck { sheet ply }\n");

    public static readonly FindingInfo UnexpectedWords = new("WN1002", "words-not-understood", Level.Error, "A part of a fact is not understood",
        "Every word of a fact has an effect, so a word that fits nowhere is told instead of being passed over.",
        "sheet ply { thickness 6 mm nominal\n    size 48 in by 96 in }\nstack deck { sheet ply }\n", Ply + "stack deck { sheet ply }\n");

    public static readonly FindingInfo MissingPart = new("WN1003", "part-missing", Level.Error, "A fact lacks a part that it needs",
        "Half a fact says nothing.",
        "sheet ply { thickness 6 mm\n    size 48 in by }\nstack deck { sheet ply }\n", Ply + "stack deck { sheet ply }\n");

    public static readonly FindingInfo UnknownName = new("WN1004", "unknown-name", Level.Error, "A name is not declared",
        "Nothing of that name is in the spec or in the files that it uses.",
        Ply + "stack deck { sheet pley }\n", Ply + "stack deck { sheet ply }\n");

    public static readonly FindingInfo DoubleName = new("WN1005", "name-twice", Level.Error, "A name is given twice",
        "Two things of one name could not be told apart.",
        "let a = 1 in\nlet a = 2 in\nrequire a > 0 in\n", "let a = 1 in\nlet b = 2 in\nrequire a < b\n");

    public static readonly FindingInfo WrongThing = new("WN1006", "wrong-kind-of-thing", Level.Error, "A name stands for another kind of thing",
        "A stack is made of materials, a panel of a stack; the name given is something else.",
        Ply + "stack deck { sheet ply }\nstack roof { sheet deck }\n", Ply + "stack deck { sheet ply }\n");

    public static readonly FindingInfo Include = new("WN1007", "file-not-used", Level.Error, "A file named by \"use\" can't be used",
        "Files of a spec are named relative to the file that names them and stay inside the spec's folder, so that the folder can be copied whole.",
        "use \"../elsewhere/prices.wain\"\n", "let price = 42 USD\nrequire price > 0 USD\n");

    public static readonly FindingInfo IncludeCircle = new("WN1008", "files-in-a-circle", Level.Error, "Files use each other in a circle",
        "A file that uses itself, directly or by way of others, never ends.",
        "use \"example.wain\"\n", "let price = 42 USD\nrequire price > 0 USD\n");

    public static readonly FindingInfo FactTwice = new("WN1010", "fact-twice", Level.Error, "A fact is stated twice",
        "One of the two would be lost without a sound.",
        "sheet ply { thickness 6 mm\n    thickness 7 mm\n    size 48 in by 96 in }\nstack deck { sheet ply }\n", Ply + "stack deck { sheet ply }\n");

    public static readonly FindingInfo Circle = new("WN1011", "circle", Level.Error, "Values depend on each other in a circle",
        "Each waits for the other. The whole chain is shown; break it where a number is known.",
        "let a = b + 1 in\nlet b = a - 1 in\nrequire a > b\n", "let a = 2 in\nlet b = a - 1 in\nrequire a > b\n");

    public static readonly FindingInfo Call = new("WN1012", "call", Level.Error, "A function or group is called in a way that it can't be",
        "A function takes the values that its definition lists.",
        "function twice(x) = x * 2\nrequire twice(1, 2) > 1\n", "function twice(x) = x * 2\nrequire twice(1) > 1\n");

    public static readonly FindingInfo TooLong = new("WN1014", "spec-too-long", Level.Error, "The spec unfolds into too much",
        "Loops within loops, or functions that call functions without end. A camper has some hundreds of parts; the limits are stated and far above that.",
        "function rise(x) = rise(x + 1)\nrequire rise(1) > 0\n", "function rise(x) = x + 1\nrequire rise(1) > 0\n");

    public static readonly FindingInfo NoBlock = new("WN1015", "block-not-expected", Level.Error, "A block stands where none belongs, or is missing",
        "Only some facts have a block with facts of their own.",
        Ply + "stack deck\n", Ply + "stack deck { sheet ply }\n");

    public static readonly FindingInfo Set = new("WN1016", "set", Level.Error, "\"set\" replaces nothing, or twice",
        "set gives a number of an included file another value, once; it makes no new names.",
        "set a = 2 in\n", "let a = 2 in\nrequire a > 1 in\n");

    public static readonly FindingInfo Depends = new("WN1017", "depends-on-result", Level.Error, "What decides the parts depends on a result",
        "An if or for round declarations, and the keys of names, must be known before any panel is placed; a figure of a panel is known only after.",
        "let a = 1\nif a > 0 {\n    work sand { takes 2 h }\n}\nif sand.takes > 1 h {\n    work paint { takes 1 h }\n}\n", "let a = 1\nwork sand { takes 2 h }\nif sand.takes > a * 1 h {\n    work paint { takes 1 h }\n}\n");

    public static readonly FindingInfo Version = new("WN1018", "language-version", Level.Error, "The spec was written for another version of the language",
        "Words may have changed their meaning between versions, so a spec says which one it was written for.",
        "written for wain 2\n", "written for wain 1\n");

    public static readonly FindingInfo Unused = new("WN1020", "not-used", Level.Warning, "Something is declared and never used",
        "It may be left over, or the name that was meant to use it may be misspelled.",
        "let spare = 3 in\n", "let spare = 3 in\nrequire spare > 1 in\n");

    public static readonly FindingInfo NotComputed = new("WN1022", "fact-without-use", Level.Note, "A fact is kept but no result uses it",
        "It is checked, stands in the model and can be read by name; no pass computes with it yet.",
        Ply + Post("    kind softwood\n"), Ply + Post(""));

    public static readonly FindingInfo KindsDiffer = new("WN2001", "kinds-differ", Level.Error, "Two kinds of quantity meet",
        "A length and a weight can't be added or compared. The message names the two kinds.",
        "let a = 6 mm + 2 lb\nrequire a > 1 mm\n", "let a = 6 mm + 2 in\nrequire a > 1 mm\n");

    public static readonly FindingInfo Nothing = new("WN1023", "empty-spec", Level.Warning, "A spec says nothing",
        "An empty file, or one of remarks alone, is most often a wrong name or a save that went wrong. Nothing follows from it.",
        "-- sheets and panels come here\n", "let a = 1 in\nrequire a < 2 in\n");

    public static readonly FindingInfo WrongKind = new("WN2002", "wrong-kind", Level.Error, "A fact asks for another kind of quantity",
        "Each fact says what kind of quantity it takes; a bare number is a count or a ratio, never a length.",
        "sheet ply { thickness 6\n    size 48 in by 96 in }\nstack deck { sheet ply }\n", Ply + "stack deck { sheet ply }\n");

    public static readonly FindingInfo DivideByZero = new("WN2003", "division-by-zero", Level.Error, "Division by zero",
        "The result is no number.",
        "let a = 3 in / (1 - 1)\nrequire a > 1 in\n", "let a = 3 in / (2 - 1)\nrequire a > 1 in\n");

    public static readonly FindingInfo OutOfRange = new("WN2004", "value-out-of-range", Level.Error, "A value can't be",
        "A negative thickness or density, a share above one, the root of a negative number: the value can't stand for anything real.",
        "sheet ply { thickness -6 mm\n    size 48 in by 96 in }\nstack deck { sheet ply }\n", Ply + "stack deck { sheet ply }\n");

    public static readonly FindingInfo Overflow = new("WN2005", "overflow", Level.Error, "A value is too large to be held",
        "The number has grown past what a computer holds; some exponent or factor is not what was meant.",
        "let a = 10 ^ 900\nrequire a > 1\n", "let a = 10 ^ 9\nrequire a > 1\n");

    public static readonly FindingInfo ForceFromMass = new("WN2010", "mass-as-force", Level.Note, "A mass is taken as its weight",
        "lb is a mass and lbf a force. Where a force is asked, the weight of the mass under standard gravity is taken.",
        "hardware strut { force 50 lb }\n", "hardware strut { force 50 lbf }\n");

    public static readonly FindingInfo RequireFalse = new("WN2007", "requirement-not-met", Level.Error, "A requirement of the spec is not met",
        "The builder's own rule, with the two figures that it compares.",
        "let a = 3 in\nrequire a > 4 in, \"too short\"\n", "let a = 5 in\nrequire a > 4 in, \"too short\"\n");
}
