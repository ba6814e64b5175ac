#include "app/join/usual_store.h"

#include "common/wire/fields.h"

#include <QDir>
#include <QFile>
#include <QSaveFile>

namespace vh::wire
{

template <>
struct WireNames<TaskKind> {
    static constexpr std::array<std::string_view, 4> kNames{"phrases", "openTalk", "vowel", "glide"};
};

} // namespace vh::wire

namespace vh::join
{

namespace
{

struct Entry {
    std::string key;
    TaskKind task = TaskKind::phrases;
    std::vector<float> values;
    std::optional<float> level;
    std::optional<float> starting;
    std::optional<Instant> firstAt;
    std::optional<Instant> movedAt;
    bool frozen = false;
    bool suspended = false;
    float roomDbfsA = -120;
    float inputVolume = -1;
    // Younger than the file itself: absent in old ones.
    std::optional<std::uint32_t> people;
    std::optional<float> delayMs, leakDb;
    std::optional<float> calibrationDb, calibrationWithinDb;
    std::optional<Instant> calibratedAt;
    void fields(auto& visit)
    {
        visit("key", key, wire::atMost(2000)), visit("task", task),
            visit("values", values, wire::atMost(UsualLevel::kKept));
        visit("level", level), visit("starting", starting), visit("firstAt", firstAt), visit("movedAt", movedAt);
        visit("frozen", frozen), visit("suspended", suspended), visit("roomDbfsA", roomDbfsA);
        visit("inputVolume", inputVolume);
        visit("people", people), visit("delayMs", delayMs), visit("leakDb", leakDb);
        visit("calibrationDb", calibrationDb), visit("calibrationWithinDb", calibrationWithinDb);
        visit("calibratedAt", calibratedAt);
    }
};

struct File {
    std::vector<Entry> entries;
    void fields(auto& visit) { visit("entries", entries, wire::atMost(2000)); }
};

} // namespace

UsualStore::UsualStore(const QString& folder) : m_path(QDir(folder).filePath("usual-levels.json"))
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
    if (reader.error())
        return;
    for (const Entry& entry : read.entries) {
        Spot& spot = m_spots[entry.key];
        spot.roomDbfsA = entry.roomDbfsA;
        spot.inputVolume = entry.inputVolume;
        spot.people = static_cast<int>(entry.people.value_or(1));
        if (entry.delayMs && entry.leakDb)
            spot.path = EchoPath{*entry.delayMs, *entry.leakDb};
        if (entry.calibrationDb && entry.calibrationWithinDb && entry.calibratedAt)
            spot.calibration = Calibration{*entry.calibrationDb, *entry.calibrationWithinDb, *entry.calibratedAt};
        UsualLevel& usual = spot.usuals[entry.task];
        std::copy(entry.values.begin(), entry.values.end(), usual.values.begin());
        usual.valueCount = static_cast<std::uint8_t>(entry.values.size());
        usual.levelDbfsA = entry.level;
        usual.startingLevelDbfsA = entry.starting;
        usual.firstAt = entry.firstAt;
        usual.movedAt = entry.movedAt;
        usual.frozen = entry.frozen;
        usual.suspended = entry.suspended;
    }
}

std::string UsualStore::keyOf(PersonId person, const QByteArray& device)
{
    return person.hex() + " " + device.toHex().toStdString();
}

std::optional<UsualStore::Spot> UsualStore::find(PersonId person, const QByteArray& device) const
{
    const auto found = m_spots.find(keyOf(person, device));
    return found == m_spots.end() ? std::nullopt : std::optional(found->second);
}

bool UsualStore::keep(PersonId person, const QByteArray& device, const Spot& spot)
{
    m_spots[keyOf(person, device)] = spot;
    File written;
    for (const auto& [key, each] : m_spots)
        for (const auto& [task, usual] : each.usuals) {
            Entry entry{key,
                        task,
                        {usual.values.begin(), usual.values.begin() + usual.valueCount},
                        usual.levelDbfsA,
                        usual.startingLevelDbfsA,
                        usual.firstAt,
                        usual.movedAt,
                        usual.frozen,
                        usual.suspended,
                        each.roomDbfsA,
                        each.inputVolume,
                        static_cast<std::uint32_t>(each.people),
                        {},
                        {},
                        {},
                        {},
                        {}};
            if (each.path) {
                entry.delayMs = each.path->delayMs;
                entry.leakDb = each.path->leakDb;
            }
            if (each.calibration) {
                entry.calibrationDb = each.calibration->offsetDb;
                entry.calibrationWithinDb = each.calibration->uncertaintyDb;
                entry.calibratedAt = each.calibration->at;
            }
            written.entries.push_back(std::move(entry));
        }
    wire::json::object object;
    wire::FieldWriter writer(object);
    wire::visitFields(written, writer);
    const std::string text = wire::json::serialize(object);
    QDir().mkpath(QFileInfo(m_path).path());
    QSaveFile file(m_path);
    return file.open(QIODevice::WriteOnly) && file.setPermissions(QFile::ReadOwner | QFile::WriteOwner) &&
           file.write(text.data(), static_cast<qint64>(text.size())) == static_cast<qint64>(text.size()) &&
           file.commit();
}

} // namespace vh::join
