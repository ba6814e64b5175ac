#pragma once
// One line of the board, painted: who wrote it in a column at the left, the words beside it, how it stands below them,
// a picture before them, and at most one control at the right end. Plain text whatever it says; a word without an end
// breaks anywhere. A reader says all of it as one sentence. GUI thread.
#include "app/join/join_view.h"
#include "app/look/type.h"
#include "app/widgets/spoken_widget.h"

namespace vh
{
class BigButton;
}

namespace vh::join
{

class BoardLineView : public SpokenWidget
{
    Q_OBJECT
public:
    explicit BoardLineView(QWidget* parent = nullptr);
    void setRow(const BoardRow& row);
    [[nodiscard]] const BoardRow& row() const { return m_row; }
    /// Of the words: the largest in which they are no higher than `most`.
    void fit(int width, int most);
    /// What it needs at the width of the last fit().
    [[nodiscard]] int wanted() const { return m_wanted; }

signals:
    void pressRequested(quint64 line);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    [[nodiscard]] double heightAt(look::Type type, double width) const;
    [[nodiscard]] double nameWidth() const;
    [[nodiscard]] double textWidth(int width) const;
    [[nodiscard]] QSizeF pictureSize() const;

    BoardRow m_row;
    look::Type m_type = look::Type::touch;
    int m_wanted = 0;
    double m_pictureMost = 0; ///< height
    BigButton* m_act;
};

} // namespace vh::join
