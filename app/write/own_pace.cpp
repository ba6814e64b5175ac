#include "app/write/own_pace.h"

#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QSaveFile>

namespace vh::write
{

namespace
{

constexpr int kVersion = 1;
constexpr qint64 kMostBytes = 256 * 1024;
constexpr std::int64_t kLongest = 24LL * 60 * 60 * 1000; // of a time, in ms
constexpr std::array<const char*, kPaceParts> kPartNames{"shown", "spoken"};

QString fileIn(const QString& folder)
{
    return QDir(folder).filePath(QStringLiteral("own-pace.json"));
}

QString nameFor(std::size_t kind)
{
    const std::string_view name = nameOf(static_cast<SectionKind>(kind));
    return QString::fromLatin1(name.data(), static_cast<qsizetype>(name.size()));
}

QJsonObject jsonOf(const PaceSample& sample)
{
    QJsonObject kinds;
    for (std::size_t kind = 0; kind < kSectionKinds; ++kind) {
        QJsonObject parts;
        for (std::size_t part = 0; part < kPaceParts; ++part)
            if (const auto& time = sample.times[kind][part]; time.planned > Millis{0})
                parts[QLatin1String(kPartNames[part])] =
                    QJsonArray{static_cast<qint64>(time.planned.count()), static_cast<qint64>(time.actual.count())};
        if (!parts.isEmpty())
            kinds[nameFor(kind)] = parts;
    }
    return kinds;
}

/// What is not a time of such a kind is left out.
PaceSample sampleOf(const QJsonObject& kinds)
{
    PaceSample sample;
    for (std::size_t kind = 0; kind < kSectionKinds; ++kind)
        for (std::size_t part = 0; part < kPaceParts; ++part) {
            const QJsonArray both =
                kinds.value(nameFor(kind)).toObject().value(QLatin1String(kPartNames[part])).toArray();
            const auto planned = both.at(0).toInteger(-1);
            const auto actual = both.at(1).toInteger(-1);
            if (planned > 0 && actual >= 0 && planned <= kLongest && actual <= kLongest)
                sample.add(static_cast<SectionKind>(kind), static_cast<PacePart>(part), Millis{planned},
                           Millis{actual});
        }
    return sample;
}

} // namespace

OwnPaceBook::OwnPaceBook(const QString& folder, QObject* parent) : QObject(parent), m_folder(folder)
{
    read();
    workOut();
}

void OwnPaceBook::read()
{
    QFile file(fileIn(m_folder));
    if (!file.open(QIODevice::ReadOnly))
        return;
    const QJsonObject all = QJsonDocument::fromJson(file.read(kMostBytes)).object();
    file.close();
    if (all.value(QLatin1String("version")).toInt() != kVersion) {
        const QString aside = file.fileName() + QStringLiteral(".unread");
        QFile::remove(aside);
        QFile::rename(file.fileName(), aside);
        return;
    }
    for (const QJsonValue& each : all.value(QLatin1String("classes")).toArray())
        if (const PaceSample sample = sampleOf(each.toObject()); !sample.empty() && m_samples.size() < kMostKept)
            m_samples.push_back(sample);
}

bool OwnPaceBook::write() const
{
    QJsonArray classes;
    for (const PaceSample& sample : m_samples)
        classes.append(jsonOf(sample));
    const QJsonObject all{{QLatin1String("version"), kVersion}, {QLatin1String("classes"), classes}};
    QSaveFile file(fileIn(m_folder));
    return QDir().mkpath(m_folder) && file.open(QIODevice::WriteOnly) && file.write(QJsonDocument(all).toJson()) >= 0 &&
           file.commit();
}

void OwnPaceBook::workOut()
{
    m_pace = OwnPace(m_samples);
}

QStringList OwnPaceBook::words() const
{
    QStringList all;
    for (const std::string& each : wordsOf(m_pace))
        all << QString::fromStdString(each);
    return all;
}

bool OwnPaceBook::learn(const PaceSample& sample)
{
    if (sample.empty())
        return true;
    m_samples.push_back(sample);
    if (m_samples.size() > kMostKept)
        m_samples.erase(m_samples.begin());
    workOut();
    const bool kept = write();
    emit changed();
    return kept;
}

bool OwnPaceBook::forget()
{
    m_samples.clear();
    workOut();
    const bool kept = write();
    emit changed();
    return kept;
}

} // namespace vh::write
