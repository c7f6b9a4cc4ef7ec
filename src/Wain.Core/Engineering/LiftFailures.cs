using Wain.Core.Text;
using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Engineering;

/// <summary>
/// What happens if one strut fails. Gas springs push with what they have and take over nothing; actuators stand where they stand and share what the springs leave. Forces in N along the
/// travel of a straight lift, and at the free edge of a hinged one.
/// </summary>
/// <param name="ToHold">At the place of the travel where least is left: the end of a straight lift, the worst angle of a hinged one.</param>
/// <param name="Left">What the other gas springs give there.</param>
/// <param name="Load">What each other actuator must bear then; null if there is none.</param>
/// <param name="Racking">The couple that turns the roof over towards the strut that failed, or twists a hinged one in its hinges, N m: weight and the other struts don't stand in one line any more.</param>
/// <param name="Sinks">The rest do not hold it where it stands open.</param>
/// <param name="SinksFrom">Degrees open of a hinged one that holds when fully open and not from here down; null otherwise.</param>
public sealed record StrutFailure(string Strut, double ToHold, double Left, double? Load, double Racking, bool Sinks, double? SinksFrom = null);

internal static class LiftFailures
{
    private const int Steps = 36;

    public static ImmutableArray<StrutFailure> Of(Ledger ledger, PlacedLift lift, BoundFact? hinge, List<Strut> struts, MassSum carried, double weight)
    {
        var results = ImmutableArray.CreateBuilder<StrutFailure>();
        var turn = hinge is null ? null : Hinge.Of(ledger, hinge, carried);
        if (hinge is not null && turn is null) return [];
        foreach (var failed in struts)
        {
            List<Strut> others = [.. struts.Where(s => s != failed)];
            var result = turn is null ? Straight(lift, failed, others, carried, weight) : Turning(turn, failed, others, carried, weight, turn.Reach(ledger, lift, carried));
            results.Add(result);
            if (!result.Sinks || lift.Fact.All("strut").FirstOrDefault(f => Lifting.Last(f) == failed.Name) is not { } at) continue;
            ledger.Tell(EngineeringFindings.StrutFailureSinks, (result.Load, turn) switch
            {
                ({ } load, _) => $"If {failed.Name} of {lift.Name} fails, each other actuator must bear {ledger.Say.Force(load)}, more than it gives: the roof comes down.",
                (_, null) => $"If {failed.Name} of {lift.Name} fails, the other struts give {ledger.Say.Force(result.Left)} of {ledger.Say.Force(result.ToHold)}: the roof comes down, that corner first.",
                _ => $"If {failed.Name} of {lift.Name} fails, the other struts give {ledger.Say.Force(result.Left)} of the {ledger.Say.Force(result.ToHold)} that its free edge asks: it comes down, that side first.",
            }, at.Span, $"{lift.Name}.{failed.Name}", "Prop the roof before anyone goes under it.");
        }
        return results.ToImmutable();
    }

    private static StrutFailure Straight(PlacedLift lift, Strut failed, List<Strut> others, MassSum carried, double weight)
    {
        var move = lift.Direction * lift.Travel;
        var centre = carried.Centre + move;
        double hold = weight * lift.Direction.Z, springs = 0, slopes = 0;
        var pushes = new List<(Strut Strut, Vec3 End, Vec3 Along, double Force)>();
        foreach (var strut in others)
        {
            var end = strut.Moving + move;
            var along = (end - strut.Fixed).Length > 0 ? (end - strut.Fixed).Unit : Vec3.Zero;
            double force = strut.Holds ? 0 : strut.Force((end - strut.Fixed).Length, strut.LengthAt(move));
            springs += force * along.Dot(lift.Direction);
            if (strut.Holds) slopes += along.Dot(lift.Direction);
            pushes.Add((strut, end, along, force));
        }
        double? load = slopes > 1e-9 ? Math.Max(0, hold - springs) / slopes : null;
        var couple = Vec3.Zero;
        foreach (var (strut, end, along, force) in pushes) couple += (end - centre).Cross(along * (strut.Holds ? load ?? 0 : force)) / 1000;
        return new StrutFailure(failed.Name, hold, springs, load, Math.Sqrt(couple.X * couple.X + couple.Y * couple.Y), load is { } each ? others.Exists(s => s.Holds && each > s.Extended + 1e-9) : springs < hold - 1e-9);
    }

    private static StrutFailure Turning(Hinge turn, Strut failed, List<Strut> others, MassSum carried, double weight, double reach)
    {
        StrutFailure? worst = null;
        double most = double.NegativeInfinity;
        bool open = false;
        double? from = null;
        // From open to shut, since that is how it comes down.
        for (int i = Steps; i >= 0; i--)
        {
            double angle = turn.Open * i / Steps, need = turn.Needed(carried, weight, angle), springs = 0, arms = 0;
            var middle = turn.From.Lerp(turn.To, 0.5);
            var couple = (turn.Turned(carried.Centre, angle) - middle).Cross(new Vec3(0, 0, -weight)) / 1000;
            var holding = new List<(Vec3 Unit, Vec3 End)>();
            foreach (var strut in others)
            {
                var (push, end) = turn.Push(strut, angle);
                if (strut.Holds)
                {
                    holding.Add((push.Unit, end));
                    arms += turn.Moment(end, push.Unit);
                    continue;
                }
                springs += turn.Moment(end, push);
                couple += (end - middle).Cross(push) / 1000;
            }
            double? load = arms > 1e-9 ? Math.Max(0, need - springs) / arms : null;
            foreach (var (unit, end) in holding) couple += (end - middle).Cross(unit * (load ?? 0)) / 1000;
            bool sinks = load is { } each ? others.Exists(s => s.Holds && each > s.Extended + 1e-9) : need > springs + 1e-9;
            if (i == Steps) open = sinks;
            else if (sinks && !open) from ??= angle * 180 / Math.PI;
            double lacks = load ?? (need - springs) / reach;
            if (lacks <= most) continue;
            most = lacks;
            worst = new StrutFailure(failed.Name, need / reach, springs / reach, load, (couple - turn.Axis * couple.Dot(turn.Axis)).Length, false);
        }
        return worst! with { Sinks = open, SinksFrom = from };
    }
}
