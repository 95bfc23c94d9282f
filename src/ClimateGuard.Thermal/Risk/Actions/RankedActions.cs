namespace ClimateGuard.Thermal;

/// <summary>What can be done about a finish cut, each with what it would lead to, the best first.</summary>
public static class RankedActions
{
    private static readonly Func<WhatIf, RankedAction>[] OfThisMachine =
    [
        StartNow.Of, Reprobe.Of, SpanProbe.Of, ContactTemperature.Of, Rinse.Of, Fan.Of, Soak.Of, DryOff.Of, WarmUp.Of, KeepSpindleTurning.Of,
        Offset.Of, Resequence.Of,
    ];

    /// <summary>Plays every action through.</summary>
    /// <param name="question">The situation and what is at hand.</param>
    /// <returns>
    /// All actions: first those that are possible and make the cut safe, the quickest first, at equal time the less probable exceedance; then the
    /// other possible ones by probability; then those whose conditions are not met, which say why.
    /// </returns>
    /// <exception cref="InvalidOperationException">Nothing is loaded.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A duration or the number of paths lies outside its range, or a temperature in use is not known.</exception>
    /// <exception cref="NotSupportedException">The model has a link that the fast paths cannot follow.</exception>
    public static IReadOnlyList<RankedAction> For(ActionQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        if (question.Model.Part is null)
        {
            throw new InvalidOperationException("Nothing is loaded on the machine, so there is no cut to act for.");
        }

        var what = new WhatIf(question);
        return
        [
            .. OfThisMachine.Select(action => action(what)).Concat(UseOtherMachine.Of(what))
                .OrderByDescending(action => action.Possible)
                .ThenByDescending(action => action.ReachesSafety)
                .ThenBy(action => action.ReachesSafety ? action.Takes : TimeSpan.Zero)
                .ThenBy(action => action.Result?.Probability ?? 1),
        ];
    }
}
