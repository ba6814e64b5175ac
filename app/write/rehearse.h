#pragma once
// A rehearsal: the class alone, with the real clock, the leader's own screen and keys, and the state machine that halls
// run (LocalClass), without a relay. Nobody hears her and nothing leaves the computer. At the end: planned against
// actual, section by section, and her pace is learned. Owns its widget until something else takes it as a child. Clock,
// ears and book must outlive it. GUI thread.
#include "app/lead/group_window.h"
#include "app/lead/lead_model.h"
#include "app/sound/ears.h"
#include "app/write/local_class.h"
#include "app/write/own_pace.h"
#include "app/write/rehearse_words.h"

#include <QPointer>
#include <QTimer>

#include <map>

class QStackedWidget;

namespace vh::lead
{
class LeadRoom;
}

namespace vh::write
{

class BeforePage;
class AfterPage;

struct RehearsalSetup {
    const Clock* clock = nullptr;
    sound::Ears* ears = nullptr; ///< null: her level is not shown
    sound::DeviceChoice microphone = sound::DeviceChoice::standardDevice();
    OwnPaceBook* pace = nullptr; ///< null: nothing is known of her pace, and nothing learned
};

class Rehearsal : public QObject
{
    Q_OBJECT
public:
    explicit Rehearsal(const RehearsalSetup& setup, QObject* parent = nullptr);
    ~Rehearsal() override;

    [[nodiscard]] QWidget* widget() const;
    /// The page before it; `folder` is where the pictures lie. A rehearsal that runs is dropped.
    void start(const ClassScript& script, const QString& folder);
    /// The clock runs from here. As the press on that page.
    void begin();

    [[nodiscard]] const lead::LeadView& view() const { return m_view; }
    [[nodiscard]] const LocalClass* running() const { return m_class.get(); }
    void command(CommandKind kind);
    /// Jump, more time, steps left out; or the sheet for it. Texts are corrected in the writing room.
    void change(const lead::ChangeRequest& request);
    /// Looks at the clock. Its own timer calls it every 100 ms.
    void beat();

signals:
    /// It is over; `pace` may be empty.
    void ended(const vh::PaceSample& pace);
    void leaveRequested();

private:
    void bindRoom();
    void endPressed();
    void press(const std::optional<wire::Lead>& lead);
    void finish();
    void tell();
    void refresh();
    void showBefore(const QString& trouble);
    void takePictures(const ClassScript& script, const QString& folder);
    void listen(bool wanted);
    void toggleGroupWindow();
    void tellGroupWindow();
    [[nodiscard]] LevelBar::State sign() const;
    [[nodiscard]] OwnPace pace() const { return m_setup.pace ? m_setup.pace->pace() : OwnPace(); }

    RehearsalSetup m_setup;
    QPointer<QStackedWidget> m_pages;
    BeforePage* m_before;
    lead::LeadRoom* m_room;
    AfterPage* m_after;
    QPointer<lead::GroupWindow> m_groupWindow;
    std::shared_ptr<const ClassScript> m_script; ///< with its pictures named as homes know them
    std::map<std::string, QImage> m_pictures;
    QString m_trouble; ///< with a picture
    std::unique_ptr<LocalClass> m_class;
    lead::LeadModel m_model;
    lead::LeadView m_view;
    QTimer m_timer;
    bool m_listening = false;
};

} // namespace vh::write
