#pragma once
// Small painted parts of the leader's pages. GUI thread.
#include "app/look/type.h"
#include "app/widgets/spoken_widget.h"

#include <QColor>
#include <QRect>
#include <QStringList>

#include <vector>

namespace vh::lead
{

/// One line of text. Given several wordings, the longest that fits is shown; where none does, the last one loses its
/// end or its middle to an ellipsis. Whole in its accessible name and, where it was shortened, under the pointer.
class OneLine : public SpokenWidget
{
    Q_OBJECT
public:
    enum class Ink { main, second };
    enum class Shorten { end, middle };
    OneLine(look::Type type, Ink ink, QWidget* parent);
    void setText(const QString& text) { setTexts({text}); }
    /// Longest first.
    void setTexts(const QStringList& texts);
    /// A hairline above it.
    void setRuled() { m_ruled = true; }
    void setBold() { m_bold = true; }
    void setShorten(Shorten how) { m_shorten = how; }
    /// What is painted at this width.
    [[nodiscard]] QString shown() const;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    [[nodiscard]] QFont inkFont() const;
    void tellPointer();
    look::Type m_type;
    Ink m_ink;
    Shorten m_shorten = Shorten::end;
    bool m_ruled = false;
    bool m_bold = false;
    QStringList m_texts;
};

/// Short texts one after another, in two or three lines whatever they are, so that nothing below moves.
class WordFlow : public SpokenWidget
{
    Q_OBJECT
public:
    struct Item {
        QString words;
        QColor ink;
        look::Weight weight = look::Weight::regular;
        bool alone = false; ///< on a line of its own
        friend bool operator==(const Item&, const Item&) = default;
    };
    explicit WordFlow(QWidget* parent);
    void setItems(const std::vector<Item>& items);
    void setLines(int lines);
    /// Lines that the items take at a width.
    [[nodiscard]] int linesFor(int width) const;
    [[nodiscard]] int lines() const { return m_lines; }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {160, sizeHint().height()}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    /// Where each item starts, lines counted in y.
    [[nodiscard]] std::vector<QPoint> starts(int width) const;
    std::vector<Item> m_items;
    int m_lines = 2;
};

/// The leader's own note: a bar at its left, so that it is never taken for something to be said.
class NoteText : public SpokenWidget
{
    Q_OBJECT
public:
    explicit NoteText(QWidget* parent);
    void setText(const QString& text);
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override { return {400, heightForWidth(400)}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {120, heightForWidth(700)}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_text;
};

/// A sheet that stands out: a heavy frame with a bar at its left.
void paintHeavySheet(QPainter& painter, const QRectF& where);

/// The keyboard is elsewhere: a frame all round the page and large words on a deep band. A press anywhere on it only
/// brings the keyboard back.
class DeepSign : public SpokenWidget
{
    Q_OBJECT
public:
    explicit DeepSign(QWidget* parent);
    void setText(const QString& text);
    /// Where the words stand, in this widget.
    void setBand(const QRect& band);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

private:
    QString m_text;
    QRect m_band;
};

} // namespace vh::lead
