#pragma once
// Paints one line of somebody's as a card: name, how long ago, what has become of it, the words, whole; beside them
// room for a picture. A card is as high in one state as in another. Heights are worked out once for a width and a look.
// GUI thread.
#include "app/help/words_model.h"

#include <QStyledItemDelegate>

#include <unordered_map>

class QAbstractItemView;

namespace vh::help
{

class WordCards : public QStyledItemDelegate
{
    Q_OBJECT
public:
    /// How a line looks that was dealt with: in the list of what is to read it stands back.
    enum class Settled { standsBack, isPlain };
    WordCards(Settled settled, QAbstractItemView* list);
    /// The width or the look is another one.
    void forgetHeights() { m_heights.clear(); }
    void forgetHeight(std::uint64_t item) { m_heights.erase(item); }

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;

    /// Room for a picture, in px.
    static constexpr QSize kPicture{132, 92};

private:
    [[nodiscard]] int cardWidth() const;
    [[nodiscard]] int heightOf(const WordRow& row, int width) const;
    void paintHead(QPainter& painter, const WordRow& row, const WordsModel& words, const QRectF& line) const;

    [[nodiscard]] bool standsBack(const WordRow& row) const;

    Settled m_settled;
    QAbstractItemView* m_list;
    mutable std::unordered_map<std::uint64_t, int> m_heights;
};

} // namespace vh::help
