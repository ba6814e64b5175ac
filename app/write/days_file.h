#pragma once
// A group's days on disk: one JSON file a group, written whole or not at all. A file that cannot be read is kept aside
// (".damaged", with a number where there is one already), never overwritten; damagedAside() then says so. GUI thread.
#include "app/write/class_days.h"
#include "common/base/id.h"

#include <optional>

namespace vh::write
{

class DaysFile
{
public:
    /// `folder`: the profile. A null group: the days of somebody who writes classes and leads no group yet.
    DaysFile(const QString& folder, const GroupId& group);

    [[nodiscard]] ClassDays load();
    /// False: it could not be written.
    bool save(const ClassDays& days) const;
    /// What load() found damaged and kept, as a path; empty: nothing was.
    [[nodiscard]] const QString& damagedAside() const { return m_damaged; }
    [[nodiscard]] const QString& path() const { return m_path; }

private:
    static std::optional<ClassDays> read(const QByteArray& bytes);

    QString m_path;
    QString m_damaged;
};

} // namespace vh::write
