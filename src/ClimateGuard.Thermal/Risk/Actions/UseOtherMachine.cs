namespace ClimateGuard.Thermal;

/// <summary>Use another machine that could take the part.</summary>
internal static class UseOtherMachine
{
    public static IEnumerable<RankedAction> Of(WhatIf what) => what.Question.Others.Select(other =>
    {
        var there = new WhatIf(what.Question with
        {
            Model = other.Model,
            State = other.State,
            Hold = what.Question.Hold with { Cut = other.Cut, Now = other.Cut.Surroundings },
            Others = [],
        });
        return new RankedAction
        {
            Kind = ActionKind.OtherMachine,
            Takes = other.Takes,
            Machine = other.Model.Machine.Id,
            Result = there.Start(there.Now(), 0),
        };
    });
}
