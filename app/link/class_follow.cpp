#include "app/link/class_follow.h"

#include "common/wire/binary.h"
#include "common/wire/script_json.h"

#include <QTimer>

#include <algorithm>
#include <utility>

namespace vh::link
{

namespace
{
constexpr std::chrono::milliseconds kAskAgainAfter{500};
}

ClassFollow::ClassFollow(Line& line, QObject* parent) : QObject(parent), m_line(line)
{
    connect(&line, &Line::received, this, &ClassFollow::take);
    connect(&line, &Line::binaryReceived, this, &ClassFollow::takePart);
    connect(&line, &Line::fetchFree, this, [this](const QObject* by) {
        if (by != this)
            fetch();
    });
}

void ClassFollow::take(const wire::ToClient& message)
{
    if (const auto* welcome = std::get_if<wire::Welcome>(&message)) {
        if (welcome->open && !welcome->open->parts.empty())
            takeOpen(*welcome->open);
        else
            m_open.reset();
        m_place = welcome->place;
        endAsking(); // what was asked for before the line was lost
        m_withheld.clear();
        fetch();
    } else if (const auto* open = std::get_if<wire::ClassOpen>(&message); open && !open->parts.empty()) {
        if (!m_open || m_open->classId != open->classId)
            m_place.reset(); // otherwise the class was corrected, where it is
        endAsking();
        m_withheld.clear();
        takeOpen(*open);
        fetch();
    } else if (const auto* place = std::get_if<wire::PlaceNow>(&message)) {
        m_place = *place;
    } else if (const auto* refused = std::get_if<wire::Refused>(&message); refused && !refused->id) {
        return partRefused(refused->code);
    } else {
        return;
    }
    emit changed();
}

void ClassFollow::takeOpen(const wire::ClassOpen& open)
{
    // Of a class that was corrected the script that is known goes on until the new one is there. After a restart of the
    // relay the pictures of the same class may stand in another order.
    if (!m_open || m_open->classId != open.classId)
        m_script.reset();
    m_open = open;
    std::erase_if(m_parts, [this](const auto& part) { return !isWanted(part.first); });
    readScript(); // the same script once more, in another class
}

bool ClassFollow::isWanted(const wire::Hash& part) const
{
    const auto isIn = [&](const std::vector<wire::Hash>& parts) {
        return std::find(parts.begin(), parts.end(), part) != parts.end();
    };
    return (m_open && isIn(m_open->parts)) || isIn(m_also);
}

void ClassFollow::alsoFetch(std::vector<wire::Hash> parts)
{
    m_also = std::move(parts);
    for (const wire::Hash& part : m_also)
        m_withheld.erase(part);
    std::erase_if(m_parts, [this](const auto& part) { return !isWanted(part.first); });
    fetch();
}

void ClassFollow::setHeldBack(bool heldBack)
{
    if (std::exchange(m_heldBack, heldBack) && !heldBack)
        fetch();
}

std::optional<QByteArray> ClassFollow::part(const wire::Hash& hash) const
{
    const auto found = m_parts.find(hash);
    return found == m_parts.end() ? std::nullopt : std::optional(found->second);
}

std::optional<wire::Hash> ClassFollow::nextMissing() const
{
    const auto missingOf = [this](const std::vector<wire::Hash>& parts) -> std::optional<wire::Hash> {
        for (const wire::Hash& hash : parts)
            if (!m_parts.contains(hash) && !m_withheld.contains(hash))
                return hash;
        return std::nullopt;
    };
    if (m_open)
        if (const auto missing = missingOf(m_open->parts))
            return missing;
    return m_heldBack ? std::nullopt : missingOf(m_also);
}

/// One at a time, the script first: a refusal does not say what it is about.
void ClassFollow::fetch()
{
    if (m_asked)
        return;
    const auto missing = nextMissing();
    if (!missing || !m_line.beginFetch(this))
        return;
    m_asked = missing;
    m_line.tell(wire::PartAsk{*missing});
}

void ClassFollow::endAsking()
{
    m_asked.reset();
    m_line.endFetch(this);
}

void ClassFollow::partRefused(const std::string& code)
{
    const bool unknown = code == "part-unknown" || code == "no-class";
    if (!m_asked || (!unknown && code != "busy" && code != "store-failed"))
        return;
    const wire::Hash asked = *m_asked;
    // Without its script there is no class to follow.
    const bool script = m_open && asked == m_open->parts.front();
    const bool later = !unknown || script;
    if (!later)
        m_withheld.insert(asked);
    endAsking();
    QTimer::singleShot(later ? kAskAgainAfter : std::chrono::milliseconds{0}, this, &ClassFollow::fetch);
    if (!later && std::find(m_also.begin(), m_also.end(), asked) != m_also.end())
        emit withheld(asked);
}

void ClassFollow::readScript()
{
    if (!m_open || (m_script && m_scriptHash == m_open->parts.front()))
        return;
    const auto found = m_parts.find(m_open->parts.front());
    if (found == m_parts.end())
        return;
    if (auto script = wire::decodeScript(found->second.toStdString())) {
        m_scriptHash = found->first;
        m_script = std::make_shared<const ClassScript>(std::move(*script));
    }
}

void ClassFollow::takePart(const QByteArray& frame)
{
    const std::span bytes(reinterpret_cast<const std::uint8_t*>(frame.constData()),
                          static_cast<std::size_t>(frame.size()));
    if (wire::binaryTypeOf(bytes) != static_cast<std::uint8_t>(wire::BinaryType::part))
        return;
    const auto part = wire::decodePart(bytes);
    if (!part || (!isWanted(part->hash) && m_asked != part->hash))
        return;
    const std::string_view text(reinterpret_cast<const char*>(part->bytes.data()), part->bytes.size());
    if (wire::sha256(text) != part->hash)
        return;
    if (isWanted(part->hash))
        m_parts[part->hash] = QByteArray(text.data(), static_cast<qsizetype>(text.size()));
    readScript();
    if (m_asked == part->hash) {
        endAsking();
        fetch();
    }
    emit changed();
}

std::optional<TurnAt> ClassFollow::turn() const
{
    return m_script && m_place ? turnAt(*m_script, m_place->place) : std::nullopt;
}

Millis ClassFollow::turnLeft() const
{
    if (!m_place)
        return Millis{0};
    const Millis spent =
        m_place->phase == Phase::running ? m_line.relayNow() - m_place->turnStartedAt : m_place->turnSpent;
    return std::clamp(m_place->turnLength - spent, Millis{0}, m_place->turnLength);
}

QByteArray ClassFollow::picture(const std::string& file) const
{
    const auto bytes = bytesOfHex(std::string_view(file).substr(0, file.rfind('.')));
    wire::Hash hash{};
    if (!bytes || bytes->size() != hash.size())
        return {};
    std::copy(bytes->begin(), bytes->end(), hash.begin());
    const auto found = m_parts.find(hash);
    return found == m_parts.end() ? QByteArray() : found->second;
}

} // namespace vh::link
