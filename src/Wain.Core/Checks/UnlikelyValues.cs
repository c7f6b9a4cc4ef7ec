using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>What a spec states of the truck, the shop, the weather, loads and fastenings lies where such things lie at all.</summary>
public static class UnlikelyValues
{
    private const string Text = """
        sheet ply {
            thickness 12 mm
            size 48 in by 96 in
        }
        stack board { sheet ply }
        panel deck of board { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (60 in, 20 in, 0 in) }
        carrier truck {
            wheelbase BASE
            front_axle at 60 in
        }

        """;

    public static readonly FindingInfo Info = new("WN4135", "value-beyond-likely", Level.Error, "A stated value is far from what such a thing can be",
        "Most often the unit or the sign is a slip: feet for inches, Celsius for Fahrenheit, a place ahead of the origin written behind it. All that follows from it is wrong and stays silent until it is mended. The limits are wide and common practice: wheelbases 5 ft to 26 ft and tracks 3 ft to 10 ft, front axles ahead of the bed, cabs 3 ft to 10 ft wide and 20 in to 20 ft long, flanges of 1/16 in to 4 3/4 in, shops from 30 degF to 110 degF, people who lift 9 lb to 220 lb, nights of -76 degF to 122 degF outside and 32 degF to 95 degF inside, loads of 0.1 psf to 310 psf, travels 1 in to 8 ft, screws every 1/2 in to 40 in, fillets of 1/16 in to 3 in, taxes up to 40 % and margins up to 300 %, sags of 1/5000 to 1/20 of the span, benches and doors of 1 ft to 33 ft. What truly lies beyond can be accepted with its reason.",
        Text.With("BASE", "128 ft"), Text.With("BASE", "128 in"));

    /// <param name="Least">Of a length in mm, of anything else in base units.</param>
    /// <param name="Said">The limits in words.</param>
    /// <param name="Follows">Codes of what follows from it for the same thing.</param>
    private sealed record Range(string Block, string Keyword, string Slot, string What, double Least, double Most, Limits Said, ImmutableArray<string> Units, params ImmutableArray<string> Follows)
    {
        /// <summary>Slots whose unit changes with it.</summary>
        public ImmutableArray<string> Alike { get; init; } = [Slot];
    }

    private readonly record struct Limits(string Customary, string Metric);

    private static readonly ImmutableArray<Range> Ranges =
    [
        new("carrier", "wheelbase", "value", "wheelbase", 1_500, 8_000, new("60 in and 315 in", "1500 mm and 8000 mm"), UnitSlips.Lengths, "WN6110", "WN6111"),
        new("carrier", "track", "value", "track", 900, 3_000, new("36 in and 118 in", "900 mm and 3000 mm"), UnitSlips.Lengths, "WN6110"),
        new("carrier", "front_axle", "x", "place of the front axle", 100, 5_000, new("4 in and 196 in ahead of the origin", "100 mm and 5000 mm ahead of the origin"), UnitSlips.Lengths, "WN6110", "WN6111"),
        new("carrier", "cab", "width", "width of the cab", 900, 3_000, new("36 in and 118 in", "900 mm and 3000 mm"), UnitSlips.Lengths, "WN4402"),
        new("carrier", "cab", "length", "length of the cab", 500, 6_000, new("20 in and 236 in", "500 mm and 6000 mm"), UnitSlips.Lengths, "WN4402"),
        new("carrier", "cab", "roof", "height of the cab's roof", 100, 3_000, new("4 in and 118 in over the bed floor", "100 mm and 3000 mm over the bed floor"), UnitSlips.Lengths, "WN4402"),
        new("unit", "flange", "value", "flange", 1, 120, new("1/16 in and 4 3/4 in", "1 mm and 120 mm"), UnitSlips.Lengths, "WN4107"),
        new("shop", "temperature", "value", "temperature", 272, 317, new("30 degF and 110 degF", "-1 degC and 43 degC"), UnitSlips.Temperatures),
        new("shop", "person", "value", "weight that one person lifts", 4, 100, new("9 lb and 220 lb", "4 kg and 100 kg"), UnitSlips.Weights, "WN6601"),
        new("night", "outside", "temperature", "temperature outside", 213, 323, new("-76 degF and 122 degF", "-60 degC and 50 degC"), UnitSlips.Temperatures, "WN6402", "WN6403"),
        new("night", "inside", "temperature", "temperature inside", 273, 308.2, new("32 degF and 95 degF", "0 degC and 35 degC"), UnitSlips.Temperatures, "WN6402", "WN6403"),
        new("case", "uniform", "pressure", "load", 5, 15_000, new("0.1 psf and 310 psf", "5 Pa and 15 kPa"), UnitSlips.Pressures, "WN6304", "WN6310", "WN6311"),
        new("case", "deflection", "limit", "allowed sag", 1 / 5_000.0, 1 / 20.0, new("1/5000 and 1/20 of the span", "1/5000 and 1/20 of the span"), [], "WN6310"),
        new("shop", "bench", "length", "bench", 300, 10_000, new("1 ft and 33 ft", "300 mm and 10 m"), UnitSlips.Lengths, "WN6603") { Alike = ["length", "width"] },
        new("shop", "door", "width", "door", 300, 10_000, new("1 ft and 33 ft", "300 mm and 10 m"), UnitSlips.Lengths, "WN6602") { Alike = ["width", "height"] },
        new("camper", "tax", "share", "tax", 0, 0.4, new("0 % and 40 %", "0 % and 40 %"), []),
        new("lift", "margin", "value", "margin", 0, 3, new("0 % and 300 %", "0 % and 300 %"), [], "WN6203"),
        new("night", "margin", "value", "margin", 0, 3, new("0 % and 300 %", "0 % and 300 %"), []),
        new("lift", "travel", "value", "travel", 25, 2_500, new("1 in and 98 in", "25 mm and 2500 mm"), UnitSlips.Lengths, "WN4306", "WN4307"),
        new("joint", "screws", "every", "spacing of screws", 12.7, 1_016, new("1/2 in and 40 in", "13 mm and 1016 mm"), UnitSlips.Lengths, "WN4114", "WN4123"),
        new("joint", "fillet", "radius", "radius of the fillet", 1.5, 77, new("1/16 in and 3 in", "1.5 mm and 77 mm"), UnitSlips.Lengths),
    ];

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var e = input.Spec.Evaluator;
        foreach (var range in Ranges)
            foreach (var owner in input.Spec.All(range.Block))
                foreach (var fact in owner.All(range.Keyword))
                {
                    bool Fits(double value) => value >= range.Least * (1 - 1e-9) && value <= range.Most * (1 + 1e-9);
                    // What is nothing or less where it can't be is told by who needs it; a place may lie on either side.
                    if (!fact.Slots.TryGetValue(range.Slot, out var written) || e.Quantity(fact, range.Slot) is not { } value || Fits(UnitSlips.Base(value)) || value.Value <= 0 && range.Slot != "x") continue;
                    var place = e.SlotSpan(fact, range.Slot);
                    var sign = value.Value < 0 && Fits(-UnitSlips.Base(value)) ? Fixing.WithoutMinus(written.Terms[0]) : [];
                    yield return new Finding(Info, $"The {range.What} of {Name(input, owner)} is stated as {place.Text}; it lies between {Said(input, range)}.", place)
                    {
                        Subject = $"{Name(input, owner)}.{range.Keyword}",
                        Hint = range.Block == "night" && Exchanged(e, owner) ? "Inside and outside may have changed places; else look at the unit." : sign.IsEmpty ? "Look at the unit first." : "Look at the sign first: what lies forward counts up.",
                        // A bare 5 was meant as 5 %, and a limit of 180 was meant as one part in 180.
                        Fixes = range.Keyword == "deflection" && written.Terms[0] is NumberExpression && value.Value > 1 && Fits(1 / value.Value) ? [new Fix(place, "1/" + place.Text, $"write 1/{place.Text}")]
                            : range.Units.IsEmpty && written.Terms[0] is NumberExpression && Fits(value.Value / 100) ? [new Fix(place, place.Text + " %", $"write {place.Text} %")] : sign.IsEmpty ? Fixing.One(UnitSlips.Other(fact, range.Alike, range.Slot, range.Units, Fits)) : sign,
                    };
                }
    }

    private static string Said(CheckInput input, Range range) =>
        (range.Units == UnitSlips.Weights ? input.Say.Kilograms : input.Say.Metric) ? range.Said.Metric : range.Said.Customary;

    private static string Name(CheckInput input, BoundFact owner) => owner.Name ?? input.Structure.Joints.FirstOrDefault(j => j.Fact == owner && !j.Mirrored)?.Name ?? owner.Keyword;

    private static bool Exchanged(Evaluator e, BoundFact night) =>
        night.Find("inside") is { } i && night.Find("outside") is { } o && e.Quantity(i, "temperature") is { } inside && e.Quantity(o, "temperature") is { } outside && inside.Value < outside.Value;

    /// <summary>Without what follows from an unlikely value that is told and not accepted; what is accepted stays.</summary>
    public static ImmutableArray<Finding> WithoutFollowing(Spec spec, ImmutableArray<Finding> findings)
    {
        static bool Within(Span inner, Span outer) => inner.Source == outer.Source && inner.Start >= outer.Start && inner.End <= outer.End;
        // Screws closer than they are thick can't be at all, and that is told as such.
        bool Impossible(Finding unlikely) => findings.Any(f => f.Code == ScrewSpacing.Info.Code && f.Level == Level.Error && Within(unlikely.Place, f.Place));
        findings = [.. findings.Where(f => f.Code != Info.Code || !Impossible(f))];
        var causes = findings.Where(f => f.Code == Info.Code && f.AcceptedBecause is null).Select(f => f.Place).ToList();
        if (causes.Count == 0) return findings;
        var silent = (from range in Ranges from owner in spec.All(range.Block) where causes.Exists(c => owner.All(range.Keyword).Any(f => Within(c, f.Span)))
                      select (Owner: range.Block == "shop" ? null : owner, range.Follows)).ToList();
        return [.. findings.Where(f => f.AcceptedBecause is not null || !silent.Exists(s => s.Follows.Contains(f.Code) && (s.Owner is null || Within(f.Place, s.Owner.Span))))];
    }
}
