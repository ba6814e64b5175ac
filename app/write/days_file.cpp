#include "app/write/days_file.h"

#include "app/write/class_files.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QSaveFile>

#include <algorithm>

namespace vh::write
{

namespace
{

constexpr int kVersion = 1;
constexpr qint64 kMostBytes = 64LL * 1024 * 1024;

QJsonObject written(const DayClass& what)
{
    return {{"day", what.day.toString(Qt::ISODate)}, {"class", what.key}, {"title", what.title}, {"theme", what.theme}};
}

QJsonObject written(const HeldClass& held)
{
    QJsonObject object = written(held.what);
    object["plannedSeconds"] = static_cast<double>(held.planned.count()) / 1000;
    object["tookSeconds"] = static_cast<double>(held.took.count()) / 1000;
    QJsonArray sentences;
    for (const std::string& sentence : held.sentences)
        sentences.append(QString::fromStdString(sentence));
    if (!sentences.isEmpty())
        object["sentences"] = sentences;
    return object;
}

std::optional<DayClass> dayClassOf(const QJsonObject& object)
{
    DayClass what{QDate::fromString(object["day"].toString(), Qt::ISODate), object["class"].toString(),
                  object["title"].toString(), object["theme"].toString()};
    if (!what.day.isValid() || what.key.isEmpty())
        return std::nullopt;
    return what;
}

Millis millisOf(const QJsonValue& seconds)
{
    return Millis(static_cast<qint64>(std::clamp(seconds.toDouble(), 0.0, 86'400.0) * 1000 + 0.5));
}

std::optional<HeldClass> heldOf(const QJsonObject& object)
{
    auto what = dayClassOf(object);
    if (!what)
        return std::nullopt;
    HeldClass held{*what, millisOf(object["plannedSeconds"]), millisOf(object["tookSeconds"]), {}};
    for (const QJsonValue& sentence : object["sentences"].toArray())
        held.sentences.insert(sentence.toString().toStdString());
    return held;
}

} // namespace

DaysFile::DaysFile(const QString& folder, const GroupId& group)
    : m_path(QDir(folder).filePath(group.isNull()
                                       ? QStringLiteral("days.json")
                                       : QStringLiteral("days-%1.json").arg(QString::fromStdString(group.hex()))))
{
}

ClassDays DaysFile::load()
{
    QFile file(m_path);
    if (!file.open(QIODevice::ReadOnly))
        return {};
    if (const auto days = read(file.read(kMostBytes)))
        return *days;
    file.close();
    const QFileInfo info(m_path);
    m_damaged = freePath(info.absolutePath(), info.fileName(), QStringLiteral(".damaged"));
    QFile::rename(m_path, m_damaged);
    return {};
}

std::optional<ClassDays> DaysFile::read(const QByteArray& bytes)
{
    const QJsonDocument document = QJsonDocument::fromJson(bytes);
    if (!document.isObject() || document["version"].toInt() != kVersion || !document["planned"].isArray() ||
        !document["held"].isArray())
        return std::nullopt;
    ClassDays days;
    for (const QJsonValue& each : document["planned"].toArray()) {
        const auto what = dayClassOf(each.toObject());
        if (!what)
            return std::nullopt;
        (void)days.plan(*what);
    }
    for (const QJsonValue& each : document["held"].toArray()) {
        auto held = heldOf(each.toObject());
        if (!held)
            return std::nullopt;
        days.m_held.push_back(std::move(*held));
    }
    std::stable_sort(days.m_held.begin(), days.m_held.end(),
                     [](const HeldClass& one, const HeldClass& other) { return one.what.day < other.what.day; });
    return days;
}

bool DaysFile::save(const ClassDays& days) const
{
    QJsonArray planned;
    for (const DayClass& each : days.planned())
        planned.append(written(each));
    QJsonArray held;
    for (const HeldClass& each : days.held())
        held.append(written(each));
    const QByteArray bytes = QJsonDocument({{"version", kVersion}, {"planned", planned}, {"held", held}}).toJson();
    QDir().mkpath(QFileInfo(m_path).absolutePath());
    QSaveFile file(m_path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size() && file.commit();
}

} // namespace vh::write
