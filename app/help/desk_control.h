#pragma once
// Binds a helper's line, the model and the desk. Owns the room until something else takes it as a child. The line must
// outlive it. Made before the line comes in, or in its stateChanged(in):
// what the relay sends right after the welcome is not sent twice. GUI thread.
#include "app/help/desk_model.h"
#include "app/help/desk_room.h"
#include "app/link/class_follow.h"
#include "app/people/call_bell.h"
#include "app/pictures/picture_desk.h"

#include <QPointer>

#include <functional>
#include <map>
#include <set>

namespace vh::help
{

class DeskControl : public QObject
{
    Q_OBJECT
public:
    /// folder: where ready-made answers are kept; empty: nowhere.
    explicit DeskControl(link::Line& line, const QString& folder = {}, QObject* parent = nullptr);
    ~DeskControl() override;
    /// Where a call for help rings; the standard one unless said.
    void setLoudspeaker(const sound::DeviceChoice& choice) { m_bell.setLoudspeaker(choice); }
    /// A word above everything, for a while.
    void say(const QString& words);

    [[nodiscard]] DeskRoom& room() { return *m_room; }
    [[nodiscard]] DeskModel& model() { return m_model; }
    [[nodiscard]] const DeskView& view() const { return m_view; }
    /// Looks at the clock, for everything that says how long ago it was. Its own timer calls it every half second.
    void beat();

signals:
    void viewChanged();
    void leaveRequested();

private:
    /// What is to be done once the relay has answered; null: it was done.
    using Done = std::function<void(const Error*)>;
    template <class Message>
    void ask(Message message, Done done = {})
    {
        m_asked[m_line.ask(std::move(message))] = std::move(done);
    }
    void bindLine();
    void bindRoom();
    void bindLines();
    void bindPictures();
    void showSmallPictures();
    void decide(quint64 item, wire::Decision decision);
    void takeBack(quint64 item);
    void takeBackLast();
    void answer(quint64 item, bool toAll, const QString& text);
    void rest(PersonId person, const QString& name, wire::Rest rest, const QString& reason);
    void answered(const RequestId& id, const Error* error);
    void lineChanged();
    void ringForCalls();
    /// It was done, and what.
    void sayDone(const QString& words);

    link::Line& m_line;
    QString m_folder;
    link::ClassFollow m_follow;
    pictures::PictureShelf m_shelf{m_line};
    pictures::PictureDesk m_pictures{m_line, m_shelf};
    DeskModel m_model;
    DeskView m_view;
    QPointer<DeskRoom> m_room;
    CallBell m_bell;
    QTimer m_timer;
    std::map<RequestId, Done> m_asked;
    std::set<quint64> m_thenBack; ///< asked for, and taken back before it was answered
};

} // namespace vh::help
