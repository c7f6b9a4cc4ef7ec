using Wain.Core.Text;
using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Takeoff;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

/// <summary>The truck in one state: what the axles carry (kg) and every limit on its own terms.</summary>
public sealed record StateBalance(LoadState State, LimitReport Limits, SideLoads? Front, SideLoads? Rear)
{
    /// <summary>What the front axle bears with how far the spread of the weights moves it, kg; likewise the rear axle and both. The empty truck and its people have no spread.</summary>
    public required Spread FrontSpread { get; init; }

    public required Spread RearSpread { get; init; }

    public required Spread TotalSpread { get; init; }
}

/// <summary>The camper on its truck.</summary>
/// <param name="IsSlideIn">False for one that is mounted on the chassis: 49 CFR 575.103 does not speak of it.</param>
public sealed record BalanceResult(string Carrier, bool IsSlideIn, BoundFact Fact, ImmutableArray<StateBalance> States, VehicleRatings Ratings, double FrontAxle, double RearAxle, ImmutableArray<TieDownRow> TieDowns)
{
    public StateBalance? In(LoadState state) => States.FirstOrDefault(s => s.State == state);
}

/// <summary>Axle loads, ratings, side to side, tie-downs.</summary>
internal static class Balance
{
    public static BalanceResult? Of(Ledger ledger, MassModel masses)
    {
        var fact = ledger.Spec.All("carrier").FirstOrDefault(f => f.Name is not null);
        if (fact is null) return null;
        string name = fact.Name!;
        var ratings = Ratings(ledger, fact);
        bool slideIn = fact.Find("kind")?.Word("kind") != "subframe";
        double? wheelbase = ledger.Stated(name + ".wheelbase", fact.Find("wheelbase"), "value"), frontAxle = ledger.Stated(name + ".front_axle", fact.Find("front_axle"), "x");
        var empty = fact.Find("empty");
        double? front = ledger.Stated(name + ".empty_front", empty, "front"), rear = ledger.Stated(name + ".empty_rear", empty, "rear");
        if (empty is not null && empty.Says("guess"))
            ledger.Tell(EngineeringFindings.AxlesGuessed, $"The empty axle loads of {name} are a guess{(ledger.Evaluator.Text(empty, "with") is { } with ? $", with {with}" : "")}.", empty.Span, name + ".empty", "Weigh the truck, each axle by itself, and write the figures with the day.");
        foreach (var (what, value) in new[] { ("wheelbase", wheelbase), ("front_axle at", frontAxle), ("empty front ... rear ...", front is null || rear is null ? null : front) })
        {
            if (value is not null) continue;
            ledger.Tell(EngineeringFindings.TruckFactLacking, $"{name} does not state its {what}, so no axle load can be had.", fact.NameSpan, $"{name}.{what.Split(' ')[0]}");
            ledger.Lack(name + ".front_axle_load", $"{name} does not state its {what}", fact.NameSpan);
            ledger.Lack(name + ".rear_axle_load", $"{name} does not state its {what}", fact.NameSpan);
        }
        Seats(ledger, fact, front, rear, ratings);
        Heights(ledger, fact);
        var ties = TieDowns.Of(ledger, masses, fact);
        TieDowns.TellLoose(ledger, fact, ties);
        Mounts.Judge(ledger, masses, fact);
        if (wheelbase is not > 0 || frontAxle is null || front is null || rear is null) return new BalanceResult(name, slideIn, fact, [], ratings, frontAxle ?? 0, 0, ties);
        double? track = ledger.Stated(name + ".track", fact.Find("track"), "value");
        if (track is not > 0)
        {
            ledger.Tell(EngineeringFindings.TruckFactLacking, $"{name} does not state its track, so nothing can be said of single tyres and wheels.", fact.NameSpan, name + ".track", $"Add a line such as: track {ledger.Say.Such("62 in", "1600 mm")}.");
            ratings = ratings with { FrontTyre = null, RearTyre = null, FrontWheel = null, RearWheel = null };
        }
        var states = ImmutableArray.CreateBuilder<StateBalance>();
        foreach (var (state, _) in masses.States)
        {
            var loading = new VehicleLoading(new AxleLoads(front.Value, rear.Value), frontAxle.Value, frontAxle.Value - wheelbase.Value, track is > 0 ? track.Value : 1)
            {
                People = People(ledger, masses, fact, state),
                Cargo = Cargo(masses, state),
            };
            var checkd = VehicleLimits.Check(ratings, loading);
            if (!checkd.TryGet(out var report))
            {
                ledger.Lack($"{name}.front_axle_load_{Word(state)}", checkd.Reason!, fact.NameSpan);
                continue;
            }
            var balance = new StateBalance(state, report, Sides(loading, report, track, rearAxle: false), Sides(loading, report, track, rearAxle: true))
            {
                FrontSpread = Around(report.Axles.Front, masses, state, x => 1 - (frontAxle.Value - x) / wheelbase.Value),
                RearSpread = Around(report.Axles.Rear, masses, state, x => (frontAxle.Value - x) / wheelbase.Value),
                TotalSpread = Around(report.Axles.Total, masses, state, _ => 1),
            };
            states.Add(balance);
            AddFigures(ledger, fact, balance, fact.Find("people") is not null && !masses.Loads.Any(l => l.Load.IsPeople && l.Load.ShareIn(state) > 0));
        }
        var result = new BalanceResult(name, slideIn, fact, states.ToImmutable(), ratings, frontAxle.Value, frontAxle.Value - wheelbase.Value, ties);
        Judge(ledger, result);
        return result;
    }

    /// <summary>A load with its spread: each weight moves it by the share that it bears at its place (m). What shares a cause moves together, causes are independent.</summary>
    private static Spread Around(double load, MassModel masses, LoadState state, Func<double, double> share)
    {
        var parts = new List<CausedSpread>();
        void Take(PlacedMass mass, double aboard)
        {
            double k = aboard * share(mass.At.X / 1000);
            foreach (var part in mass.Parts)
                if (part.Value.Above > 0 || part.Value.Below > 0) parts.Add(part with { Value = k >= 0 ? new Spread(k * part.Value.Low, k * part.Value.Likely, k * part.Value.High) : new Spread(k * part.Value.High, k * part.Value.Likely, k * part.Value.Low) });
        }
        foreach (var mass in masses.Masses) Take(mass, 1);
        foreach (var (carried, mass) in masses.Loads) if (carried.ShareIn(state) is > 0 and var aboard) Take(mass, aboard);
        var sum = Spreads.SumByCause(parts);
        return new Spread(load - sum.Below, load, load + sum.Above);
    }

    private static string Word(LoadState state) => state.ToString().ToLowerInvariant();

    private static VehicleRatings Ratings(Ledger ledger, BoundFact fact)
    {
        double? Rating(string keyword)
        {
            double? value = ledger.Stated($"{fact.Name}.{keyword}", fact.Find(keyword), "value");
            if (value is null or > 0) return value;
            ledger.Tell(EngineeringFindings.ImpossibleValue, $"{fact.Name}.{keyword} must be above zero.", fact.Find(keyword)!.Span, $"{fact.Name}.{keyword}");
            return null;
        }
        var zone = fact.Find("centre_zone");
        double? from = ledger.Stated(fact.Name + ".centre_zone_from", zone, "from"), to = ledger.Stated(fact.Name + ".centre_zone_to", zone, "to");
        double? tyre = Rating("tyre_rating"), wheel = Rating("wheel_rating");
        return new VehicleRatings
        {
            Gvwr = Rating("gross_vehicle_rating"), FrontGawr = Rating("front_axle_rating"), RearGawr = Rating("rear_axle_rating"),
            FrontTyre = tyre, RearTyre = tyre, FrontWheel = wheel, RearWheel = wheel,
            PlacardPayload = Rating("placard_payload"), CargoWeightRating = Rating("cargo_rating"),
            CargoZone = from is { } a && to is { } b ? (Math.Min(a, b), Math.Max(a, b)) : null,
        };
    }

    // Where people sleep in the camper they have left the cab.
    private static ImmutableArray<MassAt> People(Ledger ledger, MassModel masses, BoundFact fact, LoadState state)
    {
        var aboard = masses.Loads.Where(l => l.Load.IsPeople && l.Load.ShareIn(state) > 0).Select(l => Place(masses.Place(l.Mass, state), l.Mass.Likely * l.Load.ShareIn(state))).ToImmutableArray();
        if (!aboard.IsEmpty || fact.Find("people") is not { } people) return aboard;
        double count = ledger.Stated(fact.Name + ".people", people, "count") ?? 0, each = ledger.Stated(fact.Name + ".people_each", people, "each") ?? 0, x = ledger.Stated(fact.Name + ".people_at", people, "x") ?? 0;
        return [new MassAt(count * each, x, 0, 0.5)];
    }

    private static ImmutableArray<MassAt> Cargo(MassModel masses, LoadState state)
    {
        var things = masses.Masses.Select(m => (Mass: m, Share: 1.0)).Concat(masses.Loads.Where(l => !l.Load.IsPeople).Select(l => (l.Mass, Share: l.Load.ShareIn(state)))).Where(m => m.Share > 0);
        var shares = things.ToDictionary(t => t.Mass, t => t.Share, (IEqualityComparer<PlacedMass>)ReferenceEqualityComparer.Instance);
        var sum = MassModel.Sum([.. shares.Keys], m => masses.Place(m, state), m => shares[m]);
        return sum is null ? [] : [new MassAt(sum.Weight.Likely, sum.Centre.X / 1000, sum.Centre.Y / 1000, sum.Centre.Z / 1000)];
    }

    private static MassAt Place(Vec3 at, double kg) => new(kg, at.X / 1000, at.Y / 1000, at.Z / 1000);

    private static SideLoads? Sides(VehicleLoading loading, LimitReport report, double? track, bool rearAxle)
    {
        if (track is not > 0) return null;
        double wheelbase = loading.FrontAxleX - loading.RearAxleX, load = rearAxle ? report.Axles.Rear : report.Axles.Front;
        double moment = loading.People.Concat(loading.Cargo).Sum(m => m.Mass * m.Y * (rearAxle ? (loading.FrontAxleX - m.X) / wheelbase : 1 - (loading.FrontAxleX - m.X) / wheelbase));
        return load > 0 && Statics.Sides(load, moment / load, track.Value).TryGet(out var sides) ? sides : null;
    }

    private static void AddFigures(Ledger ledger, BoundFact fact, StateBalance balance, bool peopleInCab)
    {
        string name = fact.Name!, word = Word(balance.State);
        ImmutableArray<string> inputs = [name + ".empty_front", name + ".empty_rear", name + ".wheelbase", name + ".front_axle", "total.weight_" + word, "total.centre_x_" + word];
        string behind = $"({name}.front_axle - total.centre_x_{word}) / {name}.wheelbase", rear_ = $"{name}.empty_rear + total.weight_{word} * {behind}", front_ = $"{name}.empty_front + total.weight_{word} * (1 - {behind})";
        if (peopleInCab)
        {
            string each = $"{name}.people * {name}.people_each", seat = $"({name}.front_axle - {name}.people_at) / {name}.wheelbase";
            (rear_, front_) = ($"{rear_} + {each} * {seat}", $"{front_} + {each} * (1 - {seat})");
            inputs = [.. inputs, name + ".people", name + ".people_each", name + ".people_at"];
        }
        ledger.Add($"{name}.front_axle_load_{word}", balance.FrontSpread, Dimension.OfMass, fact.NameSpan, front_, inputs);
        ledger.Add($"{name}.rear_axle_load_{word}", balance.RearSpread, Dimension.OfMass, fact.NameSpan, rear_, inputs);
        ledger.Add($"{name}.gross_load_{word}", balance.TotalSpread, Dimension.OfMass, fact.NameSpan, $"{name}.front_axle_load_{word} + {name}.rear_axle_load_{word}", [$"{name}.front_axle_load_{word}", $"{name}.rear_axle_load_{word}"]);
        foreach (var check in balance.Limits.Checks)
        {
            string key = check.Name.ToLowerInvariant().Replace(' ', '_');
            ledger.Add($"{name}.{key}_margin_{word}", check.Margin, Dimension.OfMass, fact.NameSpan, $"{check.Name} - load = {ledger.Say.Weight(check.Limit)} - {ledger.Say.Weight(check.Load)}; the load is {check.Terms}", [$"{name}.front_axle_load_{word}", $"{name}.rear_axle_load_{word}", $"{name}.gross_load_{word}"]);
        }
        if (balance.Rear is { } rear) ledger.Add($"{name}.rear_left_load_{word}", rear.Left, Dimension.OfMass, fact.NameSpan, $"{name}.rear_axle_load_{word} / 2 + total.weight_{word} * total.centre_y_{word} / {name}.track, by the share that the rear axle bears", [$"{name}.rear_axle_load_{word}", "total.centre_y_" + word, name + ".track"]);
    }

    private static void Judge(Ledger ledger, BalanceResult result)
    {
        string name = result.Carrier;
        foreach (var group in result.States.SelectMany(s => s.Limits.Checks.Where(c => c.Exceeded).Select(c => (s.State, Check: c))).GroupBy(x => x.Check.Name))
        {
            var worst = group.MaxBy(x => x.Check.Use);
            string others = group.Count() > 1 ? $" (also {string.Join(", ", group.Where(g => g.State != worst.State).Select(g => Word(g.State)))})" : "";
            ledger.Tell(EngineeringFindings.LimitExceeded, $"{Word(worst.State)}{others}: {ledger.Say.Weight(worst.Check.Load)} against the {worst.Check.Name} of {ledger.Say.Weight(worst.Check.Limit)}, {ledger.Say.Weight(-worst.Check.Margin)} too much ({worst.Check.Terms}).", FactOf(result.Fact, worst.Check.Name)?.Span ?? result.Fact.NameSpan,
                $"{name}.{worst.Check.Name.ToLowerInvariant().Replace(' ', '_')}", "Take weight out, move it, or use a truck that is rated for it. Do not drive it so.");
        }
        foreach (var state in result.States)
        {
            if (state.State is not (LoadState.Dry or LoadState.Ready) || state.Limits.Zone is not { Inside: false } zone) continue;
            double off = -Math.Min(zone.ToRear, zone.ToFront) * 1000;
            ledger.Tell(EngineeringFindings.OutsideZone, $"{Word(state.State)}: the centre of gravity of the cargo lies {ledger.Say.Length(Math.Round(off))} {(zone.ToRear < 0 ? "behind" : "ahead of")} the zone that the truck's maker gives.", result.Fact.Find("centre_zone")!.Span, $"{name}.centre_zone", $"Move weight {(zone.ToRear < 0 ? "forward" : "aft")}: half of the cargo by {ledger.Say.Length(Math.Round(off) * 2)}, or less of it by more.");
        }
        var unknown = result.States.FirstOrDefault()?.Limits.NotKnown ?? [];
        if (unknown.Length > 0) ledger.Tell(EngineeringFindings.RatingUnknown, $"{name} states no {string.Join(", no ", unknown)}; nothing is checked against {(unknown.Length == 1 ? "it" : "them")}.", result.Fact.NameSpan, name + ".ratings");
    }

    /// <summary>49 CFR 575.103: a cargo weight rating is the gross rating less the empty vehicle and 150 lb for each designated seat.</summary>
    private static void Seats(Ledger ledger, BoundFact fact, double? front, double? rear, VehicleRatings ratings)
    {
        string name = fact.Name!;
        if (ledger.Stated(name + ".seats", fact.Find("seats"), "count") is not { } seats || ratings.Gvwr is not { } gross || front is null || rear is null) return;
        double left = gross - front.Value - rear.Value - seats * 150 * Customary.Pound;
        ledger.Add(name + ".cargo_rating_by_seats", left, Dimension.OfMass, fact.Find("seats")!.Span, $"{name}.gross_vehicle_rating - {name}.empty_front - {name}.empty_rear - 150 lb * {name}.seats", [name + ".gross_vehicle_rating", name + ".empty_front", name + ".empty_rear", name + ".seats"], "49 CFR 575.103, the sum that it has a cargo weight rating be");
        if (ratings.CargoWeightRating is { } stated && stated > left + 0.5)
            ledger.Tell(EngineeringFindings.SeatsAgainstRating, $"{name} states a cargo_rating of {ledger.Say.Weight(stated)}; its gross rating less the empty truck and {ledger.Say.Weight(150 * Customary.Pound)} for each of {Say.Number(seats)} seats leaves {ledger.Say.Weight(left)}.", fact.Find("cargo_rating")!.Span, name + ".cargo_rating");
    }

    /// <summary>How high it stands over the road: the highest of its panels and of what stands out of them, closed and raised. Springs give under the load, tyres likewise; both lower it.</summary>
    private static void Heights(Ledger ledger, BoundFact fact)
    {
        if (ledger.Stated(fact.Name + ".bed_floor", fact.Find("bed_floor"), "value") is not { } bed) return;
        var moves = ledger.Structure.Lifts.ToDictionary(l => l.Name, l => l.Raised, StringComparer.Ordinal);
        var still = RigidMove.Straight(Vec3.Zero);
        double closed = double.NegativeInfinity, raised = closed;
        foreach (var panel in ledger.Panels)
        {
            double proud = panel.IsLevel && panel.Face.N.Z > 0 ? panel.Openings.Select(o => (o.Unit as UnitMaterial)?.ProudOutside ?? 0).DefaultIfEmpty(0).Max() : 0;
            double Top(RigidMove move) => panel.Outline.Corners.Max(c => Math.Max(move.Apply(panel.Face.ToWorld(c, -proud)).Z, move.Apply(panel.Face.ToWorld(c, panel.Thickness)).Z));
            closed = Math.Max(closed, Top(still));
            raised = Math.Max(raised, Top(panel.Lift is { } lift ? moves.GetValueOrDefault(lift, still) : still));
        }
        if (!double.IsFinite(closed)) return;
        foreach (var (how, top) in new[] { ("closed", closed), ("raised", raised) })
            ledger.Add($"{fact.Name}.height_{how}", bed + top / 1000, Dimension.OfLength, fact.Find("bed_floor")!.Span, $"{fact.Name}.bed_floor and the highest of the camper over it, {ledger.Say.Length(top)}, {how}, with what stands out of the roof", [fact.Name + ".bed_floor"]);
    }

    private static BoundFact? FactOf(BoundFact carrier, string limit) => carrier.Find(limit switch
    {
        "GVWR" => "gross_vehicle_rating",
        "front GAWR" => "front_axle_rating",
        "rear GAWR" => "rear_axle_rating",
        "front tyre" or "rear tyre" => "tyre_rating",
        "front wheel" or "rear wheel" => "wheel_rating",
        "placard payload" => "placard_payload",
        _ => "cargo_rating",
    });
}
