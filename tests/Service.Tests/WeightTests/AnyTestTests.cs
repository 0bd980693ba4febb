using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;

namespace CableCatalog.Service.Tests.WeightTests;

/// <summary>Whatever is within the limits, however odd, is answered in finite numbers, or refused for a contradiction.</summary>
public sealed class AnyTestTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private const int Count = 8;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task Any_test_within_the_limits_is_answered_in_finite_numbers(int seed)
    {
        var random = new Random(seed);
        (int answered, int explained) = (0, 0);
        for (int i = 0; i < Count; i++)
        {
            WeightTest test = Any(random);
            if (await DiagnoseAsync(test) is not { } diagnosis)
            {
                continue;
            }

            answered++;
            await ProveAndScoreAsync(test);

            // The same with readings that sound parts might give.
            foreach ((TestSeries series, SeriesEstimate estimate) in test.Series.Zip(diagnosis.SeriesEstimates))
            {
                Plausible(series, estimate);
            }

            explained += await DiagnoseAsync(test) is { PossibleChainCount: > 0 } ? 1 : 0;
            await ProveAndScoreAsync(test);
        }

        Assert.True(answered > Count / 4, $"{answered} of {Count} answered");
        Assert.True(explained > Count / 8, $"{explained} of {Count} explained");
    }

    private async Task<DiagnoseInstallationResponse?> DiagnoseAsync(WeightTest test)
    {
        try
        {
            DiagnoseInstallationResponse diagnosis = await service.Testing.DiagnoseInstallationAsync(
                new DiagnoseInstallationRequest { Test = test });
            AssertFinite(diagnosis, test);
            return diagnosis;
        }
        catch (RpcException failure) when (failure.StatusCode == StatusCode.InvalidArgument)
        {
            Assert.Contains("must not contradict series", failure.Status.Detail, StringComparison.Ordinal);
            return null;
        }
    }

    private async Task ProveAndScoreAsync(WeightTest test)
    {
        try
        {
            AssertFinite(
                await service.Scoring.ScoreGradesAsync(
                    new ScoreGradesRequest { Installation = test.Installation, TestSeries = { test.Series } }),
                test);
            WeightTest after = test.Clone().With(t => t.FittedGrade = "grades/g3");
            AssertFinite(
                await service.Testing.VerifyCableAsync(new VerifyCableRequest { Before = test, After = after }), test);
        }
        catch (RpcException failure) when (failure.StatusCode == StatusCode.InvalidArgument)
        {
            Assert.Matches("must not contradict series|with the whole chain|made up to", failure.Status.Detail);
        }
    }

    private static void Plausible(TestSeries series, SeriesEstimate estimate)
    {
        series.Readings.Clear();
        foreach (PredictedAtWeight at in estimate.Predicted.Where((_, i) => i % 4 == 0))
        {
            var reading = new WeightReading { AddedN = at.AddedN, HeldN = Math.Min(9e4, 0.9 * at.EffortN.Low) };
            if (at.EffortN.HasHigh)
            {
                reading.MovedN = Math.Min(1e5, 1.3 * at.EffortN.High);
            }

            series.Readings.Add(reading);
        }
    }

    private static WeightTest Any(Random random)
    {
        Installation installation = TestGrades.Installation();
        installation.LoadCases[0].ForceN = random.Next(3) == 0 ? 0 : Between(random, 0.001, 1e5);
        if (random.Next(2) == 0)
        {
            installation.LoadCases.Add(new LoadCase
            {
                DisplayName = "lower", Direction = Direction.Push, ForceN = Between(random, 0.01, 1000),
            });
        }

        if (random.Next(2) == 0)
        {
            installation.PresentCable.CoreBendingStiffnessNM2 = Between(random, 1e-4, 10);
            installation.PresentCable.DiametralClearanceM = Between(random, 1e-5, 0.02);
        }

        double friction = random.Next(4) == 0 ? 0 : Between(random, 0.001, 1);
        installation.PresentCable.Friction = TestGrades.Exactly(friction);
        if (random.Next(2) == 0)
        {
            installation.InlineDevices[0].CableEnd = CableEnd.Arm;
            installation.InlineDevices[0].ForceRatio = Between(random, 0.01, 100);
        }

        if (random.Next(3) == 0)
        {
            (installation.Helm.Efficiency, installation.Arm.Efficiency) = (Between(random, 0.01, 1), 1);
        }

        return new WeightTest
        {
            Installation = installation,
            Series = { Enumerable.Range(0, random.Next(1, 4)).Select(_ => AnySeries(random, installation)) },
        };
    }

    private static TestSeries AnySeries(Random random, Installation installation)
    {
        var connected = (Connected)random.Next(1, 7);
        LoadCase load = installation.LoadCases[random.Next(installation.LoadCases.Count)];
        var series = new TestSeries
        {
            Connected = connected,
            LoadCase = connected is Connected.WholeChain or Connected.ArmAlone ? load.DisplayName : "",
            Direction = connected is Connected.CableOffAtArm or Connected.CableAlone ? (Direction)random.Next(1, 3) : default,
        };
        if (random.Next(2) == 0)
        {
            series.ForceUncertaintyN = Between(random, 0.001, 100);
            series.WeightUncertaintyN = Between(random, 0.001, 100);
        }

        if (connected == Connected.CableAlone && random.Next(2) == 0)
        {
            series.CoilRadiusM = Between(random, 0.005, 0.8);
        }

        double slope = Between(random, 0.01, 10);
        double baselineN = Between(random, 0.01, 1e4);
        for (int i = random.Next(1, 5); i > 0; i--)
        {
            double addedN = random.Next(3) == 0 ? 0 : Between(random, 0.001, 1e4);
            double heldN = Math.Min(5e4, baselineN + (slope * addedN)) * Between(random, 0.9, 1.1);
            var reading = new WeightReading { AddedN = addedN };
            int which = random.Next(6);
            if (which != 0)
            {
                reading.HeldN = heldN;
            }

            if (which != 1)
            {
                reading.MovedN = heldN * Between(random, 1, 1.5);
            }

            series.Readings.Add(reading);
        }

        return series;
    }

    private static double Between(Random random, double from, double to) => from * Math.Pow(to / from, random.NextDouble());

    private static void AssertFinite(IMessage message, WeightTest test)
    {
        foreach (FieldDescriptor field in message.Descriptor.Fields.InDeclarationOrder())
        {
            object? value = field.Accessor.GetValue(message);
            switch (value)
            {
                case double number:
                    Assert.True(double.IsFinite(number), $"{message.Descriptor.Name}.{field.Name} of {test} is {number}");
                    break;
                case IMessage inner:
                    AssertFinite(inner, test);
                    break;
                case System.Collections.IEnumerable many and not string:
                    foreach (object? one in many)
                    {
                        if (one is IMessage item)
                        {
                            AssertFinite(item, test);
                        }
                        else if (one is double number)
                        {
                            Assert.True(double.IsFinite(number), $"{message.Descriptor.Name}.{field.Name} of {test}");
                        }
                    }

                    break;
            }

            if (message is Interval interval)
            {
                Assert.True(!interval.HasMost || interval.Most >= interval.Least, $"{interval} of {test}");
            }
        }
    }
}
