using System.Text;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Tests.Support;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>A catalogue of several blocks of grades is stored as any other.</summary>
public class ManyGradesTextTests
{
    private static readonly CatalogSnapshot Catalog = ManyGrades.Catalogue(3000, 7, 0.5);

    [Fact]
    public void Its_lines_are_those_of_its_grades_in_order_of_id()
    {
        string[] lines = Text(Catalog).Split('\n');
        Assert.Equal(Catalog.Grades.OrderBy(grade => grade.Id, StringComparer.Ordinal).Select(GradeRecord.LineOf), lines[1..3001]);
        Assert.Equal(3004, lines.Length);
    }

    [Fact]
    public void It_reads_back_as_it_was()
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(Text(Catalog)));
        Assert.Equal(
            Catalog.Grades.Select(GradeRecord.LineOf), CatalogText.Read(stream).Catalog.Grades.Select(GradeRecord.LineOf));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(1500)]
    [InlineData(3000)]
    public void A_line_that_is_no_grade_is_told_of(int at)
    {
        string[] lines = Text(Catalog).Split('\n')[..^2];
        lines[at] = "{}";
        using var stream = new MemoryStream();
        using var text = new SealedText();
        text.Write(stream, Encoding.UTF8.GetBytes(string.Concat(lines.Select(line => line + "\n"))));
        text.End(stream);
        stream.Position = 0;
        Assert.Equal("a grade in it does not read as one", Assert.Throws<NotWholeException>(() => CatalogText.Read(stream)).Message);
    }

    // A published copy, whose lines are written together, and a catalogue file, whose lines are written one by one, have one seal.
    [Fact]
    public void A_line_is_the_same_alone_and_among_others()
    {
        Grade grade = Catalog.Grades.First().Grade with { CoreText = "\"quoted\" <b>&+'` \\ \u00e9 \u2028 \ud83d\udea4", LinerText = "a\tb" };
        CatalogSnapshot odd = CatalogSnapshot.Of(1, [new CatalogGrade(grade, 1, DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch)]);
        Assert.Equal(GradeRecord.LineOf(odd.Grades.Single()), Text(odd).Split('\n')[1]);
    }

    private static string Text(CatalogSnapshot catalog)
    {
        using var stream = new MemoryStream();
        CatalogText.Write(stream, catalog).Text.Dispose();
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
