#include "app/join/answers_read.h"

#include "common/wire/names.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QSaveFile>

#include <algorithm>

namespace vh::join
{

AnswersRead::AnswersRead(const QString& folder) : m_path(QDir(folder).filePath("answers-read.json"))
{
    QFile file(m_path);
    if (!file.open(QIODevice::ReadOnly))
        return;
    wire::json::error_code error;
    const wire::json::value value = wire::json::parse(file.readAll().toStdString(), error);
    if (error || !value.is_object())
        return;
    File read;
    wire::FieldReader reader(value.get_object());
    wire::visitFields(read, reader);
    if (!reader.error())
        m_file = std::move(read);
}

std::set<std::uint64_t> AnswersRead::of(PersonId person) const
{
    for (const Entry& each : m_file.entries)
        if (each.person == person)
            return {each.items.begin(), each.items.end()};
    return {};
}

void AnswersRead::keep(PersonId person, std::uint64_t item)
{
    auto found = std::find_if(m_file.entries.begin(), m_file.entries.end(),
                              [&](const Entry& each) { return each.person == person; });
    if (found == m_file.entries.end()) {
        if (m_file.entries.size() == kMostPeople)
            m_file.entries.erase(m_file.entries.begin());
        found = m_file.entries.insert(m_file.entries.end(), {person, {}});
    }
    found->items.push_back(item);
    if (found->items.size() > kMost)
        found->items.erase(found->items.begin());
    save();
}

void AnswersRead::save() const
{
    File written = m_file;
    wire::json::object object;
    wire::FieldWriter writer(object);
    wire::visitFields(written, writer);
    const std::string text = wire::json::serialize(object);
    QDir().mkpath(QFileInfo(m_path).path());
    QSaveFile file(m_path);
    if (file.open(QIODevice::WriteOnly) && file.setPermissions(QFile::ReadOwner | QFile::WriteOwner) &&
        file.write(text.data(), static_cast<qint64>(text.size())) == static_cast<qint64>(text.size()))
        file.commit();
}

} // namespace vh::join
