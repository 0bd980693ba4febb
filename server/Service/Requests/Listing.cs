using CableCatalog.Service.Requests.Filtering;
using CableCatalog.Service.Requests.Ordering;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Service.Requests;

/// <summary>What is asked of a list: a filter, an order, a page and the fields to return.</summary>
/// <typeparam name="T">The resource.</typeparam>
internal sealed class Listing<T>
    where T : class, IMessage<T>, new()
{
    private readonly int _size;
    private readonly Filter? _filter;
    private readonly SortOrder _order;
    private readonly SortKey? _after;
    private readonly IReadOnlyList<string>? _readPaths;
    private readonly IMessage _identity;

    /// <summary>Reads what is asked.</summary>
    /// <param name="fields">The fields to filter and to order by.</param>
    /// <param name="filter">The filter.</param>
    /// <param name="orderBy">The order.</param>
    /// <param name="readMask">The fields to return.</param>
    /// <param name="page">The size and the token of the page.</param>
    /// <param name="identity">A request with that filter and that order only: what a token belongs to.</param>
    /// <exception cref="InvalidRequestException">Anything is wrong; all of it is reported.</exception>
    public Listing(
        QueryFields fields, string filter, string orderBy, FieldMask? readMask, (int Size, string Token) page, IMessage identity)
    {
        var violations = new Violations();
        _size = page.Size < 0 ? 0 : Paging.Size(page.Size);
        violations.Try(() => page.Size < 0 ? $"{Paging.Size(page.Size)}" : null);
        _filter = violations.Try(() => Filter.Read(fields, filter));
        SortOrder? order = violations.Try(() => SortOrder.Read(fields, orderBy));
        _readPaths = violations.Try(() => FieldMasks.ToRead(readMask, new T().Descriptor));
        violations.ThrowIfAny();
        _order = order!;
        _identity = identity;
        _after = Paging.LastKey(identity, page.Token, _order.Count + 1) is { } parts
            ? _order.Read(parts) ?? throw Paging.BadToken()
            : null;
    }

    /// <summary>A page of what is asked.</summary>
    /// <param name="held">All there is, in order of id.</param>
    /// <param name="idOf">Its id.</param>
    /// <param name="write">Writes it.</param>
    /// <param name="cancellation">Gives up.</param>
    public Page Of<THeld>(
        IEnumerable<THeld> held, Func<THeld, string> idOf, Func<THeld, T> write, CancellationToken cancellation)
    {
        // By id alone and without a filter, only those on the page need be written.
        var found = new List<Row<THeld>>();
        foreach (THeld one in held)
        {
            cancellation.ThrowIfCancellationRequested();
            T? message = _filter is null && _order.IsById ? null : write(one);
            if (_filter?.Matches(message!) != false)
            {
                found.Add(new Row<THeld>(one, message, _order.KeyOf(idOf(one), message)));
            }
        }

        IEnumerable<Row<THeld>> ordered = _order.IsById ? found : found.OrderBy(row => row.Key, _order);
        Row<THeld>[] page = [.. ordered.Where(row => _after is null || _order.Compare(row.Key, _after) > 0).Take(_size + 1)];
        return new Page(
            [.. page.Take(_size).Select(row => FieldMasks.Only(row.Message ?? write(row.Held), _readPaths))],
            page.Length > _size ? Paging.Token(_identity, _order.Write(page[_size - 1].Key)) : "",
            found.Count);
    }

    /// <summary>A page.</summary>
    /// <param name="Rows">In the order asked for.</param>
    /// <param name="NextToken">Empty on the last.</param>
    /// <param name="Total">How many match the filter.</param>
    public sealed record Page(IReadOnlyList<T> Rows, string NextToken, int Total);

    private readonly record struct Row<THeld>(THeld Held, T? Message, SortKey Key);
}
