namespace CableCatalog.Client.Tests.Commands;

/// <summary>Slips of people in routes and rigging: one clear message each where it is in the file, and no result. Lengths by
/// hand.</summary>
public sealed class BadRouteInputTests(Workplace workplace) : IClassFixture<Workplace>
{
    public static TheoryData<string, string[]> Routes => new()
    {
        // A square corner takes its radius of either run: 30 in of 24 in; 30 in and 10 in of 36 in.
        {
            """
            name: corners that do not fit
            route:
              corners:
                - [0 ft, 0 ft, 0 ft]
                - { at: [2 ft, 0 ft, 0 ft], radius: 30 in }
                - { at: [2 ft, 3 ft, 0 ft], radius: 10 in }
                - [6 ft, 3 ft, 0 ft]
            """,
            [
                "5:41: radius: 30 in: must leave room for its bends on the run from corner 1 to corner 2: that is 0.6096 m (24 in), and "
                    + "0.1524 m (6 in) too short; the widest radius that would fit is 0.6096 m (24 in) at corner 2",
                "6:41: radius: 10 in: must leave room for its bends on the run from corner 2 to corner 3: that is 0.9144 m (36 in), and "
                    + "0.1016 m (4 in) too short; the widest radius that would fit is 0.6096 m (24 in) at corner 2 with "
                    + "0.254 m (10 in) at corner 3",
            ]
        },
        {
            """
            name: two corners in one place
            route:
              corners: [ [0 ft, 0 ft, 0 ft], [2 ft, 0 ft, 0 ft], [2 ft, 0 ft, 0 ft], [6 ft, 3 ft, 0 ft] ]
            """,
            ["3:54: corners 3: must differ from the corner before it: corners 2 and 3 are in the same place, within 0.001 m (0.04 in); leave one of "
                + "them out"]
        },
        {
            """
            name: a direction without length
            route: { start: { at: [0 ft, 0 ft, 0 ft], direction: [0, 0, 0] }, pieces: [ { straight: 4 ft } ] }
            """,
            ["2:54: direction: must not be 0 along all three axes: say which way the cable runs there, as (1, 0, 0) for forward"]
        },
        {
            """
            name: the same point twice
            route:
              measuring error: 4 mm
              measured points:
                - [0 mm, 0 mm, 0 mm]
                - [100 mm, 0 mm, 0 mm]
                - [100 mm, 0 mm, 0 mm]
                - [200 mm, 0 mm, 0 mm]
                - [300 mm, 0 mm, 0 mm]
            """,
            ["7:7: measured points 3: must differ from the point before it: points 2 and 3 are in the same place, within 0.001 m (0.04 in); "
                + "leave one of them out"]
        },
        {
            """
            name: an error that nobody has
            route: { measuring error: 1 m, measured points: [ [0 m, 0 m, 0 m], [1 m, 0 m, 0 m], [2 m, 0 m, 0 m], [3 m, 0 m, 0 m] ] }
            """,
            ["2:27: measuring error: 1 m: must be 0.1 to 100 mm (0.004 to 3.9 in)"]
        },
    };

    [Theory]
    [MemberData(nameof(Routes))]
    public async Task A_slip_in_a_route_is_answered_with_its_place(string text, string[] messages)
    {
        string file = workplace.Write("slip.yaml", text + "\n");

        (await workplace.RunAsync("route", file)).MustFail(2, [.. messages.Select(message => $"{file}:{message}")]);
    }

    [Theory]
    [InlineData(
        "route",
        "from: [-7.5 ft, -4 ft, 0 ft], to: [-4 ft, 0.5 ft, 4.5 ft]",
        "from: [-1 ft, -4 ft, 0 ft], to: [1 ft, 2 ft, 7 ft]",
        "74:7: obstacles 1: must not hold the helm end of the cable: that lies 0.1524 m (6 in) inside, at (0, 0, 1.9812) m; correct the "
            + "box or the place")]
    [InlineData(
        "rig",
        "holes: [3 in, 3.5 in, 4 in, 4.5 in]",
        "holes: [3 in, 3.5 in, 4 in, 14.5 in]",
        "44:31: holes 4: 14.5 in: must lie on the arm, which ends 0.2286 m (9 in) from its pivot; found 0.3683 m (14.5 in)")]
    public async Task A_slip_in_a_boat_is_answered_with_its_place(string command, string written, string slip, string message)
    {
        string text = await File.ReadAllTextAsync(Repository.Demo("plover-routes"));
        string file = workplace.Write("slip.yaml", text.Replace(written, slip, StringComparison.Ordinal));

        (await workplace.RunAsync(command, file)).MustFail(2, $"{file}:{message}");
    }

    [Theory]
    [InlineData("route")]
    [InlineData("rig")]
    public async Task A_grade_that_there_is_not_is_the_commands_slip_and_not_the_files(string command) =>
        (await workplace.RunAsync(command, Repository.Demo("plover-routes"), "--grade", "flint")).MustFail(
            2, "--grade must be a grade of this catalogue, which has no \"flint\"; list the grades to see which it has");

    // The arm end of a route of corners, 9 ft aft of the helm's.
    [Fact]
    public async Task A_box_that_the_cable_ends_at_is_not_one_that_it_ends_in()
    {
        string file = workplace.Write(
            "beside.yaml",
            """
            name: beside the tank
            helm: { grip radius: 11 in, crank radius: 3 in, sweep: 80 deg }
            arm: { load radius: 8 in, hole radius: 4 in }
            route:
              corners:
                - { at: [0 ft, 0 ft, 5 ft] }
                - { at: [-2 ft, 0 ft, 5 ft], radius: 9 in }
                - { at: [-2 ft, 0 ft, 1 ft], radius: 9 in }
                - { at: [-9 ft, 2 ft, 1 ft] }
            space: { obstacles: [ { name: tank, from: [-10 ft, -1 ft, 0 ft], to: [-3 ft, 2 ft, 2 ft] } ] }
            loads: [ { name: raise, direction: pull, force: 15 lbf } ]
            present cable: { friction: 0.25 }

            """);

        Assert.Equal(0, (await workplace.RunAsync("route", file)).Code);
    }

    // A wall with the arm behind it, wider than a cable may be long: only the wall can go.
    [Fact]
    public async Task Where_there_is_no_way_it_is_said_what_to_give_up()
    {
        string text = await File.ReadAllTextAsync(Repository.Demo("plover-routes"));
        string file = workplace.Write(
            "wall.yaml",
            text.Replace(
                "from: [-7.5 ft, -4 ft, 0 ft], to: [-4 ft, 0.5 ft, 4.5 ft]",
                "from: [-7.5 ft, -400 ft, -400 ft], to: [-4 ft, 400 ft, 400 ft]",
                StringComparison.Ordinal));

        string sheet = OneLine((await workplace.RunAsync("route", file, "--propose", "--grade", "glass")).Result);

        Assert.Contains(
            "With a least bend radius of 9 in no route was found. There is one if fuel tank were moved out of the way.",
            sheet,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_stop_that_is_never_reached_is_a_reason_not_to_run_the_boat()
    {
        string text = await File.ReadAllTextAsync(Repository.Demo("dunlin-shift"));
        string file = workplace.Write("far.yaml", text.Replace("clearance: 0.55 in", "clearance: 3.5 in", StringComparison.Ordinal));

        string sheet = OneLine((await workplace.RunAsync("rig", file)).Result);

        Assert.Contains("the arm does not reach its stop", sheet, StringComparison.Ordinal);
        Assert.Contains("do not run the boat so", sheet, StringComparison.Ordinal);
    }

    private static string OneLine(string sheet) => string.Join(' ', sheet.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
