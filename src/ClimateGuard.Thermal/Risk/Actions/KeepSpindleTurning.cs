namespace ClimateGuard.Thermal;

/// <summary>Wait with the spindle turning, so that it does not cool.</summary>
internal static class KeepSpindleTurning
{
    public static RankedAction Of(WhatIf what)
    {
        var known = new ActionCondition(ActionConditionKind.SpindleModeKnown, what.Model.Machine.Spindle.Count > 0);
        var load = what.Question.Hold.Now.SpindleLoad;
        var turning = new ActionCondition(ActionConditionKind.SpindleTurning, load > 0, load);
        var hold = what.Question.Hold with { KeepSpindleTurning = true };
        return known.Met && turning.Met
            ? Waiting.Of(what, ActionKind.KeepSpindleTurning, hold, Waiting.Released(what, hold), known, turning)
            : new() { Kind = ActionKind.KeepSpindleTurning, Takes = what.Question.Hold.Horizon, Conditions = [known, turning] };
    }
}
