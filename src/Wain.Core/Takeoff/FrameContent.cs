using System.Collections.Immutable;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Takeoff;

/// <summary>What takeoff needs of one frame layer: its sticks, the bays between them, and where sticks meet.</summary>
/// <param name="Zone">The zone whose stack it belongs to; null for the panel's own.</param>
public sealed record FrameContent(string Panel, string? Zone, StackLayer Layer, ImmutableArray<StickContent> Sticks, ImmutableArray<BayContent> Bays, ImmutableArray<MeetingContent> Meetings);

/// <summary>One member.</summary>
/// <param name="Length">As cut, longest side (mm).</param>
/// <param name="Volume">Exact, with its cut ends (mm3).</param>
/// <param name="FaceArea">What it shows to a skin (mm2).</param>
public sealed record StickContent(string Mark, StickMaterial Stick, double Length, double Volume, double FaceArea, Span From);

/// <summary>One bay between members, over the whole depth of the frame.</summary>
/// <param name="Area">mm2.</param>
/// <param name="Volume">mm3.</param>
public sealed record BayContent(string Mark, double Area, double Volume);

/// <summary>Where two members meet.</summary>
/// <param name="Area">Of the glue line (mm2).</param>
public sealed record MeetingContent(Material? Screw, int Count, Material? Glue, double Area);
