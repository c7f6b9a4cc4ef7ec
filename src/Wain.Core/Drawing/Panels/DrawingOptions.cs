using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Model;

namespace Wain.Core.Drawing.Panels;

/// <summary>What the drawings of a design say beyond its geometry.</summary>
public sealed record DrawingOptions
{
    /// <summary>The camper's name.</summary>
    public required string Camper { get; init; }

    public string Revision { get; init; } = "";

    public string ValuesHash { get; init; } = "";

    /// <summary>Errors that stand; any makes every sheet a draft.</summary>
    public ImmutableArray<string> DraftErrors { get; init; } = [];

    /// <summary>Finished weight of a panel by name, kg; null where it is not known.</summary>
    public Func<string, double?> Mass { get; init; } = _ => null;

    public Paper Paper { get; init; } = Paper.Letter;

    /// <summary>Sheets, boards and sticks as they are cut, for these options; none without a plan.</summary>
    public Func<DrawingOptions, IEnumerable<LaidSheet>> Cutting { get; init; } = _ => [];

    /// <summary>The finest part of an inch on the sheets.</summary>
    public int Denominator { get; init; } = 16;

    /// <summary>True where the spec shows lengths in millimetres.</summary>
    public bool Metric { get; init; }

    /// <summary>True where the spec shows weights in kilograms.</summary>
    public bool Kilograms { get; init; }

    /// <summary>True if the sheets have lengths in the other unit in brackets.</summary>
    public bool Brackets { get; init; } = true;

    internal LengthFormat Plain => new(Metric ? LengthStyle.Millimetres : LengthStyle.Inches, Denominator, WithUnit: false);

    /// <summary>With the other unit in brackets.</summary>
    internal LengthFormat Both => Plain with { Style = Metric ? LengthStyle.MillimetresWithInches : LengthStyle.InchesWithMillimetres };

    internal string Length(double mm) => LengthText.Of(mm, Plain);

    /// <summary>A small thing: thickness, depth, drill.</summary>
    internal string Fine(double mm, int denominator = 32) => LengthText.Of(mm, Plain with { Denominator = denominator, MillimetreStep = 0.1 });

    internal string WithUnit(double mm) => LengthText.Of(mm, Plain with { WithUnit = true, MillimetreStep = 0.1 });

    /// <summary>How far off something comes out, finer than any tape.</summary>
    internal string Error(double mm) => Metric ? FormattableString.Invariant($"{mm:0.00} mm") : FormattableString.Invariant($"{mm / 25.4:0.000} in");
}

/// <summary>A sheet with the boxes of its labels, for who checks that none covers another.</summary>
/// <param name="Name">Of the file, without its ending: lower-case words joined by hyphens and underscores.</param>
public sealed record LaidSheet(string Name, Sheet Sheet, ImmutableArray<LabelBox> Labels)
{
    /// <summary>False if what is written beside the drawing found no room and follows on a sheet of its own.</summary>
    internal bool Complete { get; init; } = true;

    /// <summary>False if there are more notes beside the part than the sheet is high.</summary>
    internal bool NotesFit { get; init; } = true;
}

internal static class SheetWords
{
    private const double Pound = 0.45359237;

    private static string Units(DrawingOptions o) =>
        $"{(o.Metric ? "Millimetres" : "Inches")}, measured from the datum corner (circle){(o.Brackets ? $"; {Bracketed(o)}" : "")}. Check the scale {(o.Metric ? "bar" : "bars")} with a tape before you cut.";

    /// <summary>What stands in brackets, if anything does.</summary>
    public static string Bracketed(DrawingOptions o) => $"in brackets {(o.Metric ? "inches" : "millimetres")}, where the material is sold in them";

    public static TitleBlock Title(this DrawingOptions o, string name, string mark, string view, double? mass = null) => new()
    {
        Name = name,
        PartMark = mark,
        View = view,
        Weight = mass is { } kg ? o.Said(kg) : "",
        Revision = o.Revision,
        ValuesHash = o.ValuesHash,
        Units = Units(o),
        Metric = o.Metric,
        DraftErrors = o.DraftErrors,
    };

    /// <summary>A weight in the unit that the spec shows weights in.</summary>
    public static string Said(this DrawingOptions o, double kg) => o.Kilograms ? FormattableString.Invariant($"{kg:0.0} kg") : FormattableString.Invariant($"{kg / Pound:0.0} lb");

    /// <summary>A name as people read it.</summary>
    public static string Spoken(string name) => name.Replace('_', ' ').Replace('.', ' ');

    /// <summary>A count and what is counted: "2 pocket screws".</summary>
    public static string Several(int count, string what) => $"{count.ToString(System.Globalization.CultureInfo.InvariantCulture)} {what}{(count == 1 || what.EndsWith('s') ? "" : "s")}";

    /// <summary>From where a level panel is looked at, since "outside" of a floor is under it; empty for one that stands.</summary>
    public static string Side(PlacedPanel panel, bool outside) => !panel.IsLevel ? "" : panel.Face.N.Z > 0 == outside ? ", from above" : ", from below";

    /// <summary>True if the spec states a length in the unit that the sheets are not in: then it is sold so, and is checked with the other tape.</summary>
    public static bool InOtherUnit(Spec spec, BoundFact? fact, string slot, DrawingOptions options) =>
        fact is not null && fact.Has(slot) && spec.Evaluator.SlotSpan(fact, slot).Text.TrimEnd().EndsWith(options.Metric ? "in" : "mm", StringComparison.Ordinal);

    /// <summary>A layer's name as sold.</summary>
    public static string Sold(Material? material) => material switch
    {
        SheetMaterial { Called: { } called } => called,
        StickMaterial { Called: { } called } => called,
        { } any => Spoken(any.Name),
        null => "air",
    };
}
