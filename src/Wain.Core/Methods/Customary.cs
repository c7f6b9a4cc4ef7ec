namespace Wain.Core.Methods;

/// <summary>SI values of the US customary units that published formulas are written in. Exact by definition (NIST SP 811) unless said.</summary>
public static class Customary
{
    /// <summary>Standard gravity, m/s2 (exact by definition, CGPM 1901).</summary>
    public const double Gravity = 9.80665;

    public const double Inch = 0.0254;
    public const double Foot = 0.3048;
    public const double SquareFoot = Foot * Foot;
    public const double Pound = 0.45359237;
    public const double PoundForce = Pound * Gravity;
    public const double Psi = PoundForce / (Inch * Inch);
    public const double Psf = PoundForce / SquareFoot;
    public const double MilePerHour = 0.44704;

    /// <summary>231 in3.</summary>
    public const double Gallon = 231 * Inch * Inch * Inch;

    public const double Mil = Inch / 1000;
    public const double PoundPerCubicFoot = Pound / (Foot * Foot * Foot);

    /// <summary>Mass of cloth by area, kg/m2.</summary>
    public const double OuncePerSquareYard = Pound / 16 / (9 * SquareFoot);

    /// <summary>Btu in/(h ft2 F) in W/(m K), International Table Btu.</summary>
    public const double BtuInch = 0.1442279;

    /// <summary>h ft2 F/Btu in m2 K/W.</summary>
    public const double RValue = 0.1761102;

    /// <summary>Grain/(h ft2 inHg) in kg/(Pa s m2).</summary>
    public const double Perm = 57.2135e-12;

    /// <summary>0 degrees Celsius in kelvin.</summary>
    public const double IcePoint = 273.15;
}
