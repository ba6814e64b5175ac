#pragma once
// Pictures that others sent, by hash: fetched when somebody wants to see them, newest wish first, one at a time;
// checked against their hash, decoded with limits on a thread of the pool, and kept while there is room (kMostBytes
// decoded, least lately seen go first). What is no picture, or not the one that was asked for, is not shown and not
// asked for again on this line. GUI thread; must not outlive its line.
#include "app/link/line.h"

#include <QImage>

#include <map>
#include <set>

namespace vh::pictures
{

/// Longest edge of a small picture in a list, in px.
inline constexpr int kSmallEdge = 240;
QImage smallOf(const QImage& picture);
/// Of what came from a relay; null for anything but a JPEG or PNG of at most kPictureShownBytes and kSentEdge px. Pure.
QImage decodeShown(const QByteArray& bytes);

class PictureShelf : public QObject
{
    Q_OBJECT
public:
    static constexpr qsizetype kMostBytes = qsizetype{64} << 20; ///< decoded
    static constexpr std::size_t kMostWanted = 64;

    explicit PictureShelf(link::Line& line, QObject* parent = nullptr);

    /// Null until it is here; then arrived() tells. Asking is wanting it.
    QImage picture(const wire::Hash& hash);
    /// The same in small. It may be here longer than the large one.
    QImage small(const wire::Hash& hash);
    /// The relay does not have it, or gave something else.
    [[nodiscard]] bool isWithheld(const wire::Hash& hash) const { return m_withheld.contains(hash); }
    /// While something else needs the line, only what somebody looks at large is fetched.
    void setHeldBack(bool heldBack);
    [[nodiscard]] qsizetype heldBytes() const { return m_heldBytes; }

signals:
    void arrived(const vh::wire::Hash& hash);
    void withheld(const vh::wire::Hash& hash);

private:
    struct Kept {
        QImage large; ///< null: it had to go
        QImage little;
        std::uint64_t seen = 0; ///< rises with every look
    };
    enum class Look { large, little };
    void want(const wire::Hash& hash, Look look);
    void goOn();
    void take(const wire::ToClient& message);
    void takeFrame(const QByteArray& frame);
    void takeDecoded(const wire::Hash& hash, const QImage& large, const QImage& little);
    void withhold(const wire::Hash& hash);
    void endAsking();
    void makeRoom();

    link::Line& m_line;
    std::map<wire::Hash, Kept> m_kept;
    qsizetype m_heldBytes = 0;
    std::uint64_t m_looks = 0;
    std::vector<std::pair<wire::Hash, Look>> m_wanted; ///< the last one is fetched first
    std::optional<wire::Hash> m_asked;
    std::set<wire::Hash> m_decoding;
    std::set<wire::Hash> m_withheld;
    bool m_heldBack = false;
};

} // namespace vh::pictures
