#include "tests/server/store/lossy_vfs.h"

#include <cstring>
#include <stdexcept>

namespace vh::store
{

namespace
{

/// What stands behind one sqlite3_file.
struct OpenFile {
    LossyDisk* disk = nullptr;
    LossyDisk::FilePtr file;
    std::vector<std::unique_ptr<std::vector<char>>> sharedMemory;
};

struct Handle {
    sqlite3_file base;
    OpenFile* open;
};

OpenFile& of(sqlite3_file* file)
{
    return *reinterpret_cast<Handle*>(file)->open;
}

int codeOf(LossyDisk::Done done, int error)
{
    return done == LossyDisk::Done::yes ? SQLITE_OK : error;
}

int closeFile(sqlite3_file* file)
{
    auto* handle = reinterpret_cast<Handle*>(file);
    delete handle->open;
    handle->open = nullptr;
    return SQLITE_OK;
}

int readFile(sqlite3_file* file, void* data, int size, sqlite3_int64 offset)
{
    std::size_t got = 0;
    const auto wanted = static_cast<std::size_t>(size);
    if (of(file).disk->read(*of(file).file, static_cast<std::size_t>(offset), data, wanted, got) !=
        LossyDisk::Done::yes)
        return SQLITE_IOERR_READ;
    if (got == wanted)
        return SQLITE_OK;
    std::memset(static_cast<char*>(data) + got, 0, wanted - got);
    return SQLITE_IOERR_SHORT_READ;
}

int writeFile(sqlite3_file* file, const void* data, int size, sqlite3_int64 offset)
{
    return codeOf(
        of(file).disk->write(*of(file).file, static_cast<std::size_t>(offset), data, static_cast<std::size_t>(size)),
        SQLITE_IOERR_WRITE);
}

int truncateFile(sqlite3_file* file, sqlite3_int64 size)
{
    return codeOf(of(file).disk->truncate(*of(file).file, static_cast<std::size_t>(size)), SQLITE_IOERR_TRUNCATE);
}

int syncFile(sqlite3_file* file, int)
{
    return codeOf(of(file).disk->sync(*of(file).file), SQLITE_IOERR_FSYNC);
}

int fileSize(sqlite3_file* file, sqlite3_int64* size)
{
    std::size_t bytes = 0;
    const auto done = of(file).disk->size(*of(file).file, bytes);
    *size = static_cast<sqlite3_int64>(bytes);
    return codeOf(done, SQLITE_IOERR_FSTAT);
}

int lockFile(sqlite3_file*, int)
{
    return SQLITE_OK;
}

int checkReserved(sqlite3_file*, int* reserved)
{
    *reserved = 0;
    return SQLITE_OK;
}

int fileControl(sqlite3_file*, int, void*)
{
    return SQLITE_NOTFOUND;
}

int sectorSize(sqlite3_file*)
{
    return 512;
}

int characteristics(sqlite3_file*)
{
    return SQLITE_IOCAP_POWERSAFE_OVERWRITE;
}

int mapShared(sqlite3_file* file, int region, int size, int extend, void volatile** memory)
{
    auto& regions = of(file).sharedMemory;
    const auto index = static_cast<std::size_t>(region);
    while (extend != 0 && regions.size() <= index)
        regions.push_back(std::make_unique<std::vector<char>>(static_cast<std::size_t>(size)));
    *memory = index < regions.size() ? regions[index]->data() : nullptr;
    return SQLITE_OK;
}

int lockShared(sqlite3_file*, int, int, int)
{
    return SQLITE_OK;
}

void sharedBarrier(sqlite3_file*) {}

int unmapShared(sqlite3_file* file, int)
{
    of(file).sharedMemory.clear();
    return SQLITE_OK;
}

const sqlite3_io_methods kMethods = {
    2,          closeFile,     readFile,      writeFile,   truncateFile, syncFile,        fileSize,
    lockFile,   lockFile,      checkReserved, fileControl, sectorSize,   characteristics, mapShared,
    lockShared, sharedBarrier, unmapShared,   nullptr,     nullptr};

LossyDisk& diskOf(sqlite3_vfs* vfs)
{
    return *static_cast<LossyDisk*>(vfs->pAppData);
}

int openFile(sqlite3_vfs* vfs, sqlite3_filename name, sqlite3_file* file, int flags, int* outFlags)
{
    auto* handle = reinterpret_cast<Handle*>(file);
    handle->base.pMethods = nullptr;
    if (!name) // a temporary file: the store promises to need none on a disk
        return SQLITE_CANTOPEN;
    auto found = diskOf(vfs).open(name, (flags & SQLITE_OPEN_CREATE) != 0);
    if (!found)
        return SQLITE_CANTOPEN;
    handle->open = new OpenFile{&diskOf(vfs), std::move(found), {}};
    handle->base.pMethods = &kMethods;
    if (outFlags)
        *outFlags = flags;
    return SQLITE_OK;
}

int deleteFile(sqlite3_vfs* vfs, const char* name, int syncFolder)
{
    return codeOf(diskOf(vfs).remove(name, syncFolder != 0), SQLITE_IOERR_DELETE);
}

int accessFile(sqlite3_vfs* vfs, const char* name, int, int* there)
{
    *there = diskOf(vfs).exists(name) ? 1 : 0;
    return SQLITE_OK;
}

int fullPath(sqlite3_vfs*, const char* name, int size, char* full)
{
    sqlite3_snprintf(size, full, "%s", name);
    return SQLITE_OK;
}

sqlite3_vfs* system()
{
    return sqlite3_vfs_find(nullptr);
}

int randomness(sqlite3_vfs*, int size, char* bytes)
{
    return system()->xRandomness(system(), size, bytes);
}

int currentTime(sqlite3_vfs*, double* time)
{
    return system()->xCurrentTime(system(), time);
}

int noSleep(sqlite3_vfs*, int microseconds)
{
    return microseconds;
}

int lastError(sqlite3_vfs*, int, char*)
{
    return 0;
}

} // namespace

LossyVfs::LossyVfs(std::string name, LossyDisk& disk) : m_name(std::move(name))
{
    m_vfs.iVersion = 1;
    m_vfs.szOsFile = sizeof(Handle);
    m_vfs.mxPathname = 512;
    m_vfs.zName = m_name.c_str();
    m_vfs.pAppData = &disk;
    m_vfs.xOpen = openFile;
    m_vfs.xDelete = deleteFile;
    m_vfs.xAccess = accessFile;
    m_vfs.xFullPathname = fullPath;
    m_vfs.xRandomness = randomness;
    m_vfs.xSleep = noSleep;
    m_vfs.xCurrentTime = currentTime;
    m_vfs.xGetLastError = lastError;
    if (sqlite3_vfs_register(&m_vfs, 0) != SQLITE_OK)
        throw std::runtime_error("the VFS could not be registered");
}

LossyVfs::~LossyVfs()
{
    sqlite3_vfs_unregister(&m_vfs);
}

} // namespace vh::store
