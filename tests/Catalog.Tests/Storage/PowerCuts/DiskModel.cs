namespace CableCatalog.Catalog.Tests.Storage.PowerCuts;

/// <summary>What is on disk below a folder, and what is on its way there, after each of some system calls.</summary>
/// <remarks>What was written to a file is on disk when the file was flushed; before that any of it may be. A name (made, renamed,
/// removed) is on disk when the folder it is in was flushed; before that it may be, whatever became of the file and of the
/// other names. A file system with a journal promises more: names in the order in which they were made.</remarks>
internal sealed class DiskModel
{
    private readonly Dictionary<string, DiskFile?> _namesOnDisk = new(StringComparer.Ordinal);
    private readonly List<NameChange> _pendingNames = [];
    private readonly Dictionary<int, string> _openFolders = [];
    private readonly Dictionary<int, DiskFile> _openFiles = [];
    private readonly string _folder;
    private readonly Dictionary<string, DiskFile?> _names;

    /// <summary>All that is in a folder now is on disk.</summary>
    internal DiskModel(string folder)
    {
        _folder = folder;
        foreach (string file in Directory.GetFiles(folder))
        {
            _namesOnDisk[file] = new DiskFile(File.ReadAllBytes(file));
        }

        _names = new Dictionary<string, DiskFile?>(_namesOnDisk);
    }

    /// <summary>How many changes of names are not on disk.</summary>
    internal int PendingNames => _pendingNames.Count;

    /// <summary>The file of a name, as a process sees it; null where there is none.</summary>
    internal DiskFile? Find(string path) => _names.GetValueOrDefault(path);

    /// <summary>Brings the model to after a call.</summary>
    /// <returns>Whether a power cut after it may leave anything else than before it.</returns>
    internal bool Apply(SystemCall call)
    {
        switch (call)
        {
            case SystemCall.Open open:
                return Open(open);
            case SystemCall.Close close:
                _openFiles.Remove(close.Descriptor);
                _openFolders.Remove(close.Descriptor);
                return false;
            case SystemCall.Write write:
                _openFiles[write.Descriptor].Write(write.Offset, write.Bytes);
                return true;
            case SystemCall.Truncate truncate:
                _openFiles[truncate.Descriptor].Truncate(truncate.Length);
                return true;
            case SystemCall.Flush flush:
                Flush(flush.Descriptor);
                return true;
            case SystemCall.Rename rename:
                Change(new NameChange(rename.From, rename.To, _names[rename.From]));
                return true;
            case SystemCall.Remove remove:
                Change(new NameChange(remove.Path, null, null));
                return true;
            case SystemCall.MakeFolder made:
                Change(new NameChange(null, made.Path, null));
                return true;
            default:
                return true;
        }
    }

    /// <summary>The files, by path, that a power cut leaves.</summary>
    /// <param name="nameKept">Of each pending change of a name, by its place in order, whether it has come to be on disk.</param>
    /// <param name="content">Of each file what is on disk.</param>
    internal IReadOnlyDictionary<string, byte[]> AfterCut(Func<int, bool> nameKept, Func<DiskFile, byte[]> content)
    {
        var names = new Dictionary<string, DiskFile?>(_namesOnDisk);
        for (int i = 0; i < _pendingNames.Count; i++)
        {
            if (nameKept(i))
            {
                _pendingNames[i].ApplyTo(names);
            }
        }

        return names
            .Where(one => one.Value is not null && IsReached(Path.GetDirectoryName(one.Key)!, names))
            .OrderBy(one => one.Key, StringComparer.Ordinal)
            .ToDictionary(one => one.Key, one => content(one.Value!));
    }

    private bool IsReached(string folder, Dictionary<string, DiskFile?> names) =>
        folder == _folder || (names.ContainsKey(folder) && IsReached(Path.GetDirectoryName(folder)!, names));

    private bool Open(SystemCall.Open open)
    {
        if (open.Path == _folder || (_names.TryGetValue(open.Path, out DiskFile? there) && there is null))
        {
            _openFolders[open.Descriptor] = open.Path;
            return false;
        }

        bool makes = open.Creates && !_names.ContainsKey(open.Path);
        if (makes)
        {
            Change(new NameChange(null, open.Path, new DiskFile([])));
        }

        DiskFile file = _names[open.Path]!;
        _openFiles[open.Descriptor] = file;
        if (open.Empties)
        {
            file.Truncate(0);
        }

        return makes || open.Empties;
    }

    private void Flush(int descriptor)
    {
        if (!_openFolders.TryGetValue(descriptor, out string? folder))
        {
            _openFiles[descriptor].Flush();
            return;
        }

        foreach (NameChange change in _pendingNames.Where(change => change.Folder == folder))
        {
            change.ApplyTo(_namesOnDisk);
        }

        _pendingNames.RemoveAll(change => change.Folder == folder);
    }

    private void Change(NameChange change)
    {
        change.ApplyTo(_names);
        _pendingNames.Add(change);
    }

    // Made: from nothing. Removed: to nothing. A folder has no file.
    private sealed record NameChange(string? From, string? To, DiskFile? File)
    {
        internal string Folder => Path.GetDirectoryName(From ?? To)!;

        internal void ApplyTo(Dictionary<string, DiskFile?> names)
        {
            if (From is not null)
            {
                names.Remove(From);
            }

            if (To is not null)
            {
                names[To] = File;
            }
        }
    }
}
