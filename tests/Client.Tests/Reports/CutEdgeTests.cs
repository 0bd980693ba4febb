using CableCatalog.Client.Reports.Plots;

namespace CableCatalog.Client.Tests.Reports;

public class CutEdgeTests
{
    [Fact]
    public void An_edge_within_the_picture_is_left_as_it_is()
    {
        (double, double)[] points = [(0, 1), (1, 2), (2, 3)];

        Assert.Equal(points, new CutEdge(points, 3).Along());
        Assert.Equal(points[..2], new CutEdge(points[..2], 3).UpToTop());
    }

    [Fact]
    public void An_edge_leaves_where_it_crosses_the_top()
    {
        var edge = new CutEdge([(0, 0), (10, 40)], 20);

        // By hand: from 0 to 40 over 10, 20 is reached at 5.
        Assert.Equal([(0, 0), (5, 20), (10, 20)], edge.Along());
        Assert.Equal([(0, 0), (5, 20)], edge.UpToTop());
    }

    [Fact]
    public void Where_no_bound_is_known_the_edge_goes_straight_up()
    {
        Assert.Equal([(0, 5), (0, 20), (10, 20)], new CutEdge([(0, 5), (10, double.PositiveInfinity)], 20).Along());
        Assert.Equal([(0, 20), (10, 20), (10, 5)], new CutEdge([(0, double.PositiveInfinity), (10, 5)], 20).Along());
    }
}
