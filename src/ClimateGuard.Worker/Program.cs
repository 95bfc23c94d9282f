using ClimateGuard.Worker.Commands;

return await CommandLine.RunAsync(args);
