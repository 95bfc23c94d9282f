namespace ClimateGuard.Edges.Notices;

/// <summary>A message did not reach its receiver; the message says why and what to check.</summary>
public sealed class DeliveryFailedException : Exception
{
    /// <summary>With a general message.</summary>
    public DeliveryFailedException()
        : base("The message was not delivered.")
    {
    }

    /// <summary>With a message for the person who must act.</summary>
    public DeliveryFailedException(string message)
        : base(message)
    {
    }

    /// <summary>With a message for the person who must act, and the cause.</summary>
    public DeliveryFailedException(string message, Exception innerException)
        : base(message, innerException)
    {
    }

    /// <summary>This message will never be taken, so trying again is no use; others may be.</summary>
    public bool ForGood { get; init; }
}
