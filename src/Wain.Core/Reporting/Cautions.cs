using System.Collections.Immutable;

namespace Wain.Core.Reporting;

/// <summary>What a person must read before building or driving. Every output that is built from carries these.</summary>
public static class Cautions
{
    public static readonly ImmutableArray<string> All =
    [
        "These are estimates for a design of your own. They are not certified engineering, and they take no account of what is built otherwise than drawn. Where life depends on a part, have it checked by someone licensed to do so, and follow the codes of the place.",
        "Weigh the truck and the camper, each axle by itself, loaded as you travel. Ratings on the truck's own labels rule over every figure here.",
        "Nobody goes under a roof that is up until it is propped by something that can't give way. Springs, actuators and cables fail.",
        "Lift and turn panels with enough hands or tackle. Tie the camper down at places made for it, and look at every tie before driving.",
        "Two-part foam gives off isocyanates while it is mixed and cut. Supplied air or the mask that its data sheet names, gloves and eye protection; hot foam can burn.",
        "Uncured epoxy can make a person allergic to it for life. No bare skin, no solvent on skin, good air.",
        "Dust of glass, fumed silica and wood harms the lungs. Mask, extraction, wet sanding where it can be done.",
        "Gas, heaters and batteries want vents, detectors and fittings by the code that holds for them, and a test before use.",
    ];
}
