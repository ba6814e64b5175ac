#pragma once
// The leader's own sound check, before class: what to do now, large; her level; what was found. Part of LeadRoom. GUI
// thread.
#include "app/lead/sound_check.h"

#include <QWidget>

class QLabel;
class QProgressBar;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class SoundCheckPage : public QWidget
{
    Q_OBJECT
public:
    explicit SoundCheckPage(QWidget* parent);
    void setState(const SoundCheckView& view);

signals:
    void againRequested();
    void closeRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    SoundCheckView m_shown;
    QLabel* m_heading;
    QLabel* m_words;
    QProgressBar* m_progress;
    LevelBar* m_level;
    std::vector<QLabel*> m_what;
    std::vector<QLabel*> m_found;
    BigButton* m_again;
    BigButton* m_close;
};

} // namespace vh::lead
