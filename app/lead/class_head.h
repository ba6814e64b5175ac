#pragma once
// The top row in class: the name of the class, its code and its clock; her voice, as one group (whether they hear her,
// the key that changes it, bell and recording); and far from that, at the right, what she needs rarely. Where there is
// little room the clock, the words of a button and then the keys' names get shorter, and the button of the group's
// window gives way; all keys work. Part of ClassPage. GUI thread.
#include "app/lead/lead_view.h"

class QBoxLayout;
class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class OneLine;

class ClassHead : public QWidget
{
    Q_OBJECT
public:
    explicit ClassHead(QWidget* parent);
    void setState(const LeadView& view);
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    void muteRequested();
    void bellRequested();
    void recordingRequested();
    void coverRequested();
    void groupWindowRequested();
    void endRequested();

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    QBoxLayout* makeNames();
    QBoxLayout* makeVoice();
    BigButton* makeKey(const QString& words, const QString& key, void (ClassHead::*request)());
    void setVoice(const VoiceView& voice);
    [[nodiscard]] int wanted() const;
    static void sayOne(BigButton* button, bool second, const QString& one, const QString& other);
    void fit();

    bool m_covered = false;
    bool m_endArmed = false;
    bool m_rehearsal = false;
    int m_codeRoom = 0; ///< what the code takes in the second line

    OneLine* m_title;
    QLabel* m_code;
    OneLine* m_clock;
    LevelBar* m_level;
    BigButton* m_mute;
    BigButton* m_bell;
    BigButton* m_play;
    BigButton* m_cover;
    BigButton* m_groupWindow;
    BigButton* m_end;
};

} // namespace vh::lead
