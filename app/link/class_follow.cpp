#include "app/link/class_follow.h"

#include "common/wire/binary.h"
#include "common/wire/script_json.h"

namespace vh::link
{

ClassFollow::ClassFollow(Line& line, QObject* parent) : QObject(parent), m_line(line)
{
    connect(&line, &Line::received, this, &ClassFollow::take);
    connect(&line, &Line::binaryReceived, this, &ClassFollow::takePart);
}

void ClassFollow::take(const wire::ToClient& message)
{
    if (const auto* welcome = std::get_if<wire::Welcome>(&message)) {
        if (welcome->open)
            takeOpen(*welcome->open);
        else
            m_open.reset();
        m_place = welcome->place;
        fetch(); // what was asked for before the line was lost
    } else if (const auto* open = std::get_if<wire::ClassOpen>(&message)) {
        m_place.reset();
        takeOpen(*open);
        fetch();
    } else if (const auto* place = std::get_if<wire::PlaceNow>(&message)) {
        m_place = *place;
    } else {
        return;
    }
    emit changed();
}

void ClassFollow::takeOpen(const wire::ClassOpen& open)
{
    if (m_open && m_open->classId == open.classId && m_open->parts == open.parts)
        return;
    m_open = open;
    m_script.reset();
    std::erase_if(m_parts, [&](const auto& part) {
        return std::find(open.parts.begin(), open.parts.end(), part.first) == open.parts.end();
    });
}

void ClassFollow::fetch()
{
    if (m_open)
        for (const wire::Hash& hash : m_open->parts)
            if (!m_parts.contains(hash))
                m_line.tell(wire::PartAsk{hash});
}

void ClassFollow::takePart(const QByteArray& frame)
{
    const std::span bytes(reinterpret_cast<const std::uint8_t*>(frame.constData()),
                          static_cast<std::size_t>(frame.size()));
    if (wire::binaryTypeOf(bytes) != static_cast<std::uint8_t>(wire::BinaryType::part))
        return;
    const auto part = wire::decodePart(bytes);
    if (!part || !m_open || std::find(m_open->parts.begin(), m_open->parts.end(), part->hash) == m_open->parts.end())
        return;
    const std::string_view text(reinterpret_cast<const char*>(part->bytes.data()), part->bytes.size());
    if (wire::sha256(text) != part->hash)
        return;
    m_parts[part->hash] = QByteArray(text.data(), static_cast<qsizetype>(text.size()));
    if (part->hash == m_open->parts.front()) {
        auto script = wire::decodeScript(text);
        if (!script)
            return;
        m_script = std::make_shared<const ClassScript>(std::move(*script));
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
