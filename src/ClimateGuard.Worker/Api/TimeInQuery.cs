using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Json;

namespace ClimateGuard.Worker.Api;

/// <summary>A time in the query of an address.</summary>
internal static class TimeInQuery
{
    /// <summary>Epoch ms or RFC 3339; null when it is neither, or not plausible.</summary>
    public static DateTimeOffset? Of(string text)
    {
        if (long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var epoch))
        {
            return Rfc3339.IsPlausible(epoch) ? DateTimeOffset.FromUnixTimeMilliseconds(epoch) : null;
        }

        return Rfc3339.TryParse(Encoding.UTF8.GetBytes(text), out var time) ? time : null;
    }
}
