using ClimateGuard.Edges.Mail;
using ClimateGuard.Edges.Notices;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using MimeKit;

namespace ClimateGuard.Tests.Edges.Mail;

public sealed class MailSenderTests : IAsyncDisposable
{
    private static readonly CancellationToken None = CancellationToken.None;
    private static readonly DateTimeOffset Morning = new(2026, 3, 2, 7, 0, 0, TimeSpan.Zero);

    private readonly SmtpSink sink = new();
    private readonly TemporaryStore place = new();

    public async ValueTask DisposeAsync()
    {
        await sink.DisposeAsync();
        place.Dispose();
    }

    [Fact]
    public async Task A_notice_arrives_as_text_and_as_the_same_in_html_with_its_key_as_message_id()
    {
        await Sender().SendAsync(Notice() with { Lines = ["M4: 31 µm <b>now</b> & \"then\""] }, None);

        var mail = Received(0);
        Assert.Equal("cell4.notice.x.1@example.org", mail.MessageId);
        Assert.Equal("cell4: hold on M4", mail.Subject);
        Assert.Equal("auto-generated", mail.Headers[HeaderId.AutoSubmitted]);
        Assert.Contains("M4: 31 µm <b>now</b> & \"then\"", mail.TextBody, StringComparison.Ordinal);
        Assert.Contains("What to do: Probe the datum again.", mail.TextBody, StringComparison.Ordinal);
        Assert.Contains("M4: 31 &#181;m &lt;b&gt;now&lt;/b&gt; &amp; &quot;then&quot;", mail.HtmlBody, StringComparison.Ordinal);
        Assert.DoesNotContain("<b>", mail.HtmlBody, StringComparison.Ordinal);
        Assert.Null(mail.InReplyTo);
    }

    [Fact]
    public async Task A_follow_up_goes_on_in_the_same_conversation()
    {
        await Sender().SendAsync(Notice() with { Key = "cell4.notice.x.2", GoesOnFrom = "cell4.notice.x.1" }, None);
        Assert.Equal("cell4.notice.x.1@example.org", Received(0).InReplyTo);
        Assert.Equal(["cell4.notice.x.1@example.org"], Received(0).References);
    }

    [Fact]
    public async Task A_text_from_outside_cannot_smuggle_in_headers_or_receivers()
    {
        await Sender().SendAsync(Notice() with { Subject = "hold\r\nBcc: all@example.org", Lines = [".", "a\r\n.\r\nMAIL FROM:<x@y.z>"] }, None);
        Assert.Empty(Received(0).Bcc);
        Assert.Equal("hold  Bcc: all@example.org", Received(0).Subject);
        Assert.Single(sink.Commands, command => command.StartsWith("MAIL", StringComparison.Ordinal));
    }

    [Fact]
    public async Task One_receiver_that_is_refused_does_not_keep_it_from_the_others()
    {
        sink.Answers["RCPT TO:<gone@example.org>"] = "550 no such user";
        await Sender("gone@example.org", "shift@example.org").SendAsync(Notice(), None);
        Assert.Single(sink.Messages);
        Assert.Contains(place.Complaints, line => line.Contains("refused the receiver gone@example.org: 550 no such user", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("550 no such user", true)]
    [InlineData("450 try later", false)]
    public async Task When_no_receiver_is_accepted_the_answer_says_whether_to_try_again(string answer, bool forGood)
    {
        sink.Answers["RCPT"] = answer;
        var failed = await Assert.ThrowsAsync<DeliveryFailedException>(() => Sender().SendAsync(Notice(), None));
        Assert.Equal(forGood, failed.ForGood);
        Assert.Contains(answer, failed.Message, StringComparison.Ordinal);
        Assert.Empty(sink.Messages);
    }

    [Theory]
    [InlineData(".", "554 looks like spam", true)]
    [InlineData(".", "451 disk full", false)]
    [InlineData("MAIL", "550 who are you", false)]
    public async Task A_refusal_of_the_message_itself_is_for_good_and_of_anything_else_is_not(string command, string answer, bool forGood)
    {
        sink.Answers[command] = answer;
        var failed = await Assert.ThrowsAsync<DeliveryFailedException>(() => Sender().SendAsync(Notice(), None));
        Assert.Equal(forGood, failed.ForGood);
        Assert.StartsWith($"127.0.0.1:{sink.Port} answers {answer[..3]}: ", failed.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_server_that_wants_an_account_is_said_so()
    {
        sink.Answers["MAIL"] = "530 log in first";
        var failed = await Assert.ThrowsAsync<DeliveryFailedException>(() => Sender().SendAsync(Notice(), None));
        Assert.Equal($"127.0.0.1:{sink.Port} wants us to log in: set Mail:Username and Mail:PasswordFile. log in first", failed.Message);
        Assert.False(failed.ForGood);
    }

    [Fact]
    public async Task A_server_that_hangs_up_after_taking_it_has_taken_it()
    {
        sink.Answers["QUIT"] = "nonsense";
        await Sender().SendAsync(Notice(), None);
        Assert.Single(sink.Messages);
    }

    [Fact]
    public async Task A_server_without_starttls_gets_nothing()
    {
        var failed = await Assert.ThrowsAsync<DeliveryFailedException>(
            () => new MailSender(Settings() with { Security = "startTls" }, place).SendAsync(Notice(), None));
        Assert.Contains("offers no startTls: check Mail:Security and Mail:Port.", failed.Message, StringComparison.Ordinal);
        Assert.Empty(sink.Messages);
    }

    [Fact]
    public async Task A_server_that_is_not_there_is_said_so()
    {
        var port = sink.Port;
        await sink.DisposeAsync();
        var failed = await Assert.ThrowsAsync<DeliveryFailedException>(() => new MailSender(Settings() with { Port = port }, place).SendAsync(Notice(), None));
        Assert.Equal($"127.0.0.1:{port} cannot be reached (ConnectionRefused): check Mail:Host, Mail:Port and the network.", failed.Message);
    }

    private static Notice Notice() => TestNotice.Of("cell4.notice.x.1", "here", Morning) with
    {
        Cell = "cell4", Kind = NoticeKind.Opened, Subject = "cell4: hold on M4", Action = "Probe the datum again.",
    };

    private MimeMessage Received(int index)
    {
        using var text = new MemoryStream(System.Text.Encoding.UTF8.GetBytes(sink.Messages[index]));
        return MimeMessage.Load(text);
    }

    private MailSettings Settings(params string[] to) => new()
    {
        Host = "127.0.0.1", Port = sink.Port, Security = "none", From = "ClimateGuard <climateguard@example.org>", To = to.Length > 0 ? to : ["shift@example.org"],
    };

    private MailSender Sender(params string[] to) => new(Settings(to), place);
}
