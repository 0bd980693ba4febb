namespace CableCatalog.Catalog.Grades;

/// <summary>The grades of a catalogue in order of id, in blocks. Immutable: a change makes anew only the blocks that it touches.</summary>
internal sealed class GradeBlocks
{
    private const int Filling = GradeBlock.Most / 2;

    private readonly GradeBlock[] _blocks;

    private GradeBlocks(GradeBlock[] blocks)
    {
        _blocks = blocks;
        Count = blocks.Sum(block => block.Grades.Length);
        AssumedCount = blocks.Sum(block => block.AssumedCount);
        MostFriction = blocks.Select(block => block.AtHighEnd.MostFriction).DefaultIfEmpty(0).Max();
    }

    /// <summary>How many grades there are.</summary>
    public int Count { get; }

    /// <summary>How many of them have coefficients that nobody measured.</summary>
    public int AssumedCount { get; }

    /// <summary>The largest friction of any, at the high end of its band.</summary>
    public double MostFriction { get; }

    /// <summary>The blocks, none empty, in order of id.</summary>
    public IReadOnlyList<GradeBlock> Blocks => _blocks;

    /// <summary>The grades in order of id.</summary>
    public IEnumerable<CatalogGrade> Grades => _blocks.SelectMany(block => block.Grades);

    /// <summary>Lays grades out.</summary>
    /// <exception cref="ArgumentException">Two have one id.</exception>
    public static GradeBlocks Of(IEnumerable<CatalogGrade> grades)
    {
        CatalogGrade[] byId = [.. grades.OrderBy(grade => grade.Id, StringComparer.Ordinal)];
        return byId.Zip(byId.Skip(1)).FirstOrDefault(pair => pair.First.Id == pair.Second.Id) is (not null, _) twice
            ? throw new ArgumentException($"two grades are called \"{twice.First.Id}\"", nameof(grades))
            : new GradeBlocks([.. byId.Chunk(Filling).Select(chunk => new GradeBlock(chunk))]);
    }

    /// <summary>A grade by its id, or null.</summary>
    public CatalogGrade? Find(string id) => _blocks.Length == 0 ? null : _blocks[BlockOf(id)].Find(id);

    /// <summary>The same with some grades changed.</summary>
    /// <param name="changes">By id, what the grade is now; null: it is there no more. The last of two for one id counts.</param>
    public GradeBlocks With(IEnumerable<KeyValuePair<string, CatalogGrade?>> changes)
    {
        var blocks = new List<GradeBlock>(_blocks.Length + 1);
        ILookup<int, KeyValuePair<string, CatalogGrade?>> byBlock =
            changes.ToLookup(change => _blocks.Length == 0 ? 0 : BlockOf(change.Key));
        if (byBlock.Count == 0)
        {
            return this;
        }

        for (int i = 0; i < Math.Max(1, _blocks.Length); i++)
        {
            if (!byBlock.Contains(i))
            {
                blocks.Add(_blocks[i]);
                continue;
            }

            SortedDictionary<string, CatalogGrade> grades = new(StringComparer.Ordinal);
            foreach (CatalogGrade grade in _blocks.Length == 0 ? [] : _blocks[i].Grades)
            {
                grades.Add(grade.Id, grade);
            }

            foreach ((string id, CatalogGrade? grade) in byBlock[i])
            {
                if (grade is null)
                {
                    grades.Remove(id);
                }
                else
                {
                    grades[id] = grade;
                }
            }

            AddFilled(blocks, [.. grades.Values]);
        }

        return new GradeBlocks([.. blocks]);
    }

    // One that has outgrown a block is split; what little is left of one goes to the block before.
    private static void AddFilled(List<GradeBlock> blocks, CatalogGrade[] grades)
    {
        if (blocks.Count > 0 && blocks[^1].Grades.Length + grades.Length <= Filling)
        {
            grades = [.. blocks[^1].Grades, .. grades];
            blocks.RemoveAt(blocks.Count - 1);
        }

        blocks.AddRange(grades.Length <= GradeBlock.Most
            ? grades.Length == 0 ? [] : [new GradeBlock(grades)]
            : grades.Chunk(Filling).Select(chunk => new GradeBlock(chunk)));
    }

    // The last block that does not begin after it.
    private int BlockOf(string id)
    {
        (int from, int to) = (0, _blocks.Length);
        while (to - from > 1)
        {
            int middle = (from + to) / 2;
            (from, to) = string.CompareOrdinal(_blocks[middle].Grades[0].Id, id) <= 0 ? (middle, to) : (from, middle);
        }

        return from;
    }
}
