using System.CommandLine;
using CableCatalog.Catalog.Grades;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>prices: a dealer's own price lists.</summary>
internal static class PricesCommand
{
    /// <summary>Makes the command and those under it.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal) => new ExampledCommand(
        "prices",
        "See and change a dealer's own price lists, which quotes are made with.",
        "cablecatalog prices list",
        "cablecatalog prices import autumn catalog-demo/prices/autumn.csv",
        "cablecatalog prices show autumn")
    {
        MakeList(choice, terminal),
        MakeShow(options, choice, terminal),
        MakeImport(choice, terminal),
        MakeExport(choice, terminal),
        MakeRemove(choice, terminal),
    };

    /// <summary>The name in the contract of a list that a person named by its id.</summary>
    /// <exception cref="ClientFailure">It is no id.</exception>
    public static string Name(string id)
    {
        string name = PriceListName.FromId(id);
        return GradeId.IsValid(PriceListName.ToId(name))
            ? name
            : throw new ClientFailure(
                ExitCode.BadInput, $"\"{id}\" is not a price list's name ({GradeId.InWords}); prices list shows those there are.");
    }

    private static Argument<string> NameArgument() => new("NAME") { Description = "The price list, as prices list shows it" };

    private static Command MakeList(CatalogChoice choice, Terminal terminal)
    {
        var choosing = new ListOptions("the lists");
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var command = new ExampledCommand(
            "list",
            "List the price lists, all or those that match a filter.",
            "cablecatalog prices list",
            "cablecatalog prices list --filter \"currency_code = USD\" --order-by \"valid_until desc\"")
        {
            choosing.Filter, choosing.OrderBy, output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            await using Connection connection = await choice.ConnectAsync(parsed);
            ListPriceListsResponse all = await connection.AllPagesAsync<ListPriceListsResponse>(
                (all, o) => connection.PriceLists.ListPriceListsAsync(
                    new ListPriceListsRequest
                    {
                        PageSize = Connection.MostOnAPage,
                        PageToken = all.NextPageToken,
                        Filter = choosing.FilterOf(parsed),
                        OrderBy = choosing.OrderOf(parsed),
                    },
                    o),
                cancellation);
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                all,
                writer => PriceListSheet.Write(writer, all.PriceLists),
                console => choosing.Draw(
                    console, parsed, all.PriceLists.Count, () => PriceListSheet.DrawList(console, all.PriceLists)));
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static Command MakeShow(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> name = NameArgument();
        Option<string> output = CommonOptions.Output("table", "json");
        var command = new ExampledCommand("show", "Show everything in one price list.", "cablecatalog prices show autumn")
        {
            name, output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            await using Connection connection = await choice.ConnectAsync(parsed);
            PriceList list = await GetAsync(connection, parsed.GetRequiredValue(name), cancellation);
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                list,
                _ => { },
                console => PriceListSheet.Draw(console, list, options.Figures(parsed)));
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static Command MakeImport(CatalogChoice choice, Terminal terminal)
    {
        var name = new Argument<string>("NAME") { Description = "What to call the price list: letters, digits and hyphens" };
        var file = new Argument<string>("FILE")
        {
            Description = "CSV with the columns item, grade, from_quantity, value; - reads standard input",
        };
        var replace = new Option<bool>("--replace") { Description = "Put it in the place of the list of that name" };
        var command = new ExampledCommand(
            "import",
            "Add a price list from a CSV file, or replace one.",
            "cablecatalog prices import autumn catalog-demo/prices/autumn.csv",
            "cablecatalog prices import autumn new-prices.csv --replace")
        {
            name, file, replace,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            string id = PriceListName.ToId(Name(parsed.GetRequiredValue(name)));
            FileResult<DealerPriceDocument> read = DealerPriceFile.Read(parsed.GetRequiredValue(file));
            DealerPriceDocument document = read.Value ?? throw ClientFailure.Of(read.Problems);
            document.Message.Name = PriceListName.FromId(id);
            await using Connection connection = await choice.ConnectAsync(parsed);
            PriceList written = await connection.CallAsync(
                o => parsed.GetValue(replace)
                    ? connection.PriceLists.UpdatePriceListAsync(
                        new UpdatePriceListRequest { PriceList = document.Message, AllowMissing = true }, o)
                    : connection.PriceLists.CreatePriceListAsync(
                        new CreatePriceListRequest { PriceListId = id, PriceList = document.Message }, o),
                cancellation,
                field => document.Sources.FindUnder("price_list", field));
            terminal.Out.WriteLine(
                $"Price list {id}: {written.DisplayName}, {written.CurrencyCode}, valid {DateText.Written(written.ValidFrom)} to "
                    + $"{DateText.Written(written.ValidUntil)}, tax {PriceListSheet.Percent(written.TaxShare)}, pricing "
                    + (written.HasOtherGradesMargin
                        ? $"every grade, at a margin of {PriceListSheet.Percent(written.OtherGradesMargin)} where it is not named."
                        : $"{Wording.Grades(written.Grades.Count)}."));
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static Command MakeExport(CatalogChoice choice, Terminal terminal)
    {
        Argument<string> name = NameArgument();
        var file = new Argument<string?>("FILE")
        {
            Description = "Where to write; without it, standard output",
            Arity = ArgumentArity.ZeroOrOne,
        };
        var overwrite = new Option<bool>("--overwrite") { Description = "Replace the file where it exists" };
        var command = new ExampledCommand(
            "export", "Write a price list to a CSV file that prices import reads back.", "cablecatalog prices export autumn autumn.csv")
        {
            name, file, overwrite,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (parsed.GetValue(file) is { } wanted)
            {
                OutputFile.MustBeFree(wanted, parsed.GetValue(overwrite));
            }

            await using Connection connection = await choice.ConnectAsync(parsed);
            PriceList list = await GetAsync(connection, parsed.GetRequiredValue(name), cancellation);
            if (parsed.GetValue(file) is { } path)
            {
                OutputFile.Write(path, writer => DealerPriceFile.Write(writer, list));
                terminal.Out.WriteLine($"Exported the price list {PriceListName.ToId(list.Name)} to {path}.");
            }
            else
            {
                DealerPriceFile.Write(terminal.Out, list);
            }

            return (int)ExitCode.Success;
        });
        return command;
    }

    private static Command MakeRemove(CatalogChoice choice, Terminal terminal)
    {
        Argument<string> name = NameArgument();
        var command = new ExampledCommand("remove", "Remove a price list.", "cablecatalog prices remove autumn")
        {
            name,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            var request = new DeletePriceListRequest { Name = Name(parsed.GetRequiredValue(name)) };
            await using Connection connection = await choice.ConnectAsync(parsed);
            await connection.CallAsync(o => connection.PriceLists.DeletePriceListAsync(request, o), cancellation);
            terminal.Out.WriteLine($"Removed the price list {PriceListName.ToId(request.Name)}.");
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static Task<PriceList> GetAsync(Connection connection, string name, CancellationToken cancellation)
    {
        var request = new GetPriceListRequest { Name = Name(name) };
        return connection.CallAsync(o => connection.PriceLists.GetPriceListAsync(request, o), cancellation);
    }
}
