#pragma once
// Small painted parts of the leader's pages. GUI thread.
#include "app/look/type.h"
#include "app/widgets/spoken_widget.h"

namespace vh::lead
{

/// One line of text that ends in "…" where it does not fit.
class OneLine : public SpokenWidget
{
    Q_OBJECT
public:
    enum class Ink { main, second };
    OneLine(look::Type type, Ink ink, QWidget* parent);
    void setText(const QString& text);
    /// A hairline above it.
    void setRuled() { m_ruled = true; }
    void setBold() { m_bold = true; }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {60, sizeHint().height()}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] QFont inkFont() const;
    look::Type m_type;
    Ink m_ink;
    bool m_ruled = false;
    bool m_bold = false;
    QString m_text;
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

/// Large words on a deep ground: the keyboard is elsewhere.
class DeepSign : public SpokenWidget
{
    Q_OBJECT
public:
    explicit DeepSign(QWidget* parent);
    void setText(const QString& text);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_text;
};

} // namespace vh::lead
