#include "app/pictures/sender.h"

#include <algorithm>
#include <utility>

namespace vh::pictures
{

namespace
{

constexpr std::chrono::milliseconds kBusyWait{2000};
/// The person may have agreed a moment ago, and the relay is still writing that down.
constexpr std::chrono::milliseconds kUnheardWait{500};
constexpr int kMostUnheard = 3;
/// A relay that loses its place again and again.
constexpr int kMostRestarts = 20;

} // namespace

std::uint32_t PictureSender::Going::pieces() const
{
    const auto size = static_cast<std::uint32_t>(bytes.size());
    constexpr auto kPiece = static_cast<std::uint32_t>(wire::kPicturePieceBytes);
    return std::max<std::uint32_t>(1, (size + kPiece - 1) / kPiece);
}

int PictureSender::Going::percent() const
{
    return static_cast<int>(100 * piece / pieces());
}

PictureSender::PictureSender(link::Line& line, QObject* parent) : QObject(parent), m_line(line)
{
    connect(&line, &link::Line::answered, this, &PictureSender::answered);
    connect(&line, &link::Line::stateChanged, this, &PictureSender::lineIs);
    m_later.setSingleShot(true);
    connect(&m_later, &QTimer::timeout, this, &PictureSender::goOn);
}

RequestId PictureSender::send(const QByteArray& bytes, const QImage& small, const QString& caption)
{
    if (m_waiting.size() >= kMostWaiting)
        return {};
    Going going;
    going.picture = RequestId::random();
    going.caption = caption;
    going.small = small;
    going.bytes = bytes;
    const RequestId id = going.picture;
    m_waiting.push_back(std::move(going));
    goOn();
    emit changed();
    return id;
}

std::vector<PictureSender::Going> PictureSender::going() const
{
    std::vector<Going> all;
    std::copy_if(m_waiting.begin(), m_waiting.end(), std::back_inserter(all),
                 [](const Going& each) { return !each.cancelled; });
    return all;
}

void PictureSender::goOn()
{
    if (m_waiting.empty() || m_asked || m_later.isActive() || m_line.state() != link::LineState::in)
        return;
    const Going& now = m_waiting.front();
    wire::PicturePiece piece;
    piece.picture = now.picture;
    piece.piece = now.piece;
    piece.pieces = now.pieces();
    if (now.piece == 0)
        piece.text = now.caption.toStdString();
    const auto most = static_cast<qsizetype>(wire::kPicturePieceBytes);
    piece.base64 = now.bytes.mid(now.piece * most, most).toBase64().toStdString();
    m_asked = m_line.ask(std::move(piece));
}

/// From the first piece, under the same name.
void PictureSender::startAgain()
{
    if (!m_waiting.empty())
        m_waiting.front().piece = 0;
    if (const auto asked = std::exchange(m_asked, std::nullopt))
        m_line.drop(*asked);
}

void PictureSender::lineIs(link::LineState state)
{
    if (state == link::LineState::in) {
        m_restarts = 0;
        goOn();
    } else {
        startAgain();
    }
    emit changed();
}

void PictureSender::answered(const RequestId& id, const wire::Ack& ack, const Error* error)
{
    if (m_asked != id)
        return;
    m_asked.reset();
    Going& now = m_waiting.front();
    if (error) {
        pieceRefused(*error);
    } else if (ack.item) {
        arrived(*ack.item);
    } else if (now.cancelled) {
        end(); // the relay does not have all of it, and never will
    } else if (++now.piece >= now.pieces()) {
        pieceRefused({"piece-unknown", {}, {}}); // all of it is there, and the relay does not say as what
    }
    goOn();
    emit changed();
}

void PictureSender::arrived(std::uint64_t item)
{
    const Going done = m_waiting.front();
    end();
    if (done.cancelled)
        m_line.ask(wire::TakeBackOwn{{}, item});
    else
        emit sent(done.picture, item);
}

void PictureSender::pieceRefused(const Error& error)
{
    const bool unheard = error.code == "not-agreed";
    const bool again = error.code == "pictures-busy" || error.code == "piece-unknown" || error.code == "gave-up";
    const int most = unheard ? kMostUnheard : again ? kMostRestarts : 0;
    if (!m_waiting.front().cancelled && ++m_restarts <= most) {
        m_later.start(unheard ? kUnheardWait : kBusyWait);
        return startAgain();
    }
    const Going failed = m_waiting.front();
    end();
    if (!failed.cancelled)
        emit refused(failed.picture, again ? Error{"pictures-busy",
                                                   tr("The relay cannot take the picture just now. Please try again "
                                                      "later.")
                                                       .toStdString(),
                                                   {}}
                                           : error);
}

void PictureSender::end()
{
    m_waiting.pop_front();
    m_restarts = 0;
}

void PictureSender::cancel(const RequestId& picture)
{
    const auto found =
        std::find_if(m_waiting.begin(), m_waiting.end(), [&](const Going& each) { return each.picture == picture; });
    if (found == m_waiting.end())
        return;
    const bool mayBeThere = found == m_waiting.begin() && (m_asked || found->piece > 0);
    found->cancelled = true; // what is on its way is answered first: the relay may have it already
    if (!mayBeThere)
        m_waiting.erase(found);
    emit changed();
}

} // namespace vh::pictures
