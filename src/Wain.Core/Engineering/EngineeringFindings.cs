using Wain.Core.Findings;
using static Wain.Core.Engineering.ExampleSpecs;

namespace Wain.Core.Engineering;

/// <summary>What engineering finds: properties that are lacking, limits passed, water in walls, work that can't be done.</summary>
public static class EngineeringFindings
{
    public static readonly FindingInfo PropertyLacking = new("WN6001", "figure-lacks-property", Level.Warning, "A material does not state what an engineering figure needs",
        "That figure alone is missing; nothing is put in its place. A made-up stiffness or tightness looks like an answer and is none.",
        Plain.Replace("    shear_modulus 0.5 GPa\n", "", StringComparison.Ordinal) + "case people on deck { uniform 1000 Pa }\n", Strong + "case people on deck { uniform 1000 Pa }\n");

    public static readonly FindingInfo ImpossibleValue = new("WN6002", "impossible-value", Level.Error, "A value that can't be",
        "A rating of nothing or less is a slip of the pen; every limit that is checked against it would be wrong.",
        Truck("    gross_vehicle_rating 0 kg\n"), Truck("    gross_vehicle_rating 3000 kg\n"));

    public static readonly FindingInfo ImpossibleHumidity = new("WN6003", "impossible-humidity", Level.Error, "A humidity that can't be",
        "Relative humidity runs from just above nothing to 100 %. A slip here moves the dew point and hides water in a wall.",
        Plain + "night cold {\n    outside 20 degF, humidity 120 %\n    inside 60 degF, humidity 60 %\n}\n", Plain + "night cold {\n    outside 20 degF, humidity 80 %\n    inside 60 degF, humidity 60 %\n}\n");

    public static readonly FindingInfo GaugeAgainstDiameter = new("WN6004", "gauge-against-diameter", Level.Warning, "A screw's gauge and its diameter disagree",
        "A number of a wood screw stands for one diameter of its shank (ASME B18.6.1). Pilot holes, edge distances and what the screw holds all hang on it.",
        Plain + "screw number_8 {\n    gauge 8\n    diameter 0.19 in\n    length 2 in\n}\n", Plain + "screw number_8 {\n    gauge 8\n    diameter 0.164 in\n    length 2 in\n}\n");

    public static readonly FindingInfo LoadUnplaced = new("WN6010", "load-without-place", Level.Warning, "A load does not say where it is",
        "Its weight counts, yet the centre of gravity and the axle loads are worked without it and come out wrong by its share.",
        Plain + "load gear { weighs 50 kg }\n", Plain + "load gear {\n    weighs 50 kg\n    at (20 in, 0 in, 10 in)\n}\n");

    public static readonly FindingInfo TruckFactLacking = new("WN6101", "truck-fact-lacking", Level.Warning, "The truck does not state what axle loads need",
        "Axle loads come from the wheelbase, the place of the front axle and the empty axle loads; single tyres need the track as well. Without them the figures are missing.",
        Truck("").Replace("    wheelbase 3 m\n", "", StringComparison.Ordinal), Truck(""));

    public static readonly FindingInfo AxlesGuessed = new("WN6102", "axle-loads-guessed", Level.Note, "The empty axle loads are a guess",
        "Every axle load rests on them. Trucks of one model differ by hundreds of pounds; a public scale tells in ten minutes.",
        Truck("").Replace("weighed 2026-01-01", "guess", StringComparison.Ordinal), Truck(""));

    public static readonly FindingInfo RatingUnknown = new("WN6103", "rating-not-stated", Level.Note, "A rating of the truck is not stated",
        "What is not stated is not checked. Ratings stand on the door-pillar labels and in the truck maker's camper guide.",
        Truck("    gross_vehicle_rating 3000 kg\n"), Truck("    gross_vehicle_rating 3000 kg\n    front_axle_rating 1500 kg\n    rear_axle_rating 1800 kg\n    tyre_rating 1000 kg each\n    wheel_rating 1000 kg each\n    placard_payload 900 kg\n    cargo_rating 800 kg\n    centre_zone from -1 m to 1 m\n"));

    public static readonly FindingInfo LimitExceeded = new("WN6110", "rating-exceeded", Level.Error, "A rating of the truck is exceeded",
        "An overloaded axle, tyre or wheel fails without a warning, at speed, and takes others with it. Each rating stands by itself: one that is kept says nothing of another.",
        Truck("    gross_vehicle_rating 2000 kg\n"), Truck("    gross_vehicle_rating 3000 kg\n"));

    public static readonly FindingInfo OutsideZone = new("WN6111", "centre-outside-zone", Level.Error, "The cargo's centre of gravity is outside the maker's zone",
        "Inside the zone no axle rating is exceeded by cargo of the rated weight, and the steering keeps its load. Outside it the truck's maker promises nothing.",
        Truck("    centre_zone from -2 m to -1 m\n"), Truck("    centre_zone from -2 m to 1 m\n"));

    public static readonly FindingInfo SeatsAgainstRating = new("WN6114", "rating-over-seats", Level.Note, "The cargo rating stated is more than seats and ratings leave",
        "49 CFR 575.103 has a cargo weight rating as the gross rating less the empty vehicle and 150 lb for each designated seat. A rating above that is a slip, or is not that rating.",
        Truck("    gross_vehicle_rating 3000 kg\n    cargo_rating 1300 kg\n    seats 2\n"), Truck("    gross_vehicle_rating 3000 kg\n    cargo_rating 900 kg\n    seats 2\n"));

    public static readonly FindingInfo TieDownOver = new("WN6112", "tie-down-overloaded", Level.Warning, "A tie-down is asked for more than its rating",
        "An estimate by statics at the accelerations that road law uses as a yardstick; straps stretch and roads jolt, so the true force may be higher.",
        Truck(Straps("100 lbf")), Truck(Straps("1000 lbf")));

    public static readonly FindingInfo TieDownLoose = new("WN6113", "tie-down-loose", Level.Note, "No tie-down holds the camper in one direction",
        "A strap holds along its own line and only by a pull: one that runs straight up lets the camper slide until the bed stops it, and at an open tailgate nothing does.",
        Truck("    tie_down left at (-1 m, 0.9 m, 0 m)\n    tie_down right at (-1 m, -0.9 m, 0 m)\n"), Truck(Straps("1000 lbf")));

    public static readonly FindingInfo MountOver = new("WN6115", "mount-overloaded", Level.Warning, "A mount of the subframe is asked for more than its rating",
        "An estimate by statics at the accelerations that road law uses as a yardstick, with the camper ready to travel as one stiff body. The truck's frame twists and jolts add to it, so the true force may be higher.",
        Truck(Mounts("200 lbf")), Truck(Mounts("2000 lbf")));

    public static readonly FindingInfo NoTieDown = new("WN6116", "no-tie-down-hardware", Level.Warning, "A tie-down is held by something that takes no pull",
        "A hinge or a handle by the name of a tie-down is a slip; what holds a camper on a truck is made and rated for it.",
        HeldBy("handle"), HeldBy("tie_down"));

    public static readonly FindingInfo TieDownsTogether = new("WN6117", "tie-downs-together", Level.Warning, "Two tie-downs hold at one point of the truck",
        "Each is reckoned with its own force and rating, so that a camper which is held on one side alone looks held on both.",
        Truck("    tie_down left at (-1 m, 0.9 m, 0 m)\n    tie_down right at (-1 m, 0.9 m, 0 m)\n"), Truck("    tie_down left at (-1 m, 0.9 m, 0 m)\n    tie_down right at (-1 m, -0.9 m, 0 m)\n"));

    public static readonly FindingInfo LiftUnsteady = new("WN6201", "lift-unsteady", Level.Error, "The lift points can't hold what they lift",
        "The centre of what is lifted must lie well inside the points that hold it, and three points at least must not stand on one line. Otherwise the roof tips over them.",
        Lift(FrontPoints + MiddlePoints), Lift(FrontPoints + RearPoints));

    public static readonly FindingInfo PointFailureDrops = new("WN6202", "lift-point-failure", Level.Note, "If one lift point lets go the roof drops at that corner",
        "What is left can't hold the centre of the weight. The roof comes down on whoever is under it, so it is propped before anyone goes there.",
        Lift(FrontPoints + RearPoints), Lift(FrontPoints + MiddlePoints + RearPoints));

    public static readonly FindingInfo StrutsWeak = new("WN6203", "struts-weak", Level.Warning, "The struts have less in hand than is asked",
        "Struts lose gas with the years and about a third of a percent of force for each kelvin colder. Without a margin the roof sinks on the first cold night.",
        Struts("20 N", "    margin 20 %\n"), Struts("30 N", "    margin 20 %\n"));

    public static readonly FindingInfo StrutStroke = new("WN6204", "strut-stroke", Level.Warning, "A strut is moved by more than its stroke",
        "It would bottom out or pull apart before the roof is at the end of its travel.",
        Struts("30 N", stroke: "16 in"), Struts("30 N", stroke: "16 in", travel: "16 in"));

    public static readonly FindingInfo HandForce = new("WN6205", "hand-force", Level.Warning, "A person must push or pull more than the spec allows",
        "Struts that are too strong must be pulled down against their force, and struts that are too weak leave the rest to be lifted.",
        Struts("60 N", "    hand_force at most 20 lbf\n"), Struts("30 N", "    hand_force at most 20 lbf\n"));

    public static readonly FindingInfo StrutFailureSinks = new("WN6206", "strut-failure", Level.Note, "If one strut fails the rest do not hold the roof",
        "A gas spring pushes with what it has and takes over nothing from another, so with one gone the roof sinks and racks towards that corner; an actuator takes its share of what another leaves, up to what it gives. It can happen without a sign.",
        Struts("20 N"), Struts("30 N"));

    public static readonly FindingInfo NoCase = new("WN6301", "no-load-case", Level.Note, "A panel over or under people has no load case",
        "A bunk holds sleepers and a roof holds snow, or a person who clears it. Without a case nothing is said of whether they do.",
        Strong + "load sleepers {\n    weighs 150 kg\n    at (20 in, 0 in, 10 in)\n    people 2\n}\n", Strong + "load sleepers {\n    weighs 150 kg\n    at (20 in, 0 in, 10 in)\n    people 2\n}\ncase sleep on deck { uniform 100 Pa }\n");

    public static readonly FindingInfo CaseWithoutLoad = new("WN6302", "case-without-load", Level.Error, "A load case states no load",
        "It takes uniform, patch or wind.", Strong + "case people on deck { edges simple }\n", Strong + "case people on deck { uniform 100 Pa }\n");

    public static readonly FindingInfo SectionUnknown = new("WN6303", "section-unknown", Level.Warning, "A panel's section can't be worked",
        "An air space or an empty frame lets the skins slide past each other between members, and the layered section does not hold.",
        Strong.Replace("stack skin { sheet ply }", "stack skin {\n    sheet ply\n    air 20 mm\n    sheet ply\n}", StringComparison.Ordinal) + "case people on deck { uniform 100 Pa }\n", Strong + "case people on deck { uniform 100 Pa }\n");

    public static readonly FindingInfo NoAllowable = new("WN6304", "no-allowable", Level.Note, "A stress has no allowable to be held against",
        "The material states no strength, or no safety factor to divide it by. The stress is told and no margin: a factor that nobody chose is no factor.",
        Plain + "case people on deck { uniform 1000 Pa }\n", Strong + "case people on deck { uniform 1000 Pa }\n");

    public static readonly FindingInfo DeflectionOver = new("WN6310", "deflection-over-limit", Level.Warning, "A panel sags more than the spec allows",
        "Sag cracks fillets and coats, and water stands in it. The limit is the spec's own.",
        Strong + "case people on deck {\n    uniform 1500 Pa\n    deflection at most 1/400 of span\n}\n", Strong + "case people on deck {\n    uniform 100 Pa\n    deflection at most 1/100 of span\n}\n");

    public static readonly FindingInfo StressOver = new("WN6311", "stress-over-allowable", Level.Error, "A stress is above its allowable",
        "By this estimate the panel may break under the stated load. It is no certified engineering either way: where people depend on it, ask someone who is licensed.",
        Strong + "case people on deck { uniform 5000 Pa }\n", Strong + "case people on deck { uniform 100 Pa }\n");

    public static readonly FindingInfo NightIncomplete = new("WN6401", "night-incomplete", Level.Warning, "A night does not state its air",
        "Heat loss needs the temperature on both sides.", Plain + "night cold { outside 20 degF }\n", Plain + "night cold {\n    outside 20 degF\n    inside 60 degF\n}\n");

    public static readonly FindingInfo NightWarm = new("WN6407", "night-not-cold", Level.Warning, "A night is no colder outside than inside",
        "Nothing is lost on such a night, so no heater comes of it. Most often the sign or the unit of a temperature is a slip, or the two were changed round.",
        Night("70 degF, humidity 50 %", "60 degF, humidity 50 %"), Night("10 degF, humidity 50 %", "60 degF, humidity 30 %"));

    public static readonly FindingInfo WetSurface = new("WN6402", "wet-surface", Level.Warning, "Water stands on an inside surface on a stated night",
        "Where the surface is below the dew point of the air, breath and cooking run down it; mould follows within weeks.",
        Night("10 degF, humidity 80 %", "60 degF, humidity 80 %"), Night("10 degF, humidity 80 %", "60 degF, humidity 50 %"));

    public static readonly FindingInfo WetWithin = new("WN6403", "wet-within-wall", Level.Note, "Water gathers within a wall on a stated night",
        "Worked by steady diffusion from a dry start (ISO 13788), no air leaking through. A few grams dry by day; much more needs a tighter inside face.",
        Night("10 degF, humidity 80 %", "60 degF, humidity 50 %"), Night("50 degF, humidity 80 %", "60 degF, humidity 50 %"));

    public static readonly FindingInfo WetSeason = new("WN6404", "wet-in-season", Level.Note, "Water gathers within a wall and dries within the year",
        "Worked month by month by ISO 13788. Foam and cloth bear it; bare plywood that is wet for months rots.",
        Year(60), Year(30));

    public static readonly FindingInfo NeverDries = new("WN6405", "never-dries", Level.Warning, "Water gathers within a wall and does not dry within the year",
        "Each year adds to the last. The wall needs a tighter inside face, or an outside face that lets vapour go.",
        Year(60, warms: false), Year(60));

    public static readonly FindingInfo ClimateIncomplete = new("WN6406", "climate-incomplete", Level.Warning, "A climate has fewer than twelve months",
        "Moisture over a year needs all of it: what gathers in winter must dry in summer.",
        Plain + "climate coast { month january outside 38 degF 85 % inside 62 degF 55 % }\n",
        Plain + "climate coast {\n" + string.Concat(new[] { "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december" }.Select(m => $"    month {m} outside 60 degF 50 % inside 62 degF 50 %\n")) + "}\n");

    public static readonly FindingInfo CavityTooShallow = new("WN6501", "cavity-too-shallow", Level.Warning, "A cavity is too wide and shallow to pour",
        "Foam sets before it reaches the far corner of a thin wide space and leaves it empty, which no one sees. The limit is the material's own, common practice.",
        Poured("1/2 in", "23 in", 0), Poured("1/2 in", "23 in", 1));

    public static readonly FindingInfo CavityWide = new("WN6502", "cavity-wide", Level.Note, "A cavity is wider than its foam flows",
        "More than one pour hole fills it, or a member that parts it.",
        Poured("1 in", "40 in", 0), Poured("1 in", "40 in", 1));

    public static readonly FindingInfo TooHeavy = new("WN6601", "too-heavy-to-lift", Level.Warning, "A panel is heavier than the people at hand lift",
        "A dropped panel breaks feet and corners. The limit for one person is the shop's own, or 50 lb by common practice.",
        Plain + "shop {\n    person lifts 10 lb\n    people 1\n}\n", Plain + "shop {\n    person lifts 50 lb\n    people 2\n}\n");

    public static readonly FindingInfo DoorTooSmall = new("WN6602", "door-too-small", Level.Warning, "A panel does not go through the shop's door",
        "It would have to be built outside, or in two pieces.", Plain + "shop { door 30 in by 36 in }\n", Plain + "shop { door 30 in by 80 in }\n");

    public static readonly FindingInfo BenchTooSmall = new("WN6603", "bench-too-small", Level.Note, "A panel reaches over the bench",
        "Skins glue flat on what they lie on; a panel that hangs over the bench sets with its sag.", Plain + "shop { bench 30 in by 80 in }\n", Plain + "shop { bench 48 in by 96 in }\n");

    public static readonly FindingInfo WorkCycle = new("WN6701", "work-cycle", Level.Error, "Steps of work wait for each other in a circle",
        "None of them can ever begin.", Plain + "work first { after second }\nwork second { after first }\n", Plain + "work first { takes 1 h }\nwork second { after first }\n");

    public static readonly FindingInfo WorkUnknown = new("WN6702", "work-unknown", Level.Error, "There is no step of work of that name",
        "A step is named by what is done (coat), by panel and step (roof.coat), or by the name of a work block.", Plain + "work first { after skins }\n", Plain + "work first { after skin }\n");

    public static readonly FindingInfo ScrewSideClosed = new("WN6703", "screw-side-closed", Level.Warning, "Screws are driven from a side that is closed by then",
        "A driver and its bit must stand in line with the screw. Where a panel is in the way in every order of work, the screws can't be driven as the spec says.",
        Screwed("above"), Screwed("below"));

    public static readonly FindingInfo FaceUnreachable = new("WN6704", "face-unreachable", Level.Warning, "A face or corner can't be reached when its turn comes",
        "Cloth, fillets, tape and coats need a hand with a brush. What is fitted before closes the way to them.",
        Painted("2 in"), Painted("12 in"));
}
