namespace ClimateGuard.Watch;

/// <summary>This worker may not write the ledger any more: another one decides for the cell, or nobody was asked. Nothing was written.</summary>
/// <remarks>Not to be tried again: whoever gets it stops deciding and asks for the lease anew.</remarks>
public sealed class LeaseLostException : InvalidOperationException
{
    /// <summary>With a general message.</summary>
    public LeaseLostException()
        : base("Another worker decides for this cell. Nothing was written.")
    {
    }

    /// <summary>With a message that names who holds the lease.</summary>
    /// <param name="message">The message.</param>
    public LeaseLostException(string message)
        : base(message)
    {
    }

    /// <summary>With a message that names who holds the lease, and the cause.</summary>
    /// <param name="message">The message.</param>
    /// <param name="innerException">The cause.</param>
    public LeaseLostException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
