using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Pages.Machinist;

/// <summary>How a level looks and where it stands in the column.</summary>
/// <remarks>
/// Colours carry the meanings of IEC 60073 (from memory): red danger, yellow abnormal, blue a person must act, green normal,
/// grey no meaning of its own. Each level has a word and a shape of its own as well, so colour never stands alone.
/// </remarks>
public static class LevelLook
{
    /// <summary>All levels, the one that needs a person first in front.</summary>
    public static IReadOnlyList<Level> ByNeed { get; } =
        [Level.Hold, Level.MeasureFirst, Level.NotKnown, Level.Watch, Level.Bypassed, Level.Ready, Level.NoJob];

    /// <summary>Place in the column, 0 first; a level this page does not know needs a person like <see cref="Level.NotKnown"/>.</summary>
    public static int Rank(Level level)
    {
        for (var i = 0; i < ByNeed.Count; i++)
        {
            if (ByNeed[i] == level)
            {
                return i;
            }
        }

        return Rank(Level.NotKnown);
    }

    /// <summary>Whether nobody may start before a person has acted.</summary>
    public static bool NeedsAPerson(Level level) => Rank(level) <= Rank(Level.NotKnown);

    /// <summary>The class of the style sheet.</summary>
    public static string Css(Level level) => level switch
    {
        Level.Ready => "ready",
        Level.Watch => "watch",
        Level.MeasureFirst => "measure",
        Level.Hold => "hold",
        Level.Bypassed => "bypassed",
        Level.NoJob => "nojob",
        _ => "notknown",
    };

    /// <summary>What the level means for the machinist, in half a sentence.</summary>
    public static string Meaning(Level level) => level switch
    {
        Level.Ready => "the finish cut may start",
        Level.Watch => "the finish cut may start; the margin is small",
        Level.MeasureFirst => "do not start yet; a quick measurement decides",
        Level.Hold => "do not start",
        Level.Bypassed => "a person has taken the responsibility",
        Level.NoJob => "nothing is loaded",
        _ => "something is missing or too old; a person must decide",
    };
}
