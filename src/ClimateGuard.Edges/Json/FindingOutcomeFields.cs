using System.Text.Json;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Json;

/// <summary>What was found for a finding: <c>finding, by</c> and either <c>seen</c> with <c>check?</c>, or <c>close: true</c> with <c>verified?</c> and <c>fixedBy?</c>.</summary>
internal static class FindingOutcomeFields
{
    private const string Causes = "the id of a cause, \"F01\" to \"F34\",";

    public static FindingOutcome Read(JsonFields fields, DateTimeOffset time)
    {
        var (finding, by) = (fields.Text("finding"), fields.Text("by"));
        if (fields.OptionalFlag("close"))
        {
            var verified = fields.OptionalText("verified");
            Refuse(fields, "verified", verified);
            if (fields.Has("seen") || fields.Has("check"))
                fields.Refuse("a closing has no \"seen\" or \"check\"; send the answer of the check first, then close");
            return new FindingOutcome(time, finding, by) { Closes = true, Cause = verified, FixedBy = fields.OptionalText("fixedBy") };
        }

        var check = fields.OptionalText("check");
        Refuse(fields, "check", check);
        if (fields.Has("verified") || fields.Has("fixedBy"))
            fields.Refuse("\"verified\" and \"fixedBy\" close a finding; add \"close\": true");
        return new FindingOutcome(time, finding, by) { Cause = check, Seen = fields.Flag("seen") };
    }

    public static void Write(Utf8JsonWriter writer, FindingOutcome outcome)
    {
        writer.WriteString("finding", outcome.Finding);
        writer.WriteString("by", outcome.By);
        if (outcome.Closes)
        {
            writer.WriteBoolean("close", true);
            if (outcome.Cause is { } verified) writer.WriteString("verified", verified);
            if (outcome.FixedBy is { } fixedBy) writer.WriteString("fixedBy", fixedBy);
            return;
        }

        writer.WriteBoolean("seen", outcome.Seen);
        if (outcome.Cause is { } check) writer.WriteString("check", check);
    }

    private static void Refuse(JsonFields fields, string name, string? cause)
    {
        if (cause is not null && Catalogue.Find(cause) is null) fields.Refuse(name, $"\"{Printable.Clean(cause, 40)}\"", Causes);
    }
}
