using ClimateGuard.Edges.Notices;

namespace ClimateGuard.Edges.Influx;

/// <summary>Where InfluxDB answers and how much may wait for it on disk: the section <c>Influx</c> of the settings.</summary>
public sealed record InfluxSettings
{
    /// <summary>The name of the section.</summary>
    public const string Section = "Influx";

    private const int LongestName = 200;

    /// <summary>The address; https, or http on this computer.</summary>
    public string Url { get; init; } = "http://127.0.0.1:8086";

    /// <summary>The organisation of InfluxDB 2; any word for InfluxDB 1.</summary>
    public string Org { get; init; } = "";

    /// <summary>The bucket, <c>database/retention policy</c>, so that InfluxQL finds it without a mapping of its own.</summary>
    public string Bucket { get; init; } = "";

    /// <summary>A file whose first line is the token; empty for none, on this computer only.</summary>
    public string TokenFile { get; init; } = "";

    /// <summary>The database to read from; empty: the part of the bucket before the slash.</summary>
    public string Database { get; init; } = "";

    /// <summary>The retention policy to read from; empty: the part of the bucket after the slash, else the default one.</summary>
    public string RetentionPolicy { get; init; } = "";

    /// <summary>How much may wait on disk while InfluxDB is down, in MiB, in [1, 1 000 000].</summary>
    public int SpoolMegabytes { get; init; } = 512;

    /// <summary>How long one request may take, in s, in [1, 300].</summary>
    public int TimeoutSeconds { get; init; } = 10;

    /// <summary>The database that is read.</summary>
    internal string ReadDatabase => Database.Length > 0 ? Database : Bucket.Split('/', 2)[0];

    /// <summary>The retention policy that is read; empty for the default one.</summary>
    internal string ReadPolicy => RetentionPolicy.Length > 0 ? RetentionPolicy : Bucket.Split('/', 2) is [_, var policy] ? policy : "";

    internal TimeSpan Timeout => TimeSpan.FromSeconds(TimeoutSeconds);

    /// <summary>The address as it may stand in messages.</summary>
    internal string Shown => Uri.TryCreate(Url, UriKind.Absolute, out var address) ? address.GetLeftPart(UriPartial.Path) : "InfluxDB";

    /// <summary>Everything that is wrong with these settings, each as one sentence with what is allowed; empty when they can be used.</summary>
    public IReadOnlyList<string> Problems()
    {
        var problems = new List<string>();
        problems.AddRange(AddressProblems());
        problems.AddRange(NameProblems());
        if (TokenFile.Length > 0 && SettingsFiles.Problem($"{Section}:TokenFile", TokenFile, "a file whose first line is the token", 1) is { } problem)
        {
            problems.Add(problem);
        }

        if (SpoolMegabytes is < 1 or > 1_000_000)
        {
            problems.Add($"{Section}:SpoolMegabytes is {SpoolMegabytes}; 1 to 1000000 is allowed");
        }

        if (TimeoutSeconds is < 1 or > 300)
        {
            problems.Add($"{Section}:TimeoutSeconds is {TimeoutSeconds}; 1 to 300 is allowed");
        }

        return problems;
    }

    private IEnumerable<string> AddressProblems()
    {
        if (!Uri.TryCreate(Url, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https"))
        {
            yield return $"{Section}:Url is \"{Url}\"; an address such as http://127.0.0.1:8086 is allowed";
            yield break;
        }

        if (address.UserInfo.Length > 0 || address.Query.Length > 0 || address.Fragment.Length > 0)
        {
            yield return $"{Section}:Url holds more than an address; the token belongs into the file that {Section}:TokenFile names";
        }

        if (address.Scheme == "http" && !address.IsLoopback)
        {
            yield return $"{Section}:Url is \"{Shown}\"; readings and token would cross the network in the clear. "
                + $"Write \"Url\": \"https://{address.Authority}\", or run InfluxDB on this computer";
        }
        else if (!address.IsLoopback && TokenFile.Length == 0)
        {
            yield return $"{Section}:TokenFile is empty although {Section}:Url is on another computer; a file whose first line is the token is needed";
        }
    }

    private IEnumerable<string> NameProblems()
    {
        foreach (var (key, name, needed) in new[]
            {
                ("Org", Org, "the organisation in InfluxDB 2, or any word for InfluxDB 1, is needed"),
                ("Bucket", Bucket, "a bucket such as climateguard/autogen is needed"),
            })
        {
            if (string.IsNullOrWhiteSpace(name))
            {
                yield return $"{Section}:{key} is empty; {needed}";
            }
        }

        foreach (var (key, name) in new[] { ("Org", Org), ("Bucket", Bucket), ("Database", Database), ("RetentionPolicy", RetentionPolicy) })
        {
            if (name.Length > LongestName || name.Any(char.IsControl))
            {
                yield return $"{Section}:{key} is longer than {LongestName} characters or holds control characters; a plain name is allowed";
            }
        }
    }
}
