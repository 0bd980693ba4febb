namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>What is supposed to be at fault, with the chains that it leaves.</summary>
/// <param name="faults">What is at fault: nothing, one or two things.</param>
/// <param name="prior">How likely that is before any reading.</param>
/// <param name="near">Helm sides that give the readings made on them.</param>
/// <param name="far">Arm sides that do.</param>
internal sealed class Supposition(
    IReadOnlyList<Fault> faults, double prior, PartState<HelmSide> near, PartState<ArmSide> far)
{
    private const int EnoughLeft = 250;

    private static readonly EvenPoints Points = new(2);

    private readonly List<PossibleChain> _left = [];

    /// <summary>Chains that give every reading, of those drawn.</summary>
    public IReadOnlyList<PossibleChain> Left => _left;

    /// <summary>How many were drawn.</summary>
    public int Drawn { get; private set; }

    /// <summary>Whether enough are left to go by, or none can be.</summary>
    public bool IsSettled => _left.Count >= EnoughLeft || SidesLeft == 0;

    /// <summary>How likely it was, times the share that the readings leave of it.</summary>
    public double Likelihood => LikelihoodOf(_left.Count);

    /// <summary>The most that can be expected to be: none of n left shows a share below 3 of n (the rule of three, to 95 %).</summary>
    public double MostLikelihood => LikelihoodOf(_left.Count + 3);

    private double SidesLeft => near.Share * far.Share;

    /// <summary>Puts more chains together, up to a number in all.</summary>
    public void Draw(int end, PieceTests tests)
    {
        for (; Drawn < end; Drawn++)
        {
            var one = new PossibleChain(
                faults, Assembly.Pick(near.Left, Points.At(Drawn, 0)), Assembly.Pick(far.Left, Points.At(Drawn, 1)));
            if (tests.Gives(one, ChainPiece.Whole))
            {
                _left.Add(one);
            }
        }
    }

    private double LikelihoodOf(int left) => Drawn == 0 ? 0 : prior * SidesLeft * left / Drawn;
}
