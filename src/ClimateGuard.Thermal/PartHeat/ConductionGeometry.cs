namespace ClimateGuard.Thermal;

/// <summary>The bodies whose transient conduction has an exact series.</summary>
public enum ConductionGeometry
{
    /// <summary>A plate, both faces in the medium; the length of its numbers is half the thickness.</summary>
    PlaneWall,

    /// <summary>A long round bar; the length of its numbers is the radius.</summary>
    LongCylinder,

    /// <summary>A ball; the length of its numbers is the radius.</summary>
    Sphere,
}
