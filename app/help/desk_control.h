#pragma once
// Binds a helper's line, the model and the desk. Owns the room until something else takes it as a child. The line must
// outlive it. Made before the line comes in, or in its stateChanged(in):
// what the relay sends right after the welcome is not sent twice. GUI thread.
#include "app/help/desk_model.h"
#include "app/help/desk_room.h"
#include "app/link/class_follow.h"
#include "app/people/call_bell.h"

#include <QPointer>

#include <map>
#include <set>

namespace vh::help
{

class DeskControl : public QObject
{
    Q_OBJECT
public:
    explicit DeskControl(link::Line& line, QObject* parent = nullptr);
    ~DeskControl() override;
    /// Where a call for help rings; the standard one unless said.
    void setLoudspeaker(const sound::DeviceChoice& choice) { m_bell.setLoudspeaker(choice); }
    /// A word above everything, for a while.
    void say(const QString& words);

    [[nodiscard]] DeskRoom& room() { return *m_room; }
    [[nodiscard]] const DeskView& view() const { return m_view; }
    /// Looks at the clock, for everything that says how long ago it was. Its own timer calls it every half second.
    void beat();

signals:
    void viewChanged();
    void leaveRequested();

private:
    void bindRoom();
    void answered(const RequestId& id, const Error* error);
    void lineChanged();
    void ringForCalls();

    link::Line& m_line;
    link::ClassFollow m_follow;
    DeskModel m_model;
    DeskView m_view;
    QPointer<DeskRoom> m_room;
    CallBell m_bell;
    QTimer m_timer;
    std::map<RequestId, QString> m_byHand; ///< names on their way
    std::set<RequestId> m_asked;
};

} // namespace vh::help
