using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary>Answers that say what was wrong, as problem details (RFC 9457).</summary>
internal static class Problem
{
    public static ProblemHttpResult BadRequest(string detail) => TypedResults.Problem(detail, statusCode: StatusCodes.Status400BadRequest);

    public static ProblemHttpResult Unavailable(string detail) => TypedResults.Problem(detail, statusCode: StatusCodes.Status503ServiceUnavailable);

    public static ProblemHttpResult NotFound(string detail) => TypedResults.Problem(detail, statusCode: StatusCodes.Status404NotFound);

    public static ProblemHttpResult Conflict(string detail) => TypedResults.Problem(detail, statusCode: StatusCodes.Status409Conflict);
}
