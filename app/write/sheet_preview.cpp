#include "app/write/sheet_preview.h"

#include <QPainter>

#include <cmath>

namespace vh::write
{

QSize homeSheet(look::TextSize size, bool spoken)
{
    // Measured; tests/app/write/test_sheet_preview.cpp compares them with the room itself.
    switch (size) {
    case look::TextSize::usual:
        return spoken ? QSize(1302, 328) : QSize(1302, 433);
    case look::TextSize::larger:
        return spoken ? QSize(1302, 303) : QSize(1302, 412);
    case look::TextSize::largest:
        return spoken ? QSize(1302, 274) : QSize(1302, 387);
    }
    return {1302, 328};
}

SheetPreview::SheetPreview(QWidget* parent)
    : SpokenWidget(QAccessible::Graphic, parent), m_sheet(std::make_unique<ClassSheet>())
{
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    m_home = homeSheet(m_size, true);
}

SheetPreview::~SheetPreview() = default;

void SheetPreview::setState(const ClassSheet::State& state, QSize home, look::TextSize size)
{
    const bool same = m_told && home == m_home && size == m_size && state.cue == m_state.cue &&
                      state.text.text == m_state.text.text && state.text.stretches == m_state.text.stretches &&
                      state.picture.cacheKey() == m_state.picture.cacheKey() &&
                      state.pictureDescription == m_state.pictureDescription;
    if (same)
        return; // fitting the text anew costs milliseconds
    m_told = true;
    m_state = state;
    const bool otherShape = home != m_home;
    m_home = home;
    m_size = size;
    {
        const look::LookOf theirs(size);
        m_sheet->setAttribute(Qt::WA_DontShowOnScreen);
        m_sheet->ensurePolished();
        m_sheet->resize(home);
        m_sheet->setState(state);
    }
    say(tr("A home sees: %1. %2").arg(CueBadge::wordsOf(state.cue), QString::fromStdString(state.text.text)));
    if (otherShape)
        updateGeometry();
    update();
}

int SheetPreview::heightForWidth(int width) const
{
    return static_cast<int>(std::lround(1.0 * width * m_home.height() / m_home.width()));
}

void SheetPreview::paintEvent(QPaintEvent*)
{
    const look::LookOf theirs(m_size);
    const double scale = std::min(1.0 * width() / m_home.width(), 1.0 * height() / m_home.height());
    // Rendered at the size it is seen at: its letters stay sharp.
    QImage picture((QSizeF(m_home) * scale * devicePixelRatioF()).toSize(), QImage::Format_ARGB32_Premultiplied);
    picture.fill(Qt::transparent);
    QPainter inside(&picture);
    inside.scale(scale * devicePixelRatioF(), scale * devicePixelRatioF());
    m_sheet->render(&inside, QPoint(), QRegion(), QWidget::DrawChildren);
    inside.end();
    QPainter painter(this);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    picture.setDevicePixelRatio(devicePixelRatioF());
    painter.drawImage(0, 0, picture);
}

} // namespace vh::write
