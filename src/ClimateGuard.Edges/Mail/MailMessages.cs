using System.Net;
using System.Text;
using ClimateGuard.Watch;
using MimeKit;

namespace ClimateGuard.Edges.Mail;

/// <summary>Writes a notice as mail: plain text, and the same in plain HTML.</summary>
/// <remarks>
/// Message-ID is the key of the notice, so a mail that comes twice can be told as such; a follow-up names the first message of its cause in
/// In-Reply-To and References (RFC 5322), so mail programs show one conversation. Auto-Submitted keeps vacation answers away (RFC 3834).
/// </remarks>
internal static class MailMessages
{
    public static MimeMessage Of(Notice notice, MailSettings settings)
    {
        var from = MailboxAddress.Parse(settings.From);
        var domain = from.Address[(from.Address.LastIndexOf('@') + 1)..];
        var message = new MimeMessage { Subject = OneLine(notice.Subject), MessageId = $"{notice.Key}@{domain}", Date = notice.Time };
        message.From.Add(from);
        message.To.AddRange(settings.To.Select(MailboxAddress.Parse));
        if (notice.GoesOnFrom is { } first)
        {
            message.InReplyTo = $"{first}@{domain}";
            message.References.Add($"{first}@{domain}");
        }

        if (notice.Priority == AlertPriority.High)
        {
            message.Importance = MessageImportance.High;
        }

        message.Headers.Add(HeaderId.AutoSubmitted, "auto-generated");
        message.Body = new BodyBuilder { TextBody = Text(notice), HtmlBody = Html(notice) }.ToMessageBody();
        return message;
    }

    private static string Text(Notice notice)
    {
        var text = new StringBuilder();
        foreach (var line in notice.Lines)
        {
            text.AppendLine(OneLine(line)).AppendLine();
        }

        return text.Append("What to do: ").AppendLine(OneLine(notice.Action)).AppendLine().AppendLine("-- ").AppendLine(Footer(notice)).ToString();
    }

    private static string Html(Notice notice)
    {
        var html = new StringBuilder("<!DOCTYPE html><html lang=\"en\"><head><meta charset=\"utf-8\"></head><body>");
        foreach (var line in notice.Lines)
        {
            html.Append("<p>").Append(Escaped(line)).Append("</p>");
        }

        return html.Append("<p><strong>What to do:</strong> ").Append(Escaped(notice.Action)).Append("</p><hr><p><small>")
            .Append(Escaped(Footer(notice))).Append("</small></p></body></html>").ToString();
    }

    private static string Footer(Notice notice) =>
        $"ClimateGuard, cell {notice.Cell}. Not a safety device. Key {notice.Key}; the same key twice is the same message.";

    private static string Escaped(string text) => WebUtility.HtmlEncode(OneLine(text));

    private static string OneLine(string text) => string.Concat(text.Select(letter => char.IsControl(letter) ? ' ' : letter));
}
