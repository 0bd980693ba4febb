using CableCatalog.Client.Files;

namespace CableCatalog.Client.Tests.Files;

public class YamlTreeTests
{
    private const string CannotBeRead =
        "the file cannot be read from here on; check for a missing \":\", \"-\", quote or bracket "
        + "and that the line starts under the one it belongs with";

    [Theory]
    [InlineData("a: 1\n---\nb: 2\n", 2, 1, "a second document starts here; put each into a file of its own")]
    [InlineData("a: 1\n...\nb: 2\n", 3, 1, "a second document starts here; put each into a file of its own")]
    [InlineData("a: &x 1\n", 1, 4, "an anchor (&) is not read here; leave it out")]
    [InlineData("a: !!int 1\n", 1, 4, "a tag (!) is not read here; leave it out")]
    [InlineData("a: 1\nA: 2\n", 2, 1, "\"A\" is written twice; it is already on line 1")]
    [InlineData("a b: 1\nc: 1\na_b: 2\n", 3, 1, "\"a_b\" is written twice; it is already on line 1")]
    [InlineData("? [a]\n: b\n", 1, 3, "a key must be one word or a few; found a list")]
    [InlineData("a:\n\tb: 1\n", 2, 1, "a tab stands before the text of this line; use spaces")]
    [InlineData("a: 1\n  \tb: 2\n", 2, 3, "a tab stands before the text of this line; use spaces")]
    [InlineData("a: 1\n b: 2\n", 2, 3, CannotBeRead)]
    [InlineData("a: [1, 2\n", 2, 1, CannotBeRead)]
    [InlineData("a: \"1\n", 1, 4, CannotBeRead)]
    [InlineData("a: @1\n", 1, 4, CannotBeRead)]
    [InlineData("a: b: c\n", 1, 5, CannotBeRead)]
    [InlineData("a: [\u2028b]\n", 1, 4, CannotBeRead)]
    [InlineData("a: !<>\n", 1, 2, CannotBeRead)]
    [InlineData("a:\n  : b: 1\n    c: 2\n", 4, 1, CannotBeRead)]
    [InlineData("%YAML 99999999999.1\n---\na: 1\n", 1, 1, CannotBeRead)]
    public void What_is_not_read_is_reported_where_it_is(string text, int line, int column, string message) =>
        Assert.Equal([new FileProblem("f", line, column, message)], Problems(text));

    [Fact]
    public void An_alias_is_reported_beside_its_anchor() =>
        Assert.Equal([(1, 4), (2, 4)], Problems("a: &x 1\nb: *x\n").Select(p => (p.Line, p.Column)));

    [Theory]
    [InlineData("")]
    [InlineData("# nothing\n")]
    [InlineData("---\n")]
    [InlineData("~")]
    public void An_empty_file_is_said_to_be_empty(string text) =>
        Assert.Equal([new FileProblem("f", 0, 0, "the file is empty")], Problems(text));

    [Theory]
    [InlineData("[", "]")]
    [InlineData("{a: ", "}")]
    public void Twenty_levels_are_read_and_one_more_is_not(string open, string close)
    {
        string Nested(int levels) =>
            string.Concat(Enumerable.Repeat(open, levels)) + "1" + string.Concat(Enumerable.Repeat(close, levels));

        Assert.Empty(Problems(Nested(20)));
        Assert.Equal(
            [
                new FileProblem(
                    "f", 1, (20 * open.Length) + 1, "groups and lists lie in each other more than 20 deep; write them flatter"),
            ],
            Problems(Nested(21)));
    }

    [Theory]
    [InlineData("[")]
    [InlineData("{a: ")]
    [InlineData("- ")]
    [InlineData("? ")]
    public void However_deep_a_file_goes_it_is_refused_and_not_followed(string open) =>
        Assert.NotEmpty(Problems(string.Concat(Enumerable.Repeat(open, (1 << 20) / open.Length))));

    [Fact]
    public void Values_are_texts_whatever_they_look_like()
    {
        var root = (MappingNode)YamlTree.Read("a: 012\nb: yes\nc: '~'\nd: \"\\uD83D\\uDE00\"\n", new ProblemList("f"))!;

        Assert.Equal(["012", "yes", "~", "\U0001F600"], root.Entries.Select(e => ((ScalarNode)e.Value).Text));
        Assert.DoesNotContain(root.Entries, e => ((ScalarNode)e.Value).IsNothing);
    }

    private static IReadOnlyList<FileProblem> Problems(string text)
    {
        var problems = new ProblemList("f");
        FileNode? root = YamlTree.Read(text, problems);
        return problems.Result(root).Problems;
    }
}
