using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Hosting;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;

namespace CableCatalog.Service.Backups;

/// <summary>Backups: delegates, and sends what is written piece by piece.</summary>
[Needs(AccessRole.Administrator)]
internal sealed class BackupsService(ICatalogStore store, TimeProvider clock) : V1.Backups.BackupsBase
{
    private const int PieceBytes = 1 << 16;

    /// <inheritdoc/>
    public override async Task BackUpCatalog(
        V1.BackUpCatalogRequest request,
        IServerStreamWriter<V1.BackUpCatalogResponse> responseStream,
        ServerCallContext context)
    {
        // It has an end: a service that stops finishes it.
        using var call = new LongCall(context, store, clock, CancellationToken.None);
        await call.RunAsync(() => SendAsync(responseStream, context, call));
    }

    private async Task SendAsync(IServerStreamWriter<V1.BackUpCatalogResponse> responseStream, ServerCallContext context, LongCall call)
    {
        // In a file: a caller that reads slowly must not hold a journal in memory.
        await using FileStream text = OpenTemporary();
        CatalogSnapshot catalog = CatalogBackup.Write(store, text, call.End);
        text.Position = 0;
        byte[] piece = new byte[PieceBytes];
        while (true)
        {
            call.RequireKey();
            int read = await text.ReadAtLeastAsync(piece, PieceBytes, throwOnEndOfStream: false, call.End);
            var response = new V1.BackUpCatalogResponse { Text = ByteString.CopyFrom(piece, 0, read) };
            if (text.Position == text.Length)
            {
                response.Revision = catalog.Revision;
                response.WriteTime = Timestamp.FromDateTimeOffset(catalog.Written);
                await responseStream.TellAsync(response, context, call.End);
                return;
            }

            await responseStream.TellAsync(response, context, call.End);
        }
    }

    // The system's temporary file is for this user alone.
    private static FileStream OpenTemporary() => new(
        Path.GetTempFileName(),
        FileMode.Open,
        FileAccess.ReadWrite,
        FileShare.None,
        PieceBytes,
        FileOptions.DeleteOnClose | FileOptions.Asynchronous);
}
