#pragma once
// Where a step's text is typed: plain text, with a bar under the letters that are marked. Enter says that it is done,
// Shift+Enter makes a new line. Undoing is not its own: it lets those keys through. GUI thread.
#include "app/widgets/text_fit.h"

#include <QPlainTextEdit>

namespace vh::write
{

class MarkedEdit : public QPlainTextEdit
{
    Q_OBJECT
public:
    explicit MarkedEdit(QWidget* parent = nullptr);
    /// Where the text is another one the caret stands behind what changed.
    void setState(const QString& text, const QVector<TextRange>& marks, const QString& placeholder);
    [[nodiscard]] int caret() const { return textCursor().position(); }
    /// Two lines; it takes more where there is room.
    [[nodiscard]] QSize sizeHint() const override { return minimumSizeHint(); }
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    void typed(const QString& text, int caret);
    void done();
    /// In place of being put in: lines, into a text that is empty.
    void linesPasted(const QString& lines);

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void insertFromMimeData(const QMimeData* source) override;

private:
    [[nodiscard]] QVector<QRectF> barsOf(const TextRange& mark) const;
    void putText(const QString& text);

    QVector<TextRange> m_marks;
    QString m_placeholder;
    bool m_putting = false;
};

} // namespace vh::write
