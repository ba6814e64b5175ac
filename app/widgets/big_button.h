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
    void setRank(Rank rank);
    /// Tests hand in theirs; it must outlive the button.
    void setClock(const Clock& clock) { m_clock = &clock; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

signals:
    void pressRequested();

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    [[nodiscard]] QFont wordsFont() const;
    [[nodiscard]] QFont hintFont() const;

    Rank m_rank;
    Size m_size;
    QString m_keyHint;
    const Clock* m_clock;
    PressFilter m_filter;
};

} // namespace vh
