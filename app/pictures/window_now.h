#pragma once
// What the leader shows to all in the group's window, as a line's hall says it; and, for the leader herself, the
// pictures that wait for that. GUI thread; must not outlive line and shelf.
#include "app/pictures/shelf.h"
#include "app/pictures/shown_view.h"
#include "app/pictures/window_strip.h"

#include <map>

namespace vh::pictures
{

class WindowNow : public QObject
{
    Q_OBJECT
public:
    WindowNow(link::Line& line, PictureShelf& shelf, QObject* parent = nullptr);

    /// Nothing while nothing is shown.
    [[nodiscard]] ShownPicture shown() const;
    [[nodiscard]] std::uint64_t item() const { return m_now && m_now->picture ? m_now->item : 0; }

signals:
    void changed();

private:
    void take(const wire::ToClient& message);

    PictureShelf& m_shelf;
    std::optional<wire::PictureNow> m_now;
    std::uint64_t m_since = 0; ///< what was said before is in the welcome
};

class WindowWaiting : public QObject
{
    Q_OBJECT
public:
    WindowWaiting(link::Line& line, PictureShelf& shelf, const WindowNow& window, QObject* parent = nullptr);

    /// The one that is shown, else the oldest.
    [[nodiscard]] WindowStripView view() const;
    void show(quint64 item, bool on);
    /// She does not want this one. One that was shown from here goes by itself.
    void done(quint64 item);

signals:
    void changed();
    /// In words for her.
    void refused(const QString& why);

private:
    void take(const wire::ToClient& message);
    void answered(const RequestId& id, const Error* error);
    void windowChanged();

    link::Line& m_line;
    PictureShelf& m_shelf;
    const WindowNow& m_window;
    std::map<std::uint64_t, wire::DeskItem> m_waiting;
    std::uint64_t m_asks = 0;    ///< to be shown, from here
    std::uint64_t m_showing = 0; ///< as was asked for here
    std::set<RequestId> m_asked;
};

} // namespace vh::pictures
