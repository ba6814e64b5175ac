#pragma once
// The script under the lens: the line before, faint; this line, large; whose turn it is right at it; her note; and the
// next line. The turns stand at the same height for every line that fits in two, so that the eye finds them. A notice
// stands over the line before, and where the largest type leaves no room for that, over the next one: nothing moves for
// it. Part of ClassPage. GUI thread.
#include "app/lead/lead_view.h"

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class NoteText;
class OneLine;

class ScriptColumn : public QWidget
{
    Q_OBJECT
public:
    explicit ScriptColumn(QWidget* parent);
    void setState(const Column& column);
    void setNotice(const NoticeLine::State& notice);
    [[nodiscard]] QSize minimumSizeHint() const override { return {420, 280}; }

signals:
    void stepsRequested();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void place();

    void placeNotice();

    Column m_shown;
    bool m_lastFits = true;
    int m_strip = 0; ///< height above the text
    NoticeLine* m_notice;
    OneLine* m_last;
    FittedText* m_now;
    TurnRow* m_turns;
    NoteText* m_note;
    OneLine* m_next;
    BigButton* m_steps; ///< beside the next line
};

} // namespace vh::lead
