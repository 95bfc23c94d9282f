namespace ClimateGuard.Edges.Sqlite;

/// <summary>The history or the ledger cannot be opened, read or written; the message says what to do and what became of the data.</summary>
public sealed class StoreUnavailableException : IOException
{
    /// <summary>Whether the only reason is that the disk is full.</summary>
    public bool DiskFull { get; init; }

    /// <summary>With a general message.</summary>
    public StoreUnavailableException()
        : base("The store cannot be used.")
    {
    }

    /// <summary>With a message for the person who must act.</summary>
    public StoreUnavailableException(string message)
        : base(message)
    {
    }

    /// <summary>With a message for the person who must act, and the cause.</summary>
    public StoreUnavailableException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
