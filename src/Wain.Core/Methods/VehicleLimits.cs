using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>
/// What the truck's maker and the tyre and wheel makers allow, kg; null where not known. GVWR and GAWR as defined in 49 CFR 571.3;
/// the cargo weight rating and its centre-of-gravity zone as in 49 CFR 575.103(d).
/// </summary>
public sealed record VehicleRatings
{
    public double? Gvwr { get; init; }
    public double? FrontGawr { get; init; }
    public double? RearGawr { get; init; }

    /// <summary>Load limit of one tyre at the pressure used.</summary>
    public double? FrontTyre { get; init; }
    public double? RearTyre { get; init; }

    /// <summary>Load limit of one wheel (rim).</summary>
    public double? FrontWheel { get; init; }
    public double? RearWheel { get; init; }

    public int FrontTyres { get; init; } = 2;
    public int RearTyres { get; init; } = 2;

    /// <summary>"The combined weight of occupants and cargo should never exceed", from the tyre placard: people count.</summary>
    public double? PlacardPayload { get; init; }

    /// <summary>Cargo weight rating: people in designated seats do not count.</summary>
    public double? CargoWeightRating { get; init; }

    /// <summary>Zone for the centre of the cargo, x of its rear and front end, m, in the axes of the masses.</summary>
    public (double Rear, double Front)? CargoZone { get; init; }
}

/// <summary>A truck as weighed and what is put on it. Masses in kg at points in m, x forward.</summary>
/// <param name="AsWeighed">Axle loads from the scale, kg.</param>
/// <param name="FrontAxleX">Where the front axle is, m.</param>
/// <param name="RearAxleX">Where the rear axle is, m, less than the front axle.</param>
/// <param name="Track">Between the wheel centre lines, m.</param>
public sealed record VehicleLoading(AxleLoads AsWeighed, double FrontAxleX, double RearAxleX, double Track)
{
    /// <summary>People who sat in the truck on the scale, kg: already in the axle loads, yet they count against the placard.</summary>
    public double PeopleWeighed { get; init; }

    /// <summary>Added equipment that was on the truck on the scale, kg: already in the axle loads, yet it counts against placard and cargo rating.</summary>
    public double EquipmentWeighed { get; init; }

    /// <summary>People added after the scale.</summary>
    public ImmutableArray<MassAt> People { get; init; } = [];

    /// <summary>The camper with all that is in it, and any other cargo.</summary>
    public ImmutableArray<MassAt> Cargo { get; init; } = [];
}

/// <summary>One limit on its own terms.</summary>
/// <param name="Load">What counts against it, kg.</param>
/// <param name="Limit">kg.</param>
/// <param name="Room">How much more cargo at the present centre of the cargo the limit allows, kg; negative if it is exceeded; null if such cargo adds nothing to it.</param>
/// <param name="Terms">What counts, in words.</param>
public sealed record LimitCheck(string Name, double Load, double Limit, double? Room, string Terms)
{
    public double Margin => Limit - Load;

    /// <summary>1 is full.</summary>
    public double Use => Load / Limit;

    public bool Exceeded => Load > Limit;
}

/// <summary>Where the centre of the cargo lies against the maker's zone, m.</summary>
/// <param name="ToRear">How far ahead of the rear end of the zone; negative if behind it.</param>
/// <param name="ToFront">How far behind the front end of the zone; negative if ahead of it.</param>
public sealed record ZoneCheck(double CentreX, double ToRear, double ToFront)
{
    public bool Inside => ToRear >= 0 && ToFront >= 0;
}

/// <summary>All limits of one state.</summary>
/// <param name="Tightest">The limit that adding cargo where the cargo is now would reach first; null if no rating is known.</param>
/// <param name="NotKnown">Ratings that were not given, by name.</param>
public sealed record LimitReport(AxleLoads Axles, ImmutableArray<LimitCheck> Checks, LimitCheck? Tightest, ZoneCheck? Zone, ImmutableArray<string> NotKnown);

/// <summary>Checks each limit of a truck on its own terms, since one says nothing about another (49 CFR 571.3, 575.103 and 571.110).</summary>
public static class VehicleLimits
{
    /// <summary>
    /// Axle loads by statics, wheels by the side-to-side centre, and each known rating against what counts for it. Tyre and wheel limits are
    /// checked on the more heavily loaded side, taking the load of a side as shared evenly by its tyres.
    /// </summary>
    public static Result<LimitReport> Check(VehicleRatings ratings, VehicleLoading loading)
    {
        var wheelbase = loading.FrontAxleX - loading.RearAxleX;
        if (Need.All(
            Need.Positive(loading.AsWeighed.Front, "the weighed front axle load"), Need.Positive(loading.AsWeighed.Rear, "the weighed rear axle load"),
            Need.Positive(wheelbase, "the wheelbase"), Need.Positive(loading.Track, "the track"),
            Need.NotNegative(loading.PeopleWeighed, "the weight of people on the scale"), Need.NotNegative(loading.EquipmentWeighed, "the weight of added equipment"),
            Need.Each(loading.People.Concat(loading.Cargo), m => Need.All(Need.NotNegative(m.Mass, "a mass"), Need.Finite(m.X + m.Y + m.Z, "the place of a mass"))),
            Need.That(ratings.FrontTyres >= 2 && ratings.RearTyres >= 2 && ratings.FrontTyres % 2 == 0 && ratings.RearTyres % 2 == 0, "an axle has an even number of tyres"),
            Need.Each(Known(ratings), r => Need.Positive(r, "a rating"))) is { } why)
        {
            return new Missing(why);
        }

        var added = loading.People.Concat(loading.Cargo).ToArray();
        double RearShare(double x) => (loading.FrontAxleX - x) / wheelbase;
        var rear = loading.AsWeighed.Rear + added.Sum(m => m.Mass * RearShare(m.X));
        var axles = new AxleLoads(loading.AsWeighed.Total + added.Sum(m => m.Mass) - rear, rear);
        var rearMoment = added.Sum(m => m.Mass * RearShare(m.X) * m.Y);
        var frontMoment = added.Sum(m => m.Mass * m.Y) - rearMoment;
        double HeavySide(double axle, double moment) => axle / 2 + Math.Abs(moment) / loading.Track;

        var cargo = loading.Cargo.Sum(m => m.Mass);
        var cargoX = cargo > 0 ? loading.Cargo.Sum(m => m.Mass * m.X) / cargo : (double?)null;
        var cargoY = cargo > 0 ? loading.Cargo.Sum(m => m.Mass * m.Y) / cargo : 0;
        var rearGain = RearShare(cargoX ?? loading.RearAxleX);
        double Gain(double share, double moment) => share / 2 + share * cargoY * Math.Sign(moment == 0 ? cargoY : moment) / loading.Track;

        var people = loading.PeopleWeighed + loading.People.Sum(m => m.Mass);
        var checks = ImmutableArray.CreateBuilder<LimitCheck>();
        var unknown = ImmutableArray.CreateBuilder<string>();
        void Add(string name, double? limit, double load, double gain, string terms)
        {
            if (limit is { } known)
            {
                checks.Add(new(name, load, known, gain > 1e-9 ? (known - load) / gain : null, terms));
            }
            else
            {
                unknown.Add(name);
            }
        }

        Add("GVWR", ratings.Gvwr, axles.Total, 1, "the whole loaded vehicle, people and fuel included");
        Add("front GAWR", ratings.FrontGawr, axles.Front, 1 - rearGain, "front axle at the ground");
        Add("rear GAWR", ratings.RearGawr, axles.Rear, rearGain, "rear axle at the ground");
        var perFront = 2.0 / ratings.FrontTyres;
        var perRear = 2.0 / ratings.RearTyres;
        const string Side = "one tyre of the heavier side";
        Add("front tyre", ratings.FrontTyre, HeavySide(axles.Front, frontMoment) * perFront, Gain(1 - rearGain, frontMoment) * perFront, Side);
        Add("rear tyre", ratings.RearTyre, HeavySide(axles.Rear, rearMoment) * perRear, Gain(rearGain, rearMoment) * perRear, Side);
        Add("front wheel", ratings.FrontWheel, HeavySide(axles.Front, frontMoment) * perFront, Gain(1 - rearGain, frontMoment) * perFront, "one wheel of the heavier side");
        Add("rear wheel", ratings.RearWheel, HeavySide(axles.Rear, rearMoment) * perRear, Gain(rearGain, rearMoment) * perRear, "one wheel of the heavier side");
        Add("placard payload", ratings.PlacardPayload, people + loading.EquipmentWeighed + cargo, 1, "people and cargo, added equipment included");
        Add("cargo weight rating", ratings.CargoWeightRating, loading.EquipmentWeighed + cargo, 1, "cargo and added equipment; people in seats are not counted");

        ZoneCheck? zone = null;
        if (ratings.CargoZone is { } limits && cargoX is { } centre)
        {
            zone = new(centre, centre - limits.Rear, limits.Front - centre);
        }
        else if (ratings.CargoZone is null)
        {
            unknown.Add("cargo centre-of-gravity zone");
        }

        var tightest = checks.MinBy(c => c.Room ?? (c.Exceeded ? double.NegativeInfinity : double.PositiveInfinity));
        return new LimitReport(axles, checks.ToImmutable(), tightest, zone, unknown.ToImmutable());
    }

    private static IEnumerable<double> Known(VehicleRatings r) =>
        new[] { r.Gvwr, r.FrontGawr, r.RearGawr, r.FrontTyre, r.RearTyre, r.FrontWheel, r.RearWheel, r.PlacardPayload, r.CargoWeightRating }.OfType<double>();
}
