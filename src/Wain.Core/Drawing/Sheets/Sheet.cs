using System.Collections.Immutable;

namespace Wain.Core.Drawing;

/// <param name="Width">mm.</param>
/// <param name="Height">mm.</param>
public sealed record Paper(string Name, double Width, double Height)
{
    /// <summary>8 1/2 in by 11 in, lying.</summary>
    public static readonly Paper Letter = new("letter", 279.4, 215.9);

    /// <summary>ISO 216 A4, lying.</summary>
    public static readonly Paper A4 = new("A4", 297, 210);

    /// <summary>ISO 216 A3, lying: for pictures on a screen that show more than a page holds.</summary>
    public static readonly Paper A3 = new("A3", 420, 297);

    public Paper Turned() => new(Name, Height, Width);
}

/// <summary>What a sheet says of itself. Empty texts leave their field out.</summary>
public sealed record TitleBlock
{
    public required string Name { get; init; }

    public string PartMark { get; init; } = "";

    /// <summary>Which face is shown, such as "seen from outside".</summary>
    public string View { get; init; } = "";

    public string Weight { get; init; } = "";

    public string Revision { get; init; } = "";

    /// <summary>Hash of the values that the sheet shows; its first 12 characters are printed.</summary>
    public string ValuesHash { get; init; } = "";

    /// <summary>Such as "3 of 12".</summary>
    public string Number { get; init; } = "";

    /// <summary>10 for 1:10; null for a sheet that is not to scale.</summary>
    public double? Scale { get; init; }

    /// <summary>Said once for all dimensions, such as "Dimensions in inches; in brackets millimetres".</summary>
    public string Units { get; init; } = "";

    /// <summary>True where all who use the sheet measure in millimetres: its scale bar is in them alone.</summary>
    public bool Metric { get; init; }

    /// <summary>One sentence or more that the reader must not miss.</summary>
    public string Caution { get; init; } = "";

    /// <summary>Errors that the drawing was made in spite of; any makes it a draft, and they are printed on it.</summary>
    public ImmutableArray<string> DraftErrors { get; init; } = [];

    public bool IsDraft => !DraftErrors.IsEmpty;
}

/// <summary>A sheet of paper with a drawing; <paramref name="Marks"/> lie within <see cref="SheetFrame.Area"/>, in mm on paper from the lower left corner.</summary>
public sealed record Sheet(Paper Paper, TitleBlock Title, ImmutableArray<Mark> Marks, string Description = "")
{
    public Picture ToPicture() => SheetFrame.Compose(this);
}
