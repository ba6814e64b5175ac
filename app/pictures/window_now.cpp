#include "app/pictures/window_now.h"

#include <utility>

namespace vh::pictures
{

WindowNow::WindowNow(link::Line& line, PictureShelf& shelf, QObject* parent) : QObject(parent), m_shelf(shelf)
{
    connect(&line, &link::Line::received, this, &WindowNow::take);
    const auto tell = [this](const wire::Hash& hash) {
        if (m_now && m_now->picture && m_now->picture->hash == hash)
            emit changed();
    };
    connect(&shelf, &PictureShelf::arrived, this, tell);
    connect(&shelf, &PictureShelf::withheld, this, tell);
    if (line.welcome()) // the line was up before
        take(*line.welcome());
}

void WindowNow::take(const wire::ToClient& message)
{
    if (const auto* welcome = std::get_if<wire::Welcome>(&message)) {
        m_since = welcome->seq;
        m_now = welcome->inWindow;
    } else if (const auto* now = std::get_if<wire::PictureNow>(&message); now && now->seq > m_since) {
        m_now = *now;
    } else {
        return;
    }
    emit changed();
}

ShownPicture WindowNow::shown() const
{
    ShownPicture shown;
    if (!m_now || !m_now->picture)
        return shown;
    shown.picture = m_shelf.picture(m_now->picture->hash);
    if (shown.picture.isNull())
        shown.words = m_shelf.isWithheld(m_now->picture->hash) ? tr("This picture could not be fetched.")
                                                               : tr("The picture is on its way.");
    shown.caption = captionOf(QString::fromStdString(m_now->name), QString::fromStdString(m_now->text));
    return shown;
}

WindowWaiting::WindowWaiting(link::Line& line, PictureShelf& shelf, const WindowNow& window, QObject* parent)
    : QObject(parent), m_line(line), m_shelf(shelf), m_window(window)
{
    connect(&line, &link::Line::received, this, &WindowWaiting::take);
    connect(&line, &link::Line::answered, this,
            [this](const RequestId& id, const wire::Ack&, const Error* error) { answered(id, error); });
    connect(&window, &WindowNow::changed, this, [this] { windowChanged(); });
    connect(&shelf, &PictureShelf::arrived, this, &WindowWaiting::changed);
}

void WindowWaiting::take(const wire::ToClient& message)
{
    const auto* desk = std::get_if<wire::OnDesk>(&message);
    if (!desk)
        return;
    if (desk->whole)
        m_waiting.clear();
    for (const wire::DeskItem& item : desk->items) {
        if (item.state == wire::DeskState::forWindow && item.picture)
            m_waiting[item.item] = item;
        else
            m_waiting.erase(item.item);
    }
    emit changed();
}

/// One that was shown from here, and is not any more, waits no longer.
void WindowWaiting::windowChanged()
{
    const std::uint64_t item = m_window.item();
    if (m_showing != 0 && item != m_showing)
        m_line.ask(wire::TakeItem{{}, std::exchange(m_showing, 0)});
    if (item != 0 && item == m_asks)
        m_showing = item;
    m_asks = 0;
    emit changed();
}

WindowStripView WindowWaiting::view() const
{
    WindowStripView view;
    if (m_waiting.empty())
        return view;
    auto first = m_waiting.find(m_window.item());
    if (first == m_waiting.end())
        first = m_waiting.begin();
    const wire::DeskItem& item = first->second;
    view.item = item.item;
    view.picture = m_shelf.small(item.picture->hash);
    view.name = QString::fromStdString(item.name);
    view.text = QString::fromStdString(item.text);
    view.more = static_cast<int>(m_waiting.size()) - 1;
    view.shown = item.item == m_window.item();
    return view;
}

void WindowWaiting::show(quint64 item, bool on)
{
    wire::ShowPicture message;
    message.item = item;
    message.on = on;
    m_asks = on ? item : 0;
    m_asked.insert(m_line.ask(message));
}

void WindowWaiting::done(quint64 item)
{
    m_asked.insert(m_line.ask(wire::TakeItem{{}, item}));
}

void WindowWaiting::answered(const RequestId& id, const Error* error)
{
    if (m_asked.erase(id) > 0 && error)
        emit refused(QString::fromStdString(error->message));
}

} // namespace vh::pictures
