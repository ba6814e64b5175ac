#pragma once
// Pictures of one person on their way up: one after the other, piece by piece, each piece when the one before has been
// acknowledged, so that a voice on the same line never waits long. After a broken line it begins again under the same
// name, and is there once. One that is cancelled when the relay may have it already is taken back there. Pictures wait
// as long as this program runs. GUI thread; must not outlive its line.
#include "app/link/line.h"

#include <QImage>

#include <deque>

namespace vh::pictures
{

class PictureSender : public QObject
{
    Q_OBJECT
public:
    /// No more wait here at once.
    static constexpr std::size_t kMostWaiting = 5;

    struct Going {
        RequestId picture;
        QString caption;
        QImage small;
        QByteArray bytes;
        std::uint32_t piece = 0; ///< the next, or the one that is on its way
        bool cancelled = false;
        [[nodiscard]] std::uint32_t pieces() const;
        [[nodiscard]] int percent() const;
    };

    explicit PictureSender(link::Line& line, QObject* parent = nullptr);

    /// Null when too many wait already. `small`: to be recognised by.
    RequestId send(const QByteArray& bytes, const QImage& small, const QString& caption);
    void cancel(const RequestId& picture);
    /// The first is going up, the others wait; not those that were cancelled.
    [[nodiscard]] std::vector<Going> going() const;

signals:
    void changed();
    /// The relay has it, and it is to be looked at.
    void sent(const vh::RequestId& picture, quint64 item);
    /// It will not be taken; in words for the person.
    void refused(const vh::RequestId& picture, const vh::Error& error);

private:
    void goOn();
    void startAgain();
    void answered(const RequestId& id, const wire::Ack& ack, const Error* error);
    void arrived(std::uint64_t item);
    void pieceRefused(const Error& error);
    void end();
    void lineIs(link::LineState state);

    link::Line& m_line;
    std::deque<Going> m_waiting;
    std::optional<RequestId> m_asked; ///< the piece that is on its way
    QTimer m_later;
    int m_restarts = 0; ///< of the first, since the line is up
};

} // namespace vh::pictures
