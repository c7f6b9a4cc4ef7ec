using Wain.Core.Findings;

namespace Wain.Core.Parsing;

/// <summary>What can be wrong with the text itself. Words, units and values are judged later.</summary>
public static class SyntaxFindings
{
    public static readonly FindingInfo NotText = new("WN0001", "not-text", Level.Error, "The file is not plain text",
        "A spec is UTF-8 text. A binary file or another encoding would be read as nonsense, so nothing of it is read.",
        "let caf\uFFFD = 3 in\nrequire caf\uFFFD > 1 in\n", "let cafe = 3 in\nrequire cafe > 1 in\n");

    public static readonly FindingInfo TooDeep = new("WN0002", "nested-too-deep", Level.Error, "Brackets or blocks are nested too deep",
        "More than 200 levels of brackets and blocks are a slip or an attack, never a camper. The limit keeps the program from running out of stack.",
        $"let a = {new string('(', 201)}1{new string(')', 201)}\nrequire a > 0\n", "let a = ((1))\nrequire a > 0\n");

    public static readonly FindingInfo Unexpected = new("WN0003", "unexpected-text", Level.Error, "Something stands where it can't",
        "The line can't be read. The rest of the spec is read all the same, so that one run shows every mistake.",
        "let width = = 3 in\nrequire width > 1 in\n", "let width = 3 in\nrequire width > 1 in\n");

    public static readonly FindingInfo Unclosed = new("WN0004", "not-closed", Level.Error, "A bracket, block or text is not closed",
        "What follows would be read as a part of it.",
        "let width = (3 in + 2 in\nrequire width > 1 in\n", "let width = (3 in + 2 in)\nrequire width > 1 in\n");

    public static readonly FindingInfo Unopened = new("WN0005", "not-opened", Level.Error, "A bracket closes what was never opened",
        "A bracket too many, or one forgotten above.",
        "let width = 3 in\n}\nrequire width > 1 in\n", "let width = 3 in\nrequire width > 1 in\n");

    public static readonly FindingInfo Spelling = new("WN0006", "number-spelling", Level.Error, "A number or measure is spelled in a way that can be misread",
        "Feet-and-inch marks, dashes before fractions, commas and bare points are read differently by different people. Each measure has one spelling.",
        "let height = 3-1/2 in\nrequire height > 1 in\n", "let height = 3 1/2 in\nrequire height > 1 in\n");

    public static readonly FindingInfo Division = new("WN0007", "division-by-measure", Level.Error, "Dividing by a number with a unit can be read in two ways",
        "x / 2 in could be half of x, in inches, or how many times 2 in goes into x. Brackets say which.",
        "let n = 10 in / 2 in\nrequire n > 1\n", "let n = 10 in / (2 in)\nrequire n > 1\n");

    public static readonly FindingInfo Sign = new("WN0008", "blanks-round-sign", Level.Error, "A minus or a stroke needs blanks round it",
        "a -b could be two values or a difference, a/b a name or a quotient. An operator has a blank on both sides; a sign has none after it.",
        "let a = 3 in\nlet b = a-1 in\nrequire b > 1 in\n", "let a = 3 in\nlet b = a - 1 in\nrequire b > 1 in\n");

    public static readonly FindingInfo BadNumber = new("WN0009", "number-out-of-range", Level.Error, "A number can't be held",
        "Division by zero in a fraction, or more digits than fit.",
        "let a = 0/0 in\nrequire a > 1 in\n", "let a = 1/2 in\nrequire a < 1 in\n");

    public static readonly FindingInfo TooLarge = new("WN0010", "file-too-large", Level.Error, "The text is too large",
        "A spec of more than 64 MB, a single fact of more than 100,000 words, or a word of more than 200 letters is a slip; reading it would take the machine's memory.",
        $"let {new string('a', 201)} = 1 in\n", $"let {new string('a', 20)} = 1 in\nrequire {new string('a', 20)} > 0 in\n");
}
