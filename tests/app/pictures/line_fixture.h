#pragma once
// A program on a line to a relay that says what the test tells it to, with all that it has to do with pictures.
#include "app/link/class_follow.h"
#include "app/pictures/home_pictures.h"
#include "app/pictures/picture_desk.h"
#include "common/wire/binary.h"
#include "tests/app/link/scripted_relay.h"

#include <QBuffer>

namespace vh::testing
{

using namespace vh::pictures;

inline QByteArray encoded(const QImage& image)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    if (!image.save(&buffer, "PNG"))
        qFatal("cannot encode");
    return bytes;
}

inline QByteArray plain(QSize size, QColor colour)
{
    QImage image(size, QImage::Format_RGB32);
    image.fill(colour);
    return encoded(image);
}

inline wire::Hash hashOf(const QByteArray& bytes)
{
    return wire::sha256({bytes.constData(), static_cast<std::size_t>(bytes.size())});
}

inline std::string partOf(const wire::Hash& hash, const QByteArray& bytes)
{
    return wire::encodePart(
        hash, {reinterpret_cast<const std::uint8_t*>(bytes.constData()), static_cast<std::size_t>(bytes.size())});
}

/// A program on a line to a relay that says what the test tells it to.
struct Here {
    explicit Here(const ScriptedRelay& relay)
    {
        link::Entry entry;
        entry.host = "127.0.0.1";
        entry.port = relay.port();
        entry.keys = wire::makeKeyPair();
        entry.plain = true;
        line.open(entry);
    }
    bool isIn()
    {
        return QTest::qWaitFor([this] { return line.state() == link::LineState::in; });
    }

    HandClock clock{Instant{Millis{1'700'000'000'000}}};
    link::Line line{clock};
    link::ClassFollow follow{line};
    PictureSender sender{line};
    PictureShelf shelf{line};
    PictureDesk desk{line, shelf};
    QSignalSpy sent{&sender, &PictureSender::sent};
    QSignalSpy refused{&sender, &PictureSender::refused};
};

inline wire::Ack ackOf(const RequestId& id, std::optional<std::uint64_t> item = std::nullopt)
{
    wire::Ack ack;
    ack.id = id;
    ack.item = item;
    return ack;
}

inline QByteArray bytesOf(const wire::PicturePiece& piece)
{
    return QByteArray::fromBase64(QByteArray::fromStdString(piece.base64));
}

inline bool hearsNo(const ScriptedRelay& relay, auto kind)
{
    return std::none_of(relay.heard.begin(), relay.heard.end(),
                        [](const auto& message) { return std::holds_alternative<decltype(kind)>(message); });
}

inline wire::DeskItem deskItem(std::uint64_t item, std::uint64_t change, const QByteArray& bytes,
                               const std::string& caption)
{
    wire::DeskItem made;
    made.item = item;
    made.change = change;
    made.name = "Ruth";
    made.text = caption;
    made.at = Instant{Millis{1'700'000'000'000}};
    made.kind = wire::ItemKind::picture;
    made.picture = wire::PictureAbout{hashOf(bytes), 40, 20};
    return made;
}

} // namespace vh::testing
