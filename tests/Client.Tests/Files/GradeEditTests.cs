using CableCatalog.Client.Files;
using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Client.Tests.Files;

public class GradeEditTests
{
    [Fact]
    public void Assignments_change_what_they_name_and_nothing_else()
    {
        GradeEdit edit = Assigned("friction=0.12", "price.base=30 USD", "minimum bend radius = 8 in", "Name=Plain=simple");

        Assert.Equal(["friction", "price.base", "min_bend_radius_m", "display_name"], edit.Mask.Paths);
        Assert.Equal(
            new Grade
            {
                Friction = new Band { Low = 0.12, Likely = 0.12, High = 0.12 },
                Price = new Price { Base = new Money { Units = 30, CurrencyCode = "USD" } },
                MinBendRadiusM = 0.2032,
                DisplayName = "Plain=simple",
            },
            edit.Grade);
        Assert.Null(edit.Id);
    }

    [Fact]
    public void A_file_with_some_keys_changes_those()
    {
        const string Text = """
            id: slate
            price: { per length: 7 USD/m, date: 2026-11-02 }
            friction: { likely: 0.14 }
            rated pull: 200 N
            """;

        GradeEdit edit = Read(Text);

        Assert.Equal("slate", edit.Id);
        Assert.Equal(["price.per_metre", "price.price_date", "friction.likely", "rated_pull_n"], edit.Mask.Paths);
        Grade grade = edit.Grade;
        Assert.Equal(
            (7L, 11, 0.14, 200.0),
            (grade.Price.PerMetre.Units, grade.Price.PriceDate.Month, grade.Friction.Likely, grade.RatedPullN));
        Assert.Equal(new SourceMark("edit.yaml", new TextPlace(3, 21), "likely", "0.14"), edit.Sources.Find("friction.likely"));
    }

    [Fact]
    public void A_group_that_is_whole_is_changed_as_a_whole()
    {
        Assert.Equal(
            ["price", "friction", "lengths_made"],
            Read("""
                price: { base: 1 USD, per length: 7 USD/m, fittings: 2 USD, date: 2026-11-02 }
                friction: { low: 0.1, likely: 0.14, high: 0.2 }
                lengths made: { shortest: 1 m, longest: 2 m, step: 1 m }
                """).Mask.Paths);
        Assert.Equal(["friction"], Assigned("friction.low=0.1", "friction.high=0.2", "friction.likely=0.15").Mask.Paths);
    }

    [Fact]
    public void Nothing_clears_a_field_that_may_be_absent()
    {
        GradeEdit assigned = Assigned("seal drag=", "rated push=");
        Assert.Equal(["seal_drag_n", "rated_push_n"], assigned.Mask.Paths);
        Assert.Equal(new Grade(), assigned.Grade);
        Assert.Equal(["seal_drag_n", "core"], Read("seal drag:\ncore: ~\n").Mask.Paths);
    }

    [Theory]
    [InlineData("friction=", "friction: expected a ratio such as 0.95; found nothing")]
    [InlineData("friction", "\"friction\" is not a key and a value; write for example \"friction=0.12\"")]
    [InlineData("=0.12", "\"=0.12\" is not a key and a value; write for example \"friction=0.12\"")]
    [InlineData("friction=0,12", "friction: 0,12 has a comma; write 0.12 with a decimal point")]
    [InlineData("minimum bend radius=8", "minimum bend radius: 8 has no unit; write for example 8 in or 203 mm")]
    [InlineData("price.bse=30 USD", "\"bse\" is not known here; did you mean \"base\"?")]
    [InlineData("frictoin=0.1", "\"frictoin\" is not known here; did you mean \"friction\"?")]
    [InlineData("price=30 USD", "price: expected a group of keys (base, per length, fittings, date); found \"30 USD\"")]
    [InlineData("friction.likely.low=1", "likely: expected a ratio such as 0.95; found a group of keys")]
    [InlineData("id=slate", "a grade's id cannot be changed; add a new grade and remove the old one")]
    public void A_slip_in_an_assignment_is_reported(string assignment, string message) =>
        Assert.Contains(new FileProblem("--set", 0, 0, message), GradeEdit.FromAssignments("--set", [assignment]).Problems);

    [Theory]
    [InlineData("friction=0.1", "friction=0.2")]
    [InlineData("friction=0.1", "Friction=0.2")]
    [InlineData("friction=0.1", "friction.low=0.2")]
    public void A_field_may_be_assigned_once(string first, string second) =>
        Assert.Equal(
            [new FileProblem("--set", 0, 0, "\"friction\" is given more than once; give it once")],
            GradeEdit.FromAssignments("--set", [first, second]).Problems);

    [Fact]
    public void No_change_is_a_slip()
    {
        Assert.Equal(
            [new FileProblem("edit.yaml", 1, 1, "nothing is changed; give at least one value such as \"friction\"")],
            GradeEdit.Parse("edit.yaml", "id: slate\n").Problems);
        Assert.Single(GradeEdit.FromAssignments("--set", []).Problems);
    }

    [Fact]
    public void Every_field_that_people_can_write_has_a_path_that_the_contract_knows()
    {
        // The whole of a grade as an edit: its paths are then checked against the contract's own descriptor.
        var random = new Random(7);
        var writer = new StringWriter();
        Grade grade;
        do
        {
            grade = AnyGrade.Make(random, "g");
        }
        while (!grade.HasRatedPushN || !grade.HasRatedPullN || !grade.HasAxialStiffnessN);
        GradeFile.WriteYaml(writer, "", [grade]);
        string one = string.Join('\n', writer.ToString().Split('\n').Skip(1).Select(l => l.Length > 4 ? l[4..] : l));

        GradeEdit edit = Read(one);

        Assert.Equal(grade, edit.Grade);
        Assert.True(Google.Protobuf.WellKnownTypes.FieldMask.IsValid(Grade.Descriptor, edit.Mask));
    }

    private static GradeEdit Assigned(params string[] assignments)
    {
        FileResult<GradeEdit> read = GradeEdit.FromAssignments("--set", assignments);
        Assert.Empty(read.Problems);
        return read.Value!;
    }

    private static GradeEdit Read(string text)
    {
        FileResult<GradeEdit> read = GradeEdit.Parse("edit.yaml", text);
        Assert.Empty(read.Problems);
        return read.Value!;
    }
}
