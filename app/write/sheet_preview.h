#pragma once
// A home's sheet as its people see it, smaller: the very widget that homes use, laid out at a home's size with a home's
// text size, and drawn to the width there is. GUI thread.
#include "app/look/look.h"
#include "app/widgets/class_sheet.h"
#include "app/widgets/spoken_widget.h"

namespace vh::write
{

/// What the sheet of a home has in a window of 1366 x 700, by text size, with the meter below it (people speak in the
/// step) and without.
QSize homeSheet(look::TextSize size, bool spoken);

class SheetPreview : public SpokenWidget
{
    Q_OBJECT
public:
    explicit SheetPreview(QWidget* parent = nullptr);
    ~SheetPreview() override;
    void setState(const ClassSheet::State& state, QSize home, look::TextSize size);

    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override { return {440, heightForWidth(440)}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {200, heightForWidth(200)}; }
    [[nodiscard]] const ClassSheet& sheet() const { return *m_sheet; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    std::unique_ptr<ClassSheet> m_sheet; ///< never shown itself
    ClassSheet::State m_state;
    bool m_told = false;
    QSize m_home;
    look::TextSize m_size = look::TextSize::usual;
};

} // namespace vh::write
