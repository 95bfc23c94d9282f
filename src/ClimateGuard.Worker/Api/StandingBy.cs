using ClimateGuard.Worker.Hosting;

namespace ClimateGuard.Worker.Api;

/// <summary>A worker without the lease may be looked at, but takes nothing in: what it took would wait for a decision that it may not make.</summary>
internal static class StandingBy
{
    public static ValueTask<object?> RefuseChangesAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var lease = context.HttpContext.RequestServices.GetRequiredService<CellLease>();
        return HttpMethods.IsGet(context.HttpContext.Request.Method) || lease.Refusal is not { } refusal
            ? next(context)
            : new(TypedResults.Problem($"{refusal} Nothing was taken in.", statusCode: StatusCodes.Status503ServiceUnavailable));
    }
}
