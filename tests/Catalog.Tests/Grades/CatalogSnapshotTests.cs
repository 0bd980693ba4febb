using CableCatalog.Catalog.Grades;
using CableCatalog.Tests.Support;

namespace CableCatalog.Catalog.Tests.Grades;

/// <summary>However it came about, a catalogue holds its grades in order of id, and finds each.</summary>
public class CatalogSnapshotTests
{
    [Fact]
    public void Blocks_that_were_changed_a_thousand_times_hold_what_a_dictionary_holds()
    {
        var random = new Random(6);
        var expected = new SortedDictionary<string, CatalogGrade>(StringComparer.Ordinal);
        GradeBlocks blocks = GradeBlocks.Of([]);
        for (int i = 0; i < 1000; i++)
        {
            // It grows to some thousands, shrinks to nothing, and grows again.
            bool grows = i % 500 < 250;
            var changes = new Dictionary<string, CatalogGrade?>();
            for (int k = random.Next(1, 40); k > 0; k--)
            {
                string id = $"g{random.Next(4000)}";
                changes[id] = random.Next(10) < (grows ? 9 : 1) ? ManyGrades.Drawn(random, id, 0.5) : null;
            }

            if (!grows && i % 500 == 499)
            {
                changes = expected.Keys.ToDictionary(id => id, _ => (CatalogGrade?)null);
            }

            blocks = blocks.With(changes);
            foreach ((string id, CatalogGrade? grade) in changes)
            {
                if (grade is null)
                {
                    expected.Remove(id);
                }
                else
                {
                    expected[id] = grade;
                }
            }

            Assert.Equal(expected.Count, blocks.Count);
            string asked = $"g{random.Next(4000)}";
            Assert.Same(expected.GetValueOrDefault(asked), blocks.Find(asked));
            if (i % 25 == 0 || i % 500 == 499)
            {
                Assert.Equal(expected.Values, blocks.Grades);
                Assert.All(blocks.Blocks, block => Assert.InRange(block.Grades.Length, 1, GradeBlock.Most));
                Assert.Equal(
                    expected.Values.Count(grade => grade.Grade.CoefficientBasis == CoefficientBasis.Assumed), blocks.AssumedCount);
            }
        }
    }

    [Fact]
    public void A_change_leaves_the_other_blocks_as_they_are()
    {
        GradeBlocks before = GradeBlocks.Of(ManyGrades.Catalogue(5000, 1, 0.5).Grades);
        CatalogGrade changed = ManyGrades.Drawn(new Random(1), "g002500", 0.5);

        GradeBlocks after = before.With([KeyValuePair.Create("g002500", (CatalogGrade?)changed)]);

        Assert.Same(changed, after.Find("g002500"));
        Assert.Single(after.Blocks.Except(before.Blocks));
        Assert.Equal(before.Blocks.Count, after.Blocks.Count);
    }

    [Fact]
    public void Two_grades_of_one_id_are_refused()
    {
        CatalogGrade grade = ManyGrades.Drawn(new Random(1), "twice", 0.5);
        Assert.Equal(
            "two grades are called \"twice\" (Parameter 'grades')",
            Assert.Throws<ArgumentException>(() => CatalogSnapshot.Of(1, [grade, grade])).Message);
    }
}
