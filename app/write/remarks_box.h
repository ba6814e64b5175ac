#pragma once
// What there is to say about the class, each with where it is and why, and what mends it. GUI thread.
#include "app/widgets/card_list.h"
#include "app/write/editor_view.h"

class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::write
{

class RemarksBox : public QWidget
{
    Q_OBJECT
public:
    explicit RemarksBox(QWidget* parent = nullptr);
    void setState(const EditorView& view);
    /// The chosen one; -1: none.
    [[nodiscard]] int chosen() const { return static_cast<int>(m_cards->chosen()) - 1; }
    void choose(int remark);

signals:
    void pressed(vh::write::Press press);
    void remarkRequested(int remark); ///< to its place

private:
    QLabel* m_words;
    CardList* m_cards;
    BigButton* m_next;
    BigButton* m_mend;
    BigButton* m_mendAll;
};

} // namespace vh::write
