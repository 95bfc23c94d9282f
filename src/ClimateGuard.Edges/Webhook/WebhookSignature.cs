using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace ClimateGuard.Edges.Webhook;

/// <summary>Signs a message, so that its receiver knows that it is ours, whole and fresh.</summary>
/// <remarks>
/// HMAC-SHA-256 (RFC 2104, FIPS 180-4) over the time stamp, a full stop and the body, keyed with the shared secret. The receiver computes the
/// same, compares in constant time, and refuses a time stamp more than 5 minutes off, so that a recorded message cannot be played again.
/// </remarks>
public static class WebhookSignature
{
    /// <summary>The header with the seconds since 1970 at which it was sent.</summary>
    public const string TimestampHeader = "X-ClimateGuard-Timestamp";

    /// <summary>The header with the signature, <c>sha256=</c> and 64 hexadecimal digits.</summary>
    public const string SignatureHeader = "X-ClimateGuard-Signature";

    /// <summary>The header with the key of the notice; the same each time it is sent.</summary>
    public const string KeyHeader = "Idempotency-Key";

    /// <summary>The value of <see cref="SignatureHeader"/>.</summary>
    /// <param name="secret">The shared secret, as UTF-8.</param>
    /// <param name="epochSeconds">The value of <see cref="TimestampHeader"/>.</param>
    /// <param name="body">The body, byte for byte.</param>
    public static string Of(string secret, long epochSeconds, ReadOnlySpan<byte> body)
    {
        ArgumentNullException.ThrowIfNull(secret);
        byte[] signed = [.. Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{epochSeconds}.")), .. body];
        return $"sha256={Hmac(Encoding.UTF8.GetBytes(secret), signed)}";
    }

    /// <summary>The HMAC-SHA-256 of a text as hexadecimal digits.</summary>
    public static string Hmac(byte[] key, byte[] text) => Convert.ToHexStringLower(HMACSHA256.HashData(key, text));
}
