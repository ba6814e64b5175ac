#pragma once
// A control: large, plain words, one press. Connect to pressRequested(), never to clicked(): only the first of a burst
// of presses (400 ms, see PressFilter) is passed on. Enter works like Space. Its text is its accessible name. GUI
// thread.
#include "app/widgets/press_filter.h"
#include "common/base/clock.h"

#include <QPushButton>

namespace vh
{

class BigButton : public QPushButton
{
    Q_OBJECT
public:
    enum class Rank { main, plain };
    /// touch: a participant's, at least 60x60 px. desk: a leader's or helper's, 44 px high.
    enum class Size { touch, desk };

    BigButton(const QString& words, Rank rank, Size size, QWidget* parent = nullptr);
    /// A key shown beside the words, for those who drive by keyboard ("1"). Shown only; the room owns the shortcut.
    void setKeyHint(const QString& key);
    /// Where there is little room the key is no longer shown; it still works, and a reader still says it.
    void setHintGivesWay();
    void setRank(Rank rank);
    /// Tests hand in theirs; it must outlive the button.
    void setClock(const Clock& clock) { m_clock = &clock; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeWith(!m_hintGivesWay); }

signals:
    void pressRequested();

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    [[nodiscard]] QFont wordsFont() const;
    [[nodiscard]] QFont hintFont() const;
    [[nodiscard]] QSize sizeWith(bool hint) const;

    Rank m_rank;
    Size m_size;
    QString m_keyHint;
    bool m_hintGivesWay = false;
    const Clock* m_clock;
    PressFilter m_filter;
};

} // namespace vh
