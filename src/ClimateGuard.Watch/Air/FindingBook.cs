using ClimateGuard.Enclosure;

namespace ClimateGuard.Watch;

/// <summary>Opens and closes findings: a cause is told once its signs have lasted, and is over once they are gone for long enough. Owned by the loop.</summary>
/// <remarks>
/// Two limits keep it from chattering: it opens at even odds and stays down to <see cref="StaysAbove"/>, and both ways time must pass
/// (<see cref="FaultCause.OnAfter"/>, <see cref="FaultCause.OffAfter"/>). What cannot be judged for want of readings changes nothing.
/// </remarks>
internal sealed class FindingBook
{
    /// <summary>Below this the signs of a finding that stands count as gone (common practice, no source).</summary>
    public const double StaysAbove = 0.3;

    private const int MostClosed = 50;
    private const int MostAnswers = 40;
    private static readonly TimeSpan AnswersCount = TimeSpan.FromDays(1);

    private readonly Dictionary<FindingPlace, FindingTrack> tracks = [];
    private readonly List<FindingCase> closed = [];
    private readonly List<(string? AirHandler, GivenAnswer Answer)> answers = [];

    /// <summary>How likely each cause is to begin with, with what this site has verified.</summary>
    public CausePriors Priors { get; private set; } = CausePriors.Start;

    /// <summary>The findings that stand, sure ones first, then the likeliest.</summary>
    public IReadOnlyList<FindingCase> Standing =>
    [
        .. tracks.Values.Select(track => track.Standing).OfType<FindingCase>().OrderBy(f => f.State == FindingState.Hint)
            .ThenByDescending(f => f.Probability).ThenBy(f => f.Id, StringComparer.Ordinal),
    ];

    /// <summary>The findings closed last, newest first.</summary>
    public IReadOnlyList<FindingCase> Closed => [.. Enumerable.Reverse(closed)];

    /// <summary>The finding that stands with that id, or null.</summary>
    public FindingCase? Find(string id) => Standing.FirstOrDefault(finding => finding.Id == id);

    /// <summary>The answers that count at a moment for an air handler, the newest for each cause.</summary>
    public IReadOnlyList<CheckAnswer> AnswersFor(string? airHandler, DateTimeOffset moment) =>
    [
        .. answers.Where(a => a.AirHandler == airHandler && moment - a.Answer.Time < AnswersCount).GroupBy(a => a.Answer.Cause)
            .Select(group => new CheckAnswer(group.Key, group.MaxBy(a => a.Answer.Time).Answer.Seen)),
    ];

    /// <summary>
    /// Whether a cause that was told of an air handler stood at some time of a stretch; a hint does not count, nor what a person closed without having found it.
    /// </summary>
    /// <param name="airHandler">Id of the air handler.</param>
    /// <param name="from">Begin of the stretch.</param>
    /// <param name="to">Its end, exclusive.</param>
    public bool WasTold(string airHandler, DateTimeOffset from, DateTimeOffset to) => Standing.Concat(closed).Any(finding =>
        finding.Place.AirHandler == airHandler && finding.State != FindingState.Hint && (finding.By is null || finding.Verified is not null)
        && (finding.Onset ?? finding.OpenedAt) < to && (finding.ClosedAt ?? DateTimeOffset.MaxValue) > from);

    /// <summary>A book of its own that stands as this one does now.</summary>
    public FindingBook Copy()
    {
        var copy = new FindingBook { Priors = Priors };
        foreach (var (place, track) in tracks) copy.tracks[place] = track.Copy();
        copy.closed.AddRange(closed);
        copy.answers.AddRange(answers);
        return copy;
    }

    /// <summary>Takes what earlier workers told, oldest first; the newest line of a finding is how it stands.</summary>
    public void Restore(IReadOnlyList<FindingCase> told)
    {
        foreach (var finding in told)
        {
            var track = Track(finding.Place);
            if (finding.State != FindingState.Closed)
            {
                track.Standing = finding;
                continue;
            }

            if (track.Standing?.Id == finding.Id) track.Standing = null;
            Keep(finding);
            track.EndedAt = finding.ClosedAt;
            if (finding.By is not null) track.SettledAt = finding.ClosedAt;
            if (finding.Verified is { } verified) Priors = Priors.Closed(verified);
        }

        answers.AddRange(told.Where(f => f.Answers.Count > 0).GroupBy(f => f.Id).Select(group => group.Last())
            .SelectMany(f => f.Answers.Select(answer => (f.Place.AirHandler, answer))));
        Trim(told.Count > 0 ? told.Max(f => f.OpenedAt) : default);
    }

    /// <summary>Takes what a pass saw of one cause at one place.</summary>
    /// <param name="seen">What the ranking says, with the answers in.</param>
    /// <param name="stands">The probability over the last minutes alone; null when it cannot be told.</param>
    /// <param name="moment">The moment.</param>
    /// <returns>The finding when a person is to be told of it, else null.</returns>
    public FindingCase? Take(Finding seen, double? stands, DateTimeOffset moment)
    {
        var track = Track(FindingPlace.Of(seen.Assessment));
        if (track.Standing is { } standing) return Stays(track, standing, seen, stands, moment);
        var shows = seen.Flagged && stands >= 0.5;
        if (!shows)
        {
            track.ShowsSince = null;
            if (!seen.Flagged) track.SettledAt = null;
            return null;
        }

        track.ShowsSince ??= moment;
        if (track.SettledAt is { } settled && !(seen.Onset > settled)) return null;
        var cause = seen.Assessment.Cause;
        var began = seen.Onset is { } onset && !(onset <= track.EndedAt) ? onset : track.ShowsSince.Value;
        var lasted = moment - began;
        if (lasted < cause.OnAfter && !LiveSpan.NeedsDays(cause)) return null;
        track.SettledAt = null;
        track.GoneSince = null;
        return track.Standing = Begun(seen, lasted >= cause.OnAfter ? FindingState.Open : FindingState.Hint, moment);
    }

    /// <summary>A cause that no rule speaks of any more although there are readings: its signs count as gone.</summary>
    public FindingCase? Unseen(FindingPlace place, DateTimeOffset moment) =>
        tracks.TryGetValue(place, out var track) && track.Standing is { } standing ? Gone(track, standing, 0, moment) : null;

    /// <summary>Keeps the newest form of a finding that stands, without telling it.</summary>
    public void Renew(FindingCase finding) => Track(finding.Place).Standing = finding;

    /// <summary>Takes the answer of a check at a finding that stands.</summary>
    public FindingCase Answer(FindingCase finding, GivenAnswer answer)
    {
        answers.Add((finding.Place.AirHandler, answer));
        Trim(answer.Time);
        var next = finding with { Answers = [.. finding.Answers.TakeLast(MostAnswers - 1), answer] };
        Renew(next);
        return next;
    }

    /// <summary>A person closes a finding; a verified cause counts from now on in what is likely here.</summary>
    public FindingCase Close(FindingCase finding, DateTimeOffset moment, string by, string? verified, string? fixedBy)
    {
        var track = Track(finding.Place);
        (track.Standing, track.ShowsSince, track.SettledAt, track.EndedAt) = (null, null, moment, moment);
        if (verified is not null) Priors = Priors.Closed(verified);
        var because = verified is null ? "closed: the cause was not found" : $"closed with its cause: {Catalogue.Find(verified)?.Name}";
        return Keep(finding with
        {
            State = FindingState.Closed, ClosedAt = moment, ClosedBecause = because, By = by, Verified = verified, FixedBy = fixedBy, Impact = null,
        });
    }

    /// <summary>What the plant file no longer has cannot stand any more.</summary>
    public IReadOnlyList<FindingCase> CloseGone(Func<FindingPlace, bool> exists, DateTimeOffset moment) =>
    [
        .. tracks.Values.Where(track => track.Standing is { } standing && !exists(standing.Place)).ToArray()
            .Select(track => End(track, track.Standing!, "taken out of the plant file", moment)),
    ];

    private FindingCase? Stays(FindingTrack track, FindingCase standing, Finding seen, double? stands, DateTimeOffset moment)
    {
        if (stands is null) return null;
        var cause = seen.Assessment.Cause;
        if (stands < StaysAbove || seen.Probability < StaysAbove)
        {
            // The signs of the last minutes cover that time already; a day that does not show what takes days does not.
            var covered = stands < StaysAbove && !LiveSpan.NeedsDays(cause) ? LiveSpan.StandsMinutes(cause) : 0;
            return Gone(track, standing with { Probability = seen.Probability, Evidence = seen.Assessment.Evidence }, covered, moment);
        }

        track.GoneSince = null;
        var lasted = moment - (standing.Onset ?? seen.Onset ?? standing.OpenedAt);
        var sure = standing.State == FindingState.Hint && lasted >= cause.OnAfter;
        track.Standing = standing with
        {
            State = sure ? FindingState.Open : standing.State,
            Probability = seen.Probability,
            Evidence = seen.Assessment.Evidence,
            Missing = seen.Assessment.Missing,
            Onset = standing.Onset ?? seen.Onset,
        };
        return sure ? track.Standing : null;
    }

    private FindingCase? Gone(FindingTrack track, FindingCase standing, int coveredMinutes, DateTimeOffset moment)
    {
        track.GoneSince ??= moment;
        track.Standing = standing;
        var offAfter = Catalogue.Find(standing.Place.Cause)?.OffAfter ?? TimeSpan.Zero;
        return moment - track.GoneSince.Value + TimeSpan.FromMinutes(coveredMinutes) >= offAfter
            ? End(track, standing, standing.Answers.Any(a => a.Cause == standing.Place.Cause && !a.Seen) ? "the check spoke against it" : "its signs are gone", moment)
            : null;
    }

    private FindingCase End(FindingTrack track, FindingCase standing, string because, DateTimeOffset moment)
    {
        (track.Standing, track.ShowsSince, track.GoneSince, track.EndedAt) = (null, null, null, moment);
        return Keep(standing with { State = FindingState.Closed, ClosedAt = moment, ClosedBecause = because, Impact = null });
    }

    private FindingCase Keep(FindingCase finding)
    {
        closed.RemoveAll(known => known.Id == finding.Id);
        closed.Add(finding);
        if (closed.Count > MostClosed) closed.RemoveAt(0);
        return finding;
    }

    private FindingTrack Track(FindingPlace place)
    {
        if (!tracks.TryGetValue(place, out var track)) tracks[place] = track = new FindingTrack();
        return track;
    }

    private void Trim(DateTimeOffset now) => answers.RemoveAll(a => now - a.Answer.Time >= AnswersCount);

    private static FindingCase Begun(Finding seen, FindingState state, DateTimeOffset moment)
    {
        var place = FindingPlace.Of(seen.Assessment);
        var where = place.Sensor ?? place.Machine ?? place.AirHandler ?? place.Zone ?? "cell";
        var named = string.Concat($"{place.Cause}-{where}".Select(letter => char.IsAsciiLetterOrDigit(letter) ? letter : '-'));
        return new FindingCase
        {
            Id = FormattableString.Invariant($"{named}-{moment.UtcDateTime:yyyyMMddHHmm}"),
            Place = place,
            Words = seen.Assessment.Words,
            State = state,
            OpenedAt = moment,
            Probability = seen.Probability,
            Onset = seen.Onset,
            Evidence = seen.Assessment.Evidence,
            Missing = seen.Assessment.Missing,
            MovedFirst = seen.MovedFirst,
        };
    }
}
