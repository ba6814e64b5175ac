#include "app/join/pending_agreements.h"

#include "common/wire/names.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QSaveFile>

#include <algorithm>

namespace vh::join
{

PendingAgreements::PendingAgreements(const QString& folder) : m_path(QDir(folder).filePath("agreements-to-send.json"))
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

std::vector<wire::Agree> PendingAgreements::of(PersonId person) const
{
    std::vector<wire::Agree> all;
    for (const Entry& each : m_file.entries)
        if (each.person == person)
            all.push_back(each.answer);
    return all;
}

std::optional<RequestId> PendingAgreements::keep(PersonId person, const wire::Agree& answer)
{
    std::optional<RequestId> replaced;
    const auto earlier = std::find_if(m_file.entries.begin(), m_file.entries.end(), [&](const Entry& each) {
        return each.person == person && each.answer.kind == answer.kind;
    });
    if (earlier != m_file.entries.end()) {
        replaced = earlier->answer.id;
        m_file.entries.erase(earlier);
    }
    m_file.entries.push_back({person, answer});
    save();
    return replaced;
}

void PendingAgreements::settled(const RequestId& id)
{
    if (std::erase_if(m_file.entries, [&](const Entry& each) { return each.answer.id == id; }) > 0)
        save();
}

void PendingAgreements::save() const
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
