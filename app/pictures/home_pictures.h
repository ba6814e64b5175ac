#pragma once
// All that a participant's program has to do with pictures: those of others on the board, one's own on their way, the
// page on which one is sent, and the one that is looked at large. Says which page is open; the room shows it. GUI
// thread; must not outlive its line.
#include "app/pictures/large_page.h"
#include "app/pictures/send_flow.h"
#include "app/pictures/shelf.h"
#include "app/pictures/window_now.h"

class QMimeData;

namespace vh::pictures
{

/// A picture of the board that is looked at large.
struct Looked {
    quint64 key = 0; ///< by which whoever opens it knows it again
    wire::Hash hash{};
    QString name;
    QString caption;
    QString state; ///< of one's own; may be empty
    bool own = false;
    bool mayTakeBack = false;
};

class HomePictures : public QObject
{
    Q_OBJECT
public:
    explicit HomePictures(link::Line& line, QObject* parent = nullptr);

    enum class Page { none, send, large };
    [[nodiscard]] Page page() const;
    [[nodiscard]] const SendView& sendView() const { return m_flow.view(); }
    [[nodiscard]] LargeView largeView() const;
    /// In the group's window now, for a home that may show it.
    [[nodiscard]] ShownPicture shown() const { return m_window.shown(); }
    /// Of the board, in small.
    [[nodiscard]] QImage small(const wire::Hash& hash) { return m_shelf.small(hash); }
    [[nodiscard]] PictureShelf& shelf() { return m_shelf; }
    [[nodiscard]] PictureSender& sender() { return m_sender; }
    [[nodiscard]] const PictureSender& sender() const { return m_sender; }
    [[nodiscard]] SendFlow& flow() { return m_flow; }

    /// Whether this person's pictures may be shown; as long as not, it is asked before one is sent.
    void setAgreed(bool agreed) { m_agreed = agreed; }
    /// While the class asks for something only what is looked at large is fetched.
    void setHeldBack(bool heldBack) { m_shelf.setHeldBack(heldBack); }
    void openSend() { m_flow.open(); }
    void paste(const QMimeData* copied);
    void send(const QString& caption) { m_flow.send(caption, m_agreed); }
    void look(const Looked& at);
    [[nodiscard]] const std::optional<Looked>& looked() const { return m_looked; }
    /// The same one, as it is now; nothing: it is not there any more.
    void lookedIs(std::optional<Looked> now) { m_looked = std::move(now); }
    void closeLarge();
    /// One page back.
    void back();

signals:
    void changed();

private:
    mutable PictureShelf m_shelf; ///< looking is wanting
    PictureSender m_sender;
    SendFlow m_flow;
    WindowNow m_window;
    std::optional<Looked> m_looked;
    bool m_agreed = false;
};

} // namespace vh::pictures
