using System.Text;
using ClimateGuard.Edges.Webhook;

namespace ClimateGuard.Tests.Published;

/// <summary>RFC 4231, test vectors of HMAC-SHA-256, cases 1 and 2; digits from memory, exact.</summary>
public sealed class Rfc4231_Hmac
{
    [Fact]
    public void Case_1() => Assert.Equal(
        "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7",
        WebhookSignature.Hmac([.. Enumerable.Repeat((byte)0x0b, 20)], Encoding.ASCII.GetBytes("Hi There")));

    [Fact]
    public void Case_2() => Assert.Equal(
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
        WebhookSignature.Hmac(Encoding.ASCII.GetBytes("Jefe"), Encoding.ASCII.GetBytes("what do ya want for nothing?")));
}
