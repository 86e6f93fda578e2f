using System.Globalization;
using CaptureAgent.Benchmarks.Reporting;

namespace CaptureAgent.Benchmarks.Pages;

/// <summary>The page's figures: from the commit to the pixels, the first load, what open pages cost.</summary>
internal static class PageFigures
{
    private const double TargetPixels = 150, TargetPaint = 1000, TargetBytes = 150_000, TargetPercent = 5;

    public static async Task<int> RunAsync()
    {
        var load = Machine.Load();
        await using var browser = await Browser.StartAsync();
        var slow = await FirstLoad.MeasureAsync(browser, isSlow: true);
        var plain = await FirstLoad.MeasureAsync(browser, isSlow: false);
        var seenLoad = Machine.Load();
        var seen = await SeenWeights.MeasureAsync(browser);
        var openLoad = Machine.Load();
        var open = await OpenPages.MeasureAsync();
        var extra = 100 * (open.With - open.Without) / open.Seconds;
        ResultFile.Write("page", Machine.Describe(load, Path.GetTempPath()), string.Create(CultureInfo.InvariantCulture, $"""
            {browser.Version}, without a window and without a graphics card, on the same machine as the agents.

            ## From the commit to the pixels

            {SeenWeights.Stations} real agents with a simulated scale at 10 Hz on pseudo-terminals, {SeenWeights.ChicksEach} chicks each, one open page "now" (1280 x 800) for each agent. The page's own clock is
            read in the task after the frame in which the weight is first drawn. All clocks are this machine's. Load when this part began: {seenLoad}. Not seen on the page: {seen.Missed}.

            {Spread.Head}
            {seen.FromAt.Row("the event's own moment ... painted (decision and commit are in it)")}
            {seen.FromTold.Row("event read on standard output, right after its commit ... painted")}
            {seen.Commits.Row("of the first row: the event's moment ... read on standard output")}
            {seen.Asked.Row("baseline: the event's moment ... known to a script that asks once a second")}

            Target: median {TargetPixels:0} ms. A negative value in the second row: the browser was quicker than this program's own reading thread.

            ## The first load on a phone

            {FirstLoad.Loads} loads of "now" (412 x 860), each with an empty cache. Slow: {FirstLoad.LatencyMilliseconds} ms for each request, {FirstLoad.BytesDown * 8 / 1e6:0.0} Mbit/s down, {FirstLoad.BytesUp * 8 / 1e6:0.00} Mbit/s up,
            the processor {FirstLoad.CpuSlower} times slower (browser's own throttling). Bytes on the wire with headers, without the event stream: {slow.Bytes} in {slow.Requests} requests.

            {Spread.Head}
            {slow.Paint.Row("slow: navigation ... first contentful paint")}
            {slow.Shown.Row("slow: navigation ... the moment at the pan is drawn")}
            {plain.Paint.Row("baseline, not throttled: navigation ... first contentful paint")}
            {plain.Shown.Row("baseline, not throttled: navigation ... the moment at the pan is drawn")}

            Target: {TargetBytes:0} bytes, {TargetPaint:0} ms to the first paint.

            ## Fifty open pages

            Two agents side by side in the same round of {OpenPages.Chicks} chicks, scale at 10 Hz, a probe in formula that is told each second; {open.Seconds:0} s. One has {OpenPages.Pages} listeners on its stream, of which
            {OpenPages.OfRound} ask for the round at each change ({open.Messages} messages, {open.Requests} rounds). Load when this part began: {openLoad}.

            | agent | user + system s | of a core |
            | --- | --- | --- |
            | with {OpenPages.Pages} open pages | {open.With:0.00} | {100 * open.With / open.Seconds:0.00} % |
            | baseline: with none | {open.Without:0.00} | {100 * open.Without / open.Seconds:0.00} % |
            | the pages | {open.With - open.Without:0.00} | {extra:0.00} % |

            Target: {TargetPercent:0} % of a core for the pages.
            """));
        return 0;
    }
}
