using System.Globalization;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Weight tests and what is told from it, in words that tables and reports share.</summary>
internal static partial class WeightTestWords
{
    private const string Unknown = "something this client has no words for: it is older than the server";

    private const int WeightDigits = 4;

    /// <summary>"72 %", "under 1 %", "over 99 %".</summary>
    /// <param name="probability">0 to 1.</param>
    public static string Probability(double probability) => probability switch
    {
        < 0.01 => "under 1 %",
        > 0.99 => "over 99 %",
        _ => string.Create(CultureInfo.InvariantCulture, $"{probability * 100:0} %"),
    };

    /// <summary>From the least to the most: "14.2 to 15.9", "at least 14.2, no upper bound"; empty where it is absent.</summary>
    public static string Interval(Interval? interval, Func<double, string> number) => Interval(interval, number, "");

    /// <summary>The same with a unit: "14.2 to 15.9 lbf", "at least 14.2 lbf, no upper bound".</summary>
    public static string Interval(Interval? interval, Func<double, string> number, string unit)
    {
        if (interval is null)
        {
            return "";
        }

        string before = unit.Length > 0 ? " " : "";
        string least = number(interval.Least);
        if (!interval.HasMost)
        {
            return $"at least {least}{before}{unit}, no upper bound";
        }

        string most = number(interval.Most);
        return least == most ? $"{least}{before}{unit}" : $"{least} to {most}{before}{unit}";
    }

    /// <summary>A weight that is hung, in as few digits as say it: "10 lbf", "nothing".</summary>
    public static string Weight(double weightN, Figures figures) =>
        weightN > 0 ? QuantityText.Format(weightN, QuantityKind.Force, figures.Units, WeightDigits) : "nothing";

    /// <summary>What nine in ten of everything possible lie within: "14.5 to 15.4"; empty where it is absent.</summary>
    public static string NineInTen(Interval? interval, Func<double, string> number) =>
        interval is { HasQuantile05: true, HasQuantile95: true }
            ? Interval(new Interval { Least = interval.Quantile05, Most = interval.Quantile95 }, number)
            : "";

    /// <summary>"25.6 (20.8 to 33.9)"; one number where the band has no spread.</summary>
    /// <param name="band">A band of the unit that the numbers are to have; what is absent locks.</param>
    /// <param name="number">Shows a number.</param>
    /// <param name="apart">What stands between the likely value and the ends.</param>
    public static string Band(ForceBand band, Func<double, string> number, string apart = " ")
    {
        string low = band.HasLow ? number(band.Low) : "locks";
        string likely = band.HasLikely ? number(band.Likely) : "locks";
        string high = band.HasHigh ? number(band.High) : "locks";
        return low == likely && likely == high ? likely : $"{likely}{apart}({low} to {high})";
    }

    /// <summary>Newtons at the near end for each at the far end, a bare number.</summary>
    public static string Slope(double slope) => slope.ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>"raise (pull)".</summary>
    public static string LoadCase(string loadCase, Direction direction) => direction switch
    {
        Direction.Pull => $"{loadCase} (pull)",
        Direction.Push => $"{loadCase} (push)",
        _ => loadCase,
    };

    /// <summary>"raise (pull)"; without the direction where the installation has no such load.</summary>
    public static string LoadCase(string loadCase, Installation installation) => LoadCase(
        loadCase,
        installation.LoadCases.FirstOrDefault(load => load.DisplayName == loadCase)?.Direction ?? Direction.Unspecified);

    /// <summary>What was connected: "whole chain, raise (pull)", "cable alone, coiled one turn at 10 in (pull)".</summary>
    /// <param name="connected">What.</param>
    /// <param name="loadCase">The load on the arm, or empty.</param>
    /// <param name="direction">What the core carried, or unspecified.</param>
    /// <param name="device">The inline device tested alone, or empty.</param>
    /// <param name="coilRadiusM">The radius it was coiled at, m; null: straight.</param>
    /// <param name="coilAngleRad">The angle it was coiled through, rad; null with a radius: one turn.</param>
    /// <param name="figures">The units.</param>
    public static string Connected(
        Connected connected,
        string loadCase,
        Direction direction,
        string device,
        double? coilRadiusM,
        double? coilAngleRad,
        Figures figures)
    {
        string what = connected switch
        {
            V1.Connected.WholeChain => "whole chain",
            V1.Connected.CableOffAtArm => "cable off at the arm",
            V1.Connected.HelmAlone => "helm alone",
            V1.Connected.CableAlone => coilRadiusM is { } radiusM
                ? $"cable alone, coiled {Turns(coilAngleRad ?? Math.Tau)} at {figures.ShortLength(radiusM)}"
                : "cable alone, laid straight",
            V1.Connected.ArmAlone => "arm alone",
            V1.Connected.InlineDeviceAlone => device.Length > 0 ? $"{device} alone" : "inline device alone",
            _ => Unknown,
        };
        return LoadCase(loadCase.Length > 0 ? $"{what}, {loadCase}" : what, direction);
    }

    /// <summary>What was connected in one series of a test.</summary>
    public static string Connected(SeriesEstimate estimate, TestSeries series, Figures figures) => Connected(
        estimate.Connected,
        estimate.LoadCase,
        estimate.Direction,
        estimate.InlineDevice,
        series.HasCoilRadiusM ? series.CoilRadiusM : null,
        series.HasCoilAngleRad ? series.CoilAngleRad : null,
        figures);

    /// <summary>What to connect in a next test.</summary>
    public static string Connected(NextTest next, Figures figures) => Connected(
        next.Connected,
        next.LoadCase,
        next.Direction,
        next.InlineDevice,
        next.HasCoilRadiusM ? next.CoilRadiusM : null,
        next.HasCoilAngleRad ? next.CoilAngleRad : null,
        figures);

    /// <summary>Where the force is read: "at the grip".</summary>
    public static string NearEnd(Connected connected) => connected switch
    {
        V1.Connected.WholeChain or V1.Connected.CableOffAtArm or V1.Connected.HelmAlone => "at the grip",
        V1.Connected.CableAlone => "at the cable's helm end",
        V1.Connected.ArmAlone => "where the cable attaches",
        V1.Connected.InlineDeviceAlone => "at its helm side",
        _ => Unknown,
    };

    /// <summary>Where the weight hangs: "at the arm's load radius".</summary>
    public static string FarEnd(Connected connected) => connected switch
    {
        V1.Connected.WholeChain or V1.Connected.ArmAlone => "at the arm's load radius",
        V1.Connected.CableOffAtArm => "on the free end of the cable",
        V1.Connected.HelmAlone => "where the cable attaches to the helm",
        V1.Connected.CableAlone => "on the cable's output end",
        V1.Connected.InlineDeviceAlone => "at its arm side",
        _ => Unknown,
    };

    /// <summary>A part of the chain.</summary>
    /// <param name="part">The part.</param>
    /// <param name="device">The inline device, or empty.</param>
    public static string Part(ChainPart part, string device) => part switch
    {
        ChainPart.UsefulLoad => "useful load",
        ChainPart.Arm => "driven arm",
        ChainPart.InlineDevice => Device(device),
        ChainPart.Cable => "cable on its route",
        ChainPart.Helm => "helm",
        _ => Unknown,
    };

    private static string Device(string device) => device.Length > 0 ? device : "inline device";

    private static string Turns(double angleRad)
    {
        double turns = angleRad / Math.Tau;
        return Math.Abs(turns - Math.Round(turns)) > 1e-6
            ? Figures.Angle(angleRad)
            : Math.Round(turns) switch
            {
                1 => "one turn",
                2 => "two turns",
                _ => "three turns",
            };
    }

    private static string Bend(Interval? bendRad) => Interval(
        bendRad, rad => (rad * 180 / Math.PI).ToString("0", CultureInfo.InvariantCulture), "deg");

    private static string Hung(double addedN, Figures figures) =>
        $"{Weight(addedN, figures)} hung";
}
