using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;
using CableCatalog.Service.Doors;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;

namespace CableCatalog.Service.Backups;

/// <summary>Backups: delegates, and sends what is written piece by piece.</summary>
[Needs(AccessRole.Administrator)]
internal sealed class BackupsService(ICatalogStore store) : V1.Backups.BackupsBase
{
    private const int PieceBytes = 1 << 16;

    /// <inheritdoc/>
    public override async Task BackUpCatalog(
        V1.BackUpCatalogRequest request,
        IServerStreamWriter<V1.BackUpCatalogResponse> responseStream,
        ServerCallContext context)
    {
        // In a file: a caller that reads slowly must not hold a journal in memory.
        await using FileStream text = OpenTemporary();
        CatalogSnapshot catalog = CatalogBackup.Write(store, text, context.CancellationToken);
        text.Position = 0;
        byte[] piece = new byte[PieceBytes];
        while (true)
        {
            int read = await text.ReadAtLeastAsync(piece, PieceBytes, throwOnEndOfStream: false, context.CancellationToken);
            var response = new V1.BackUpCatalogResponse { Text = ByteString.CopyFrom(piece, 0, read) };
            if (text.Position == text.Length)
            {
                response.Revision = catalog.Revision;
                response.WriteTime = Timestamp.FromDateTimeOffset(catalog.Written);
                await responseStream.WriteAsync(response, context.CancellationToken);
                return;
            }

            await responseStream.WriteAsync(response, context.CancellationToken);
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
