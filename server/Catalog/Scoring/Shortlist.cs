namespace CableCatalog.Catalog.Scoring;

/// <summary>Who may be among the least K of many whose keys are known to within an error: a key is a group, which is exact, and a value
/// between a least and a most. In no more memory than K, those that cannot be told from the last of them, and those
/// that may not count.</summary>
/// <param name="count">K, at least 1.</param>
internal sealed class Shortlist(int count)
{
    private readonly PriorityQueue<int, (double Group, double Most)> _least =
        new(Comparer<(double Group, double Most)>.Create((a, b) => b.CompareTo(a)));

    private readonly List<(double Group, double Least, int Index)> _offered = [];
    private int _roomBeforePruning = Math.Max(64, 4 * count);

    /// <summary>The group of the last that can be among the least.</summary>
    public double LastGroup { get; private set; } = double.PositiveInfinity;

    /// <summary>The most that the value of the last may be.</summary>
    public double LastMost { get; private set; } = double.PositiveInfinity;

    /// <summary>Those that may be among the least, by what they were offered as.</summary>
    public IEnumerable<int> Indices => _offered.Where(IsWithin).Select(one => one.Index);

    /// <summary>Offers one, after all that come before it where two are equal.</summary>
    /// <param name="index">What it is.</param>
    /// <param name="group">Its group.</param>
    /// <param name="least">The least that its value may be.</param>
    /// <param name="most">The most that it may be.</param>
    /// <param name="isSure">Whether it counts; one that may not count at all is kept beside the others.</param>
    public void Offer(int index, double group, double least, double most, bool isSure = true)
    {
        if (!(group < LastGroup || (group == LastGroup && least < LastMost)))
        {
            return;
        }

        _offered.Add((group, least, index));
        if (isSure)
        {
            _least.Enqueue(index, (group, most));
            if (_least.Count > count)
            {
                _least.Dequeue();
            }

            if (_least.Count == count)
            {
                _least.TryPeek(out _, out (double Group, double Most) last);
                (LastGroup, LastMost) = last;
            }
        }

        if (_offered.Count > _roomBeforePruning)
        {
            _offered.RemoveAll(one => !IsWithin(one));
            _roomBeforePruning = Math.Max(_roomBeforePruning, 2 * _offered.Count);
        }
    }

    private bool IsWithin((double Group, double Least, int Index) one) =>
        one.Group < LastGroup || (one.Group == LastGroup && one.Least <= LastMost);
}
