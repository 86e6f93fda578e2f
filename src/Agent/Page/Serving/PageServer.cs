using System.Security.Cryptography.X509Certificates;
using CaptureAgent.Agent.Page.Api;
using CaptureAgent.Agent.Page.Guard;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Page.Serving;

/// <summary>The web server with its routes: small enough to be made anew when its port was busy.</summary>
internal static class PageServer
{
    private const int MostConnections = 500;

    private static readonly TimeSpan HeadersTime = TimeSpan.FromSeconds(10);

    /// <param name="certificate">Null: http.</param>
    public static WebApplication Build(PageParts parts, ListenAddress listen, X509Certificate2? certificate, ILoggerFactory loggers)
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore();
        if (certificate is not null)
            builder.WebHost.UseKestrelHttpsConfiguration();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            Limit(kestrel);
            Listen(kestrel, listen, certificate);
        });
        builder.Services.AddRoutingCore().AddSingleton(loggers).AddSingleton<IHostLifetime, NoLifetime>();
        var app = builder.Build();
        var gate = new Gate([.. ListenAddress.OwnNames(), .. parts.Station.Page.Hosts]);
        var access = new Access(parts.Store);
        app.Use(next => context => Problems.CatchAsync(context, next));
        app.Use(next => context => gate.PassAsync(context, next));
        app.Use(next => context => access.PassAsync(context, next));
        app.UseRouting();
        Map(app, parts);
        return app;
    }

    /// <summary>Every route there is; the OpenAPI document is held to this list by a test.</summary>
    private static void Map(WebApplication app, PageParts parts)
    {
        Assets.Map(app);
        LiveRoutes.Map(app, parts);
        RecordRoutes.Map(app, parts);
        CorrectionRoutes.Map(app, parts);
        RegisterRoutes.Map(app, parts);
        InstrumentRoutes.Map(app, parts);
        LabelRoutes.Map(app, parts);
        PairingRoutes.Map(app, parts);
    }

    private static void Limit(KestrelServerOptions kestrel)
    {
        kestrel.AddServerHeader = false;
        kestrel.Limits.MaxRequestBodySize = Gate.LargestBody;
        kestrel.Limits.MaxConcurrentConnections = MostConnections;
        kestrel.Limits.RequestHeadersTimeout = HeadersTime;
    }

    private static void Listen(KestrelServerOptions kestrel, ListenAddress listen, X509Certificate2? certificate)
    {
        void Secure(ListenOptions options)
        {
            if (certificate is not null)
                options.UseHttps(certificate);
        }

        if (listen.Address is { } address)
            kestrel.Listen(address, listen.Port, Secure);
        else
            kestrel.ListenAnyIP(listen.Port, Secure);
    }

    /// <summary>Signals are for the agent, which starts and stops the server itself.</summary>
    private sealed class NoLifetime : IHostLifetime
    {
        public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
