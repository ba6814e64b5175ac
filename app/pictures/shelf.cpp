#include "app/pictures/shelf.h"

#include "app/pictures/prepare.h"
#include "common/wire/binary.h"
#include "common/wire/login_text.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QImageReader>
#include <QPointer>
#include <QThreadPool>

#include <algorithm>
#include <utility>

namespace vh::pictures
{

namespace
{

constexpr std::chrono::milliseconds kAskAgainAfter{500};

} // namespace

QImage smallOf(const QImage& picture)
{
    if (std::max(picture.width(), picture.height()) <= kSmallEdge)
        return picture;
    return picture.scaled(picture.size().scaled(kSmallEdge, kSmallEdge, Qt::KeepAspectRatio).expandedTo({1, 1}),
                          Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
}

QImage decodeShown(const QByteArray& bytes)
{
    const bool jpeg = bytes.startsWith("\xff\xd8\xff");
    if (bytes.size() > static_cast<qsizetype>(wire::kPictureShownBytes) || (!jpeg && !bytes.startsWith("\x89PNG")))
        return {};
    QBuffer source;
    source.setData(bytes);
    source.open(QIODevice::ReadOnly);
    QImageReader reader(&source, jpeg ? "jpeg" : "png"); // no other reader ever sees it
    reader.setAutoDetectImageFormat(false);
    const QSize size = reader.size(); // before memory is taken for it
    if (!size.isValid() || std::max(size.width(), size.height()) > kSentEdge)
        return {};
    QImage image = reader.read();
    return image.isNull() || image.size() != size ? QImage() : image.convertToFormat(QImage::Format_RGB32);
}

PictureShelf::PictureShelf(link::Line& line, QObject* parent) : QObject(parent), m_line(line)
{
    connect(&line, &link::Line::received, this, &PictureShelf::take);
    connect(&line, &link::Line::binaryReceived, this, &PictureShelf::takeFrame);
    connect(&line, &link::Line::fetchFree, this, [this](const QObject* by) {
        if (by != this)
            goOn();
    });
}

QImage PictureShelf::picture(const wire::Hash& hash)
{
    const auto found = m_kept.find(hash);
    if (found != m_kept.end()) {
        found->second.seen = ++m_looks;
        if (!found->second.large.isNull())
            return found->second.large;
    }
    want(hash, Look::large);
    return {};
}

QImage PictureShelf::small(const wire::Hash& hash)
{
    const auto found = m_kept.find(hash);
    if (found != m_kept.end()) {
        found->second.seen = std::max(found->second.seen, ++m_looks);
        return found->second.little;
    }
    want(hash, Look::little);
    return {};
}

void PictureShelf::setHeldBack(bool heldBack)
{
    if (std::exchange(m_heldBack, heldBack) && !heldBack)
        goOn();
}

/// What is looked at large comes before what stands small in a list, and the newest wish before older ones.
void PictureShelf::want(const wire::Hash& hash, Look look)
{
    if (m_asked == hash || m_decoding.contains(hash) || m_withheld.contains(hash))
        return;
    const auto found =
        std::find_if(m_wanted.begin(), m_wanted.end(), [&](const auto& each) { return each.first == hash; });
    if (found != m_wanted.end() && (found->second == look || look == Look::little))
        return;
    if (found != m_wanted.end())
        m_wanted.erase(found);
    const auto firstLarge =
        std::find_if(m_wanted.begin(), m_wanted.end(), [](const auto& each) { return each.second == Look::large; });
    m_wanted.insert(look == Look::large ? m_wanted.end() : firstLarge, {hash, look});
    if (m_wanted.size() > kMostWanted)
        m_wanted.erase(m_wanted.begin());
    goOn();
}

void PictureShelf::goOn()
{
    if (m_wanted.empty() || m_asked || m_line.state() != link::LineState::in)
        return;
    const auto [hash, look] = m_wanted.back();
    if ((m_heldBack && look == Look::little) || !m_line.beginFetch(this))
        return;
    m_wanted.pop_back();
    m_asked = hash;
    m_line.tell(wire::PictureAsk{hash});
}

void PictureShelf::endAsking()
{
    m_asked.reset();
    m_line.endFetch(this); // somebody else may go first
    goOn();
}

void PictureShelf::take(const wire::ToClient& message)
{
    if (std::holds_alternative<wire::Welcome>(message)) {
        m_withheld.clear();
        if (const auto asked = std::exchange(m_asked, std::nullopt)) // before the line was lost
            m_wanted.emplace_back(*asked, Look::large);
        return goOn();
    }
    const auto* refused = std::get_if<wire::Refused>(&message);
    if (!refused || refused->id || !m_asked)
        return;
    const wire::Hash asked = *m_asked;
    if (refused->code == "part-unknown" || refused->code == "not-allowed") {
        withhold(asked);
        endAsking();
    } else if (refused->code == "busy" || refused->code == "store-failed") {
        QTimer::singleShot(kAskAgainAfter, this, [this, asked] {
            if (m_asked == asked)
                m_line.tell(wire::PictureAsk{asked});
        });
    }
}

void PictureShelf::takeFrame(const QByteArray& frame)
{
    const std::span bytes(reinterpret_cast<const std::uint8_t*>(frame.constData()),
                          static_cast<std::size_t>(frame.size()));
    if (!m_asked || wire::binaryTypeOf(bytes) != static_cast<std::uint8_t>(wire::BinaryType::part))
        return;
    const auto part = wire::decodePart(bytes);
    if (!part || part->hash != *m_asked)
        return;
    const std::string_view text(reinterpret_cast<const char*>(part->bytes.data()), part->bytes.size());
    const wire::Hash hash = *m_asked;
    if (wire::sha256(text) != hash) {
        withhold(hash);
        return endAsking();
    }
    m_decoding.insert(hash);
    QThreadPool::globalInstance()->start(
        [hash, self = QPointer(this), coded = QByteArray(text.data(), static_cast<qsizetype>(text.size()))] {
            const QImage large = decodeShown(coded);
            QMetaObject::invokeMethod(
                qApp,
                [self, hash, large, little = smallOf(large)] {
                    if (self)
                        self->takeDecoded(hash, large, little);
                },
                Qt::QueuedConnection);
        });
    endAsking();
}

void PictureShelf::takeDecoded(const wire::Hash& hash, const QImage& large, const QImage& little)
{
    m_decoding.erase(hash);
    if (large.isNull())
        return withhold(hash);
    Kept& kept = m_kept[hash];
    m_heldBytes += large.sizeInBytes() + little.sizeInBytes() - kept.large.sizeInBytes() - kept.little.sizeInBytes();
    kept = {large, little, ++m_looks};
    makeRoom();
    emit arrived(hash);
}

void PictureShelf::withhold(const wire::Hash& hash)
{
    m_withheld.insert(hash);
    emit withheld(hash);
}

/// Large ones go first, the least lately seen before others; then whole entries. The one seen last stays.
void PictureShelf::makeRoom()
{
    const auto oldest = [this](bool withLarge) {
        auto found = m_kept.end();
        for (auto at = m_kept.begin(); at != m_kept.end(); ++at)
            if (at->second.seen != m_looks && (!withLarge || !at->second.large.isNull()) &&
                (found == m_kept.end() || at->second.seen < found->second.seen))
                found = at;
        return found;
    };
    while (m_heldBytes > kMostBytes) {
        if (const auto large = oldest(true); large != m_kept.end()) {
            m_heldBytes -= large->second.large.sizeInBytes();
            large->second.large = {};
        } else if (const auto entry = oldest(false); entry != m_kept.end()) {
            m_heldBytes -= entry->second.little.sizeInBytes();
            m_kept.erase(entry);
        } else {
            return;
        }
    }
}

} // namespace vh::pictures
