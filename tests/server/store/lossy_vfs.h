#pragma once
// A LossyDisk as an SQLite VFS, under a name of its own for as long as this lives. One connection at a time: locks
// always succeed, and the shared memory of the write-ahead log's index is plain memory that a restart forgets. It
// claims what SQLite's Unix VFS claims, powersafe overwrite, and nothing more.
// Interface: https://www.sqlite.org/c3ref/io_methods.html and vfs.html. Thread: any.
#include "tests/server/store/lossy_disk.h"

#include <sqlite3.h>

namespace vh::store
{

class LossyVfs
{
public:
    LossyVfs(std::string name, LossyDisk& disk);
    ~LossyVfs();
    LossyVfs(const LossyVfs&) = delete;
    LossyVfs& operator=(const LossyVfs&) = delete;
    [[nodiscard]] const std::string& name() const { return m_name; }

private:
    std::string m_name;
    sqlite3_vfs m_vfs{};
};

} // namespace vh::store
