using ClimateGuard.Edges.Json;

namespace ClimateGuard.Edges.Influx;

/// <summary>What InfluxDB did with a request.</summary>
internal enum InfluxFault
{
    /// <summary>No answer.</summary>
    Unreachable,

    /// <summary>Not now.</summary>
    Busy,

    /// <summary>The token is missing, wrong, or may not do this.</summary>
    NotAllowed,

    /// <summary>The bucket or database is not there.</summary>
    NotFound,

    /// <summary>What was sent can never be taken.</summary>
    Refused,
}

/// <summary>InfluxDB did not do what it was asked; the message says what to mend.</summary>
internal sealed class InfluxFaultException : Exception
{
    private InfluxFaultException(InfluxFault fault, string text, string message, Exception? inner)
        : base(message, inner) => (Fault, Text) = (fault, text);

    public InfluxFault Fault { get; }

    /// <summary>What InfluxDB itself said.</summary>
    public string Text { get; }

    /// <summary>How long it asks to be left alone, or null.</summary>
    public TimeSpan? RetryAfter { get; init; }

    /// <summary>An answer that is no success.</summary>
    public static InfluxFaultException Of(InfluxSettings settings, int status, string? text, Exception? inner = null, TimeSpan? retryAfter = null)
    {
        var said = Printable.Clean(text ?? "", 300);
        var at = $"InfluxDB at {settings.Shown}";
        return status switch
        {
            401 or 403 => Make(
                InfluxFault.NotAllowed,
                $"{at} refuses the token ({status}: {said}). Put a token that may read and write bucket {settings.Bucket} into the file that "
                + $"{InfluxSettings.Section}:TokenFile names; it is read again at the next try."),
            404 => Make(
                InfluxFault.NotFound,
                $"{at} has no such bucket, organisation or address ({status}: {said}). Make bucket {settings.Bucket} in organisation {settings.Org}, "
                + $"or mend {InfluxSettings.Section}:Bucket, :Org or :Url and start again."),
            400 or 413 or 422 => Make(InfluxFault.Refused, $"{at} refuses what it is sent ({status}: {said})."),
            _ => Make(InfluxFault.Busy, $"{at} cannot take it now ({status}: {said})."),
        };

        InfluxFaultException Make(InfluxFault fault, string message) => new(fault, said, message, inner) { RetryAfter = retryAfter };
    }

    /// <summary>No answer, or one that nobody can read.</summary>
    public static InfluxFaultException NoAnswer(InfluxSettings settings, string cause, Exception? inner) => new(
        InfluxFault.Unreachable, cause,
        $"InfluxDB at {settings.Shown} does not answer as it should ({cause.TrimEnd('.')}). Is it running, and is {InfluxSettings.Section}:Url right?", inner);
}
