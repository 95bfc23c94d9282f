namespace ClimateGuard.Thermal;

/// <summary>Cut another feature of this part first, one that is safe now.</summary>
internal static class Resequence
{
    public static RankedAction Of(WhatIf what)
    {
        var risks = FinishCutRisk.Over(what.Model, what.Now(), what.Cut, what.Question.Policies);
        FeatureRisk[] safe = [.. risks.Where(risk => risk.Answer == Answer.Go)];
        var other = new ActionCondition(ActionConditionKind.OtherFeatureSafe, safe.Length > 0 && safe.Length < risks.Count, safe.Length, risks.Count);
        return new()
        {
            Kind = ActionKind.Resequence,
            Takes = TimeSpan.Zero,
            Conditions = [other],
            Features = [.. safe.Select(risk => risk.Feature.Id)],
            Result = other.Met ? what.ResultOf(safe, guarded: true) : null,
        };
    }
}
