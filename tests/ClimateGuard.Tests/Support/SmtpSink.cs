using System.Net;
using System.Net.Sockets;
using System.Text;

namespace ClimateGuard.Tests.Support;

/// <summary>A mail server on this computer that keeps what it is given: just enough of RFC 5321 for one client at a time.</summary>
internal sealed class SmtpSink : IAsyncDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource end = new();
    private readonly Task running;
    private readonly int port;

    public SmtpSink()
    {
        listener.Start();
        port = ((IPEndPoint)listener.LocalEndpoint).Port;
        running = RunAsync();
    }

    public int Port => port;

    /// <summary>The messages as they came, headers and body.</summary>
    public List<string> Messages { get; } = [];

    /// <summary>The commands as they came.</summary>
    public List<string> Commands { get; } = [];

    /// <summary>Answers instead of the usual 250, by the begin of the command; <c>.</c> stands for the end of the message.</summary>
    public Dictionary<string, string> Answers { get; } = [];

    public async ValueTask DisposeAsync()
    {
        await end.CancelAsync();
        listener.Dispose();
        await running;
    }

    private async Task RunAsync()
    {
        while (!end.IsCancellationRequested)
        {
            try
            {
                using var client = await listener.AcceptTcpClientAsync(end.Token);
                await ServeAsync(client.GetStream());
            }
            catch (Exception gone) when (gone is OperationCanceledException or IOException or SocketException)
            {
                continue;
            }
        }
    }

    private async Task ServeAsync(NetworkStream stream)
    {
        using var reader = new StreamReader(stream, Encoding.UTF8);
        await using var writer = new StreamWriter(stream, new UTF8Encoding(false)) { NewLine = "\r\n", AutoFlush = true };
        await writer.WriteLineAsync("220 sink ESMTP");
        while (await reader.ReadLineAsync(end.Token) is { } command)
        {
            Commands.Add(command);
            await writer.WriteLineAsync(Answer(command, "250 OK"));
            if (command == "DATA")
            {
                var message = new StringBuilder();
                while (await reader.ReadLineAsync(end.Token) is { } line && line != ".")
                {
                    message.AppendLine(line.StartsWith('.') ? line[1..] : line);
                }

                Messages.Add(message.ToString());
                await writer.WriteLineAsync(Answer(".", "250 kept"));
            }
            else if (command == "QUIT")
            {
                return;
            }
        }
    }

    private string Answer(string command, string usual)
    {
        var own = Answers.FirstOrDefault(pair => command.StartsWith(pair.Key, StringComparison.OrdinalIgnoreCase));
        return own.Value ?? (command == "DATA" ? "354 go on" : command.StartsWith("QUIT", StringComparison.Ordinal) ? "221 bye" : usual);
    }
}
