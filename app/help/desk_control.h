#pragma once
// Binds a helper's line, the model and the desk. Owns the room until something else takes it as a child. Line and clock
// must outlive it. GUI thread.
#include "app/help/desk_model.h"
#include "app/help/desk_room.h"
#include "app/link/class_follow.h"

#include <QPointer>

#include <map>

namespace vh::help
{

class DeskControl : public QObject
{
    Q_OBJECT
public:
    DeskControl(link::Line& line, const Clock& clock, QObject* parent = nullptr);
    ~DeskControl() override;

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

    link::Line& m_line;
    const Clock& m_clock;
    link::ClassFollow m_follow;
    DeskModel m_model;
    DeskView m_view;
    QPointer<DeskRoom> m_room;
    QTimer m_timer;
    std::map<RequestId, QString> m_byHand; ///< names on their way
    std::map<RequestId, bool> m_asked;
};

} // namespace vh::help
