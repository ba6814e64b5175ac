#pragma once
// The leader's own sound, before class: what to do now, large; her level; what was found; beside it which way her voice
// goes, and a recording to play in class. Part of LeadRoom. GUI thread.
#include "app/lead/lead_view.h"

#include <QWidget>

class QLabel;
class QProgressBar;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class OneLine;

class SoundCheckPage : public QWidget
{
    Q_OBJECT
public:
    explicit SoundCheckPage(QWidget* parent);
    void setState(const SoundCheckView& view);
    void setVoice(const VoiceView& voice);

signals:
    void againRequested();
    void closeRequested();
    void wayRequested(vh::lead::VoiceWay way);
    void recordingFileRequested();
    void recordingDropRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    QWidget* makeFound(QWidget* parent);
    QWidget* makeChoices(QWidget* parent);
    SoundCheckView m_shown;
    QLabel* m_heading;
    QLabel* m_words;
    QProgressBar* m_progress;
    LevelBar* m_level;
    std::vector<QLabel*> m_what;
    std::vector<QLabel*> m_found;
    BigButton* m_here;
    BigButton* m_elsewhere;
    QLabel* m_wayWords;
    OneLine* m_recording;
    BigButton* m_file;
    BigButton* m_drop;
    BigButton* m_again;
    BigButton* m_close;
};

} // namespace vh::lead
