#pragma once
// Everyday steps with pictures: sending one in pieces, fetching one, and whether bytes still lie on the disk.
#include "common/base/base64.h"
#include "common/wire/binary.h"
#include "tests/server/hall/test_relay.h"
#include "tests/server/photos/picture_files.h"

#include <QFile>

namespace vh::testing
{

using photos::Bytes;

inline std::uint32_t piecesOf(const Bytes& file)
{
    return static_cast<std::uint32_t>((file.size() + wire::kPicturePieceBytes - 1) / wire::kPicturePieceBytes);
}

inline wire::PicturePiece piece(const Bytes& file, RequestId picture, std::uint32_t number,
                                const std::string& caption = {})
{
    const std::size_t from = number * wire::kPicturePieceBytes;
    const auto bytes = std::span(file).subspan(from, std::min(wire::kPicturePieceBytes, file.size() - from));
    return {RequestId::random(), picture, number, piecesOf(file), number == 0 ? caption : std::string(),
            base64Of(bytes)};
}

/// All pieces but the last, which are acknowledged.
inline void sendMost(const Visitor& from, const Bytes& file, RequestId picture, const std::string& caption = {})
{
    for (std::uint32_t i = 0; i + 1 < piecesOf(file); ++i)
        from->acked(piece(file, picture, i, caption));
}
/// It has come through: its item.
inline std::uint64_t sent(const Visitor& from, const Bytes& file, const std::string& caption = {},
                          RequestId picture = RequestId::random())
{
    sendMost(from, file, picture, caption);
    return from->acked(piece(file, picture, piecesOf(file) - 1, caption)).item.value();
}
/// It has not: why.
inline std::string refusedOf(const Visitor& from, const Bytes& file, RequestId picture = RequestId::random())
{
    sendMost(from, file, picture);
    return from->refused(piece(file, picture, piecesOf(file) - 1)).code;
}

inline Bytes fetched(const Visitor& who, const wire::Hash& hash)
{
    who->say(wire::PictureAsk{hash});
    Bytes bytes;
    who->waitBinary([&](std::span<const std::uint8_t> frame) {
        const auto part = wire::decodePart(frame);
        if (!part || part->hash != hash)
            return false;
        bytes.assign(part->bytes.begin(), part->bytes.end());
        return true;
    });
    return bytes;
}
/// There is no such picture, for this person.
inline std::string notFetched(const Visitor& who, const wire::Hash& hash)
{
    who->say(wire::PictureAsk{hash});
    return who->wait<wire::Refused>([](const wire::Refused& refused) { return !refused.id; }).code;
}

/// In the database or its log, as it lies on the disk now. Looks for its end: the file has pages, and pictures begin
/// alike.
inline bool isOnDisk(const TestRelay& relay, const Bytes& bytes)
{
    const QByteArray stretch(reinterpret_cast<const char*>(bytes.data() + bytes.size() - 48), 48);
    for (const char* suffix : {"", "-wal"}) {
        QFile file(QString::fromStdString(relay.file() + suffix));
        if (file.open(QIODevice::ReadOnly) && file.readAll().contains(stretch))
            return true;
    }
    return false;
}

} // namespace vh::testing
