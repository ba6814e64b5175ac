#pragma once
// A control: large, plain words, one press. Connect to pressRequested(), never to clicked(): only the first of a burst
// of presses (400 ms, see PressFilter) is passed on. Enter works like Space. Its text is its accessible name, the
// caption below it its description. GUI thread.
#include "app/look/sign.h"
#include "app/widgets/press_filter.h"
#include "common/base/clock.h"

#include <QPushButton>

#include <optional>

namespace vh
{

class BigButton : public QPushButton
{
    Q_OBJECT
public:
    enum class Rank { main, plain };
    /// touch: a participant's, at least 60x60 px. name: the same with its words larger. desk: a leader's or helper's,
    /// 44 px high.
    enum class Size { touch, name, desk };

    BigButton(const QString& words, Rank rank, Size size, QWidget* parent = nullptr);
    /// A key shown beside the words, for those who drive by keyboard ("1"). Shown only; the room owns the shortcut.
    void setKeyHint(const QString& key);
    /// Where there is little room the key is no longer shown; it still works, and a reader still says it.
    void setHintGivesWay();
    void setRank(Rank rank);
    /// A second line in small letters: what a press does, or how it stands now.
    void setCaption(const QString& caption);
    /// Before the words; none at first.
    void setSign(std::optional<look::Sign> sign);
    /// As wide as these would need, whatever it says now: what stands beside it does not move.
    void keepRoomFor(const QString& words, const QString& caption);
    /// Tests hand in theirs; it must outlive the button.
    void setClock(const Clock& clock) { m_clock = &clock; }

    [[nodiscard]] QSize sizeHint() const override;
    /// Without its sign, which may be left away where there is little room.
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeWith(0, !m_hintGivesWay); }

signals:
    void pressRequested();

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    [[nodiscard]] QFont wordsFont() const;
    [[nodiscard]] QFont smallFont() const;
    [[nodiscard]] double signSide() const;
    [[nodiscard]] QSize sizeWith(double signRoom, bool hint) const;
    [[nodiscard]] double widthOf(const QString& words, const QString& caption, bool hint) const;
    void paintBody(QPainter& painter, const QRectF& body) const;
    void paintWords(QPainter& painter, const QRectF& body) const;

    Rank m_rank;
    Size m_size;
    QString m_keyHint;
    QString m_caption;
    std::optional<look::Sign> m_sign;
    QString m_alsoWords;
    QString m_alsoCaption;
    bool m_hintGivesWay = false;
    const Clock* m_clock;
    PressFilter m_filter;
};

} // namespace vh
