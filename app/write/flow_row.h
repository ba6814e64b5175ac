#pragma once
// Controls one after another, in as many lines as they need. GUI thread.
#include <QLayout>
#include <QList>

namespace vh::write
{

class FlowRow : public QLayout
{
public:
    explicit FlowRow(int gap) : m_gap(gap) { setContentsMargins(0, 0, 0, 0); }
    ~FlowRow() override { qDeleteAll(m_items); }

    void addItem(QLayoutItem* item) override { m_items.append(item); }
    [[nodiscard]] int count() const override { return static_cast<int>(m_items.size()); }
    [[nodiscard]] QLayoutItem* itemAt(int index) const override { return m_items.value(index); }
    QLayoutItem* takeAt(int index) override
    {
        return index >= 0 && index < m_items.size() ? m_items.takeAt(index) : nullptr;
    }
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override { return place({0, 0, width, 0}, false); }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSize() const override;
    void setGeometry(const QRect& where) override;

private:
    int place(const QRect& where, bool move) const;

    QList<QLayoutItem*> m_items;
    int m_gap;
};

} // namespace vh::write
