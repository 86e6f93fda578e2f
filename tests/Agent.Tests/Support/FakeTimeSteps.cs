using Microsoft.Extensions.Time.Testing;

namespace CaptureAgent.Agent.Tests.Support;

/// <summary>Moves fake time in small steps with real turns between, so that a timer that is set a moment late still fires.</summary>
internal static class FakeTimeSteps
{
    private static readonly TimeSpan Step = TimeSpan.FromSeconds(1);

    extension(FakeTimeProvider time)
    {
        public async Task AdvanceInStepsAsync(TimeSpan by, CancellationToken cancellationToken)
        {
            for (var passed = TimeSpan.Zero; passed < by; passed += Step)
                await time.StepAsync(cancellationToken);
        }

        /// <summary>Until the condition holds; gives up, rather than hangs, after an hour of fake time.</summary>
        public async Task AdvanceUntilAsync(Func<bool> condition, CancellationToken cancellationToken)
        {
            for (var turn = 0; turn < 3600; turn++)
            {
                if (condition())
                    return;
                await time.StepAsync(cancellationToken);
            }

            throw new TimeoutException("It did not come about in an hour of fake time.");
        }

        private async Task StepAsync(CancellationToken cancellationToken)
        {
            time.Advance(Step);
            await Task.Delay(1, cancellationToken);
        }
    }
}
