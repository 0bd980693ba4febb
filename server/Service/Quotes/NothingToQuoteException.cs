using CableCatalog.Catalog.Options;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Advising;

namespace CableCatalog.Service.Quotes;

/// <summary>There is nothing to quote; the message is for people and says why.</summary>
internal sealed class NothingToQuoteException(OptionStudy study) : Exception(MessageOf(study))
{
    private static string MessageOf(OptionStudy study)
    {
        if (study.Baseline.Basis == BaselineBasis.Unexplained)
        {
            return "Nothing is quoted: what was measured is more, or less, than the described chain can give. "
                + "Find the part at fault first, then quote.";
        }

        switch (study.Advice?.Verdict)
        {
            case AdviceVerdict.RepairFirst:
                return "Nothing is quoted: the weight test says that something else is at fault, which none of this would mend. See to it first, "
                    + "or list a service of it among the changes of the installation.";
            case AdviceVerdict.TestFirst:
                return "Nothing is quoted: the weight test does not yet say what is at fault. Make the next test that diagnose names, then quote.";
        }

        bool onlyNotOffered = study.Options.Where(option => option.Parts.Grade is not null)
            .All(option => option.Problems.OfType<OptionProblem.NotOffered>().Any());
        return study.Options.Skip(1).Any(option => option.Works)
            ? "Nothing is quoted: of what fits, nothing saves effort for its money. Keep what is there, or name other grades, routes or changes."
            : onlyNotOffered
                ? "Nothing is quoted: the price list offers none of these grades. Name another list, or other grades."
                : "Nothing is quoted: nothing fits this installation. Weigh its options to see why, then name other grades, routes or changes.";
    }
}
