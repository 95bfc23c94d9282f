namespace ClimateGuard.Enclosure;

/// <summary>What is not known of a room, in words that say what would tell it.</summary>
internal static class IdentifiedWords
{
    public static IEnumerable<string> Of(IReadOnlyList<ProfileInterval> intervals)
    {
        bool Unknown(RoomParameter parameter) => intervals.Any(interval => interval.Parameter == parameter && !interval.Identified);
        if (Unknown(RoomParameter.ToHall))
        {
            yield return Unknown(RoomParameter.LoadShare) || Unknown(RoomParameter.FullFlow) || intervals.All(interval => interval.Parameter != RoomParameter.LoadShare)
                ? "We cannot tell wall loss from machine heat yet; leave one weekend with the machines off."
                : "We cannot tell the wall loss yet; a day on which the hall is five kelvins warmer or colder would tell it.";
        }

        if (Unknown(RoomParameter.FullFlow))
            yield return "We cannot tell how much heat the supply air carries away; state the air flow from the fan's data, or measure the power of the machines.";
        if (Unknown(RoomParameter.AirHeat))
            yield return "We cannot tell how fast the air alone answers; let the fan stand for ten minutes, or a door stand open, once.";
        if (Unknown(RoomParameter.MassHeat) || Unknown(RoomParameter.AirToMass))
            yield return "We cannot tell how much heat machines and slab hold, because the control keeps the air still; a set-back over a weekend would tell it.";
        if (Unknown(RoomParameter.LoadShare) && !Unknown(RoomParameter.ToHall))
            yield return "We cannot tell which part of the machines' power heats the zone; a shift with the machines idle would tell it.";
        if (Unknown(RoomParameter.NextZone))
            yield return "We cannot tell the heat that comes from the next zone; set one of the two a kelvin apart for half a day.";
        if (Unknown(RoomParameter.Door))
            yield return "We cannot tell what an open door brings in; it has not stood open long enough, ten minutes would do.";
    }
}
