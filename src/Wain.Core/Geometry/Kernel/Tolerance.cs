namespace Wain.Core.Geometry.Kernel;

/// <summary>The few tolerances that the kernel shares, so that two parts of it never disagree about what "the same" means.</summary>
public static class Tolerance
{
    /// <summary>Two places nearer than this (mm) are one place. A thousandth of a micrometre: far below what a saw can do, far above rounding at 100 m.</summary>
    public const double Length = 1e-6;

    /// <summary>Two directions nearer than this (radians) are one direction. Over 10 m it is 0.01 micrometre.</summary>
    public const double Angle = 1e-9;
}
