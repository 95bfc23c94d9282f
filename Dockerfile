# The worker in a container. It binds HTTP to loopback only, so run it with the host's network:
#   docker run --network host -v ./config:/app/config:ro -v climateguard:/var/lib/climateguard climateguard run
FROM mcr.microsoft.com/dotnet/sdk:10.0 AS build
WORKDIR /source
COPY . .
RUN dotnet publish src/ClimateGuard.Worker -c Release -o /app

FROM mcr.microsoft.com/dotnet/aspnet:10.0
WORKDIR /app
COPY --from=build /app .
ENV CLIMATEGUARD_Storage__Path=/var/lib/climateguard
RUN mkdir -p /var/lib/climateguard && chown "$APP_UID" /var/lib/climateguard
VOLUME /var/lib/climateguard
USER $APP_UID
ENTRYPOINT ["./climateguard"]
CMD ["run"]
