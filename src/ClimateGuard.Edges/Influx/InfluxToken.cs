using ClimateGuard.Edges.Notices;

namespace ClimateGuard.Edges.Influx;

/// <summary>The token, from its file; read again after a refusal, so that a new one needs no restart.</summary>
/// <param name="settings">Names the file.</param>
internal sealed class InfluxToken(InfluxSettings settings)
{
    private volatile string? read;

    /// <summary>Grows with each reading of the file.</summary>
    public int Version { get; private set; }

    /// <summary>The token, or an empty text for none.</summary>
    /// <exception cref="InfluxFaultException">The file cannot be read.</exception>
    public string Value
    {
        get
        {
            if (read is { } known)
            {
                return known;
            }

            try
            {
                var token = settings.TokenFile.Length == 0 ? "" : SettingsFiles.FirstLine(settings.TokenFile).Trim();
                Version++;
                read = token;
                return token;
            }
            catch (Exception failed) when (failed is IOException or UnauthorizedAccessException)
            {
                throw InfluxFaultException.Of(settings, 401, $"the file {settings.TokenFile} cannot be read", failed);
            }
        }
    }

    public void ReadAgain() => read = null;
}
