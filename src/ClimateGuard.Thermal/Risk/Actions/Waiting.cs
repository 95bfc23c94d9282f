using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>What waiting in a held state leads to, for the actions that wait.</summary>
internal static class Waiting
{
    /// <summary>What is known of waiting in a held state.</summary>
    /// <param name="what">The situation.</param>
    /// <param name="kind">Which action it is.</param>
    /// <param name="hold">How it is held.</param>
    /// <param name="start">When it could start; null when not within the forecast.</param>
    /// <param name="conditions">What else must be so.</param>
    public static RankedAction Of(WhatIf what, ActionKind kind, HoldAhead hold, EarliestStart? start, params ReadOnlySpan<ActionCondition> conditions)
    {
        TimeSpan? wait = start switch
        {
            SafeNow => TimeSpan.Zero,
            SafeAt later => later.Release,
            _ => null,
        };
        return new()
        {
            Kind = kind,
            Takes = wait is { } length ? length + TimeSpan.FromMinutes(hold.ReprobeAtStart ? WhatIf.ReprobeMinutes : 0) : hold.Horizon,
            Exposure = wait,
            EndsWithReprobe = hold.ReprobeAtStart,
            Start = start,
            Conditions = [.. conditions, new(ActionConditionKind.WithinHorizon, wait is not null, wait?.TotalMinutes, hold.Horizon.TotalMinutes)],
            Result = wait is { } minutes ? After(what, hold, minutes.TotalMinutes) : null,
        };
    }

    /// <summary>When it could start, or null when that is not within the forecast.</summary>
    public static EarliestStart? Released(WhatIf what, HoldAhead hold) =>
        EarliestSafeTime.FindIfReleased(what.Model, what.Question.State, hold, what.Question.Policies);

    private static ActionResult After(WhatIf what, HoldAhead hold, double minutes)
    {
        var state = what.Now();
        foreach (var course in hold.Courses(what.Model.Noise, 0, minutes))
        {
            what.Spend(state, course.Surroundings, course.BeginMinutes, course.Step.TotalMinutes * course.Steps);
        }

        if (hold.ReprobeAtStart)
        {
            what.Model.ProbeDatum(state, [Axis.X, Axis.Y, Axis.Z]);
        }

        return what.Start(state, minutes);
    }
}
