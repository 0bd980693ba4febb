using System.Buffers.Text;
using System.Globalization;
using System.Text;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.History;

/// <summary>From where to watch on: the last revision that was told, and when it was written. A catalogue that was restored and goes
/// through the same revisions once more has written them at other times.</summary>
/// <param name="Revision">The revision.</param>
/// <param name="Written">When it was written, UTC.</param>
internal sealed record ResumeToken(long Revision, DateTimeOffset Written)
{
    /// <summary>From a snapshot on.</summary>
    public static ResumeToken At(CatalogSnapshot catalog) => new(catalog.Revision, catalog.Written);

    /// <summary>The text of a token.</summary>
    public string Text => Base64Url.EncodeToString(
        Encoding.ASCII.GetBytes(FormattableString.Invariant($"{Revision} {Written.UtcTicks}")));

    /// <summary>Reads a token.</summary>
    /// <exception cref="InvalidRequestException">It is none.</exception>
    public static ResumeToken Read(string text)
    {
        try
        {
            string[] parts = Encoding.ASCII.GetString(Base64Url.DecodeFromChars(text)).Split(' ');
            if (parts.Length == 2
                && long.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out long revision)
                && long.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out long ticks)
                && ticks <= DateTimeOffset.MaxValue.Ticks)
            {
                return new ResumeToken(revision, new DateTimeOffset(ticks, TimeSpan.Zero));
            }
        }
        catch (FormatException)
        {
            // Falls to the refusal below.
        }

        throw InvalidRequestException.For(
            "resume_token", "BAD_RESUME_TOKEN", "must be a resume_token or a watch_token of this service; leave it empty to begin now");
    }

    /// <summary>Refuses a token from which this catalogue did not come.</summary>
    /// <exception cref="NotThisCourseException">It did not.</exception>
    public void RequireIn(ICatalogStore store, CancellationToken cancellation)
    {
        CatalogSnapshot catalog = store.Current;
        DateTimeOffset? written = Revision == catalog.Revision
            ? catalog.Written
            : Revision == catalog.FirstJournalled - 1
                ? catalog.WrittenBeforeJournal
                : store.Journal(Revision, Revision, cancellation).SingleOrDefault()?.Written;
        if (written != Written)
        {
            throw new NotThisCourseException();
        }
    }
}

/// <summary>A token is of another course of the catalogue, or from before its journal.</summary>
internal sealed class NotThisCourseException() : Exception(
    "The catalogue did not come from where this token is: it was restored from a backup, or keeps no history from so long ago. "
        + "List it anew, and watch from the watch_token of that list.");
