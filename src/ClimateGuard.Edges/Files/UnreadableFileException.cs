namespace ClimateGuard.Edges.Files;

/// <summary>A file from outside cannot be used; the message names the file and the line, and says what is allowed.</summary>
public sealed class UnreadableFileException : Exception
{
    /// <summary>With a general message.</summary>
    public UnreadableFileException()
        : base("The file cannot be used.")
    {
    }

    /// <summary>With a message for the person who must act.</summary>
    public UnreadableFileException(string message)
        : base(message)
    {
    }

    /// <summary>With a message for the person who must act, and the cause.</summary>
    public UnreadableFileException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
