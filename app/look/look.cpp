#include "app/look/look.h"
#include "app/look/style_sheet.h"

#include <QApplication>
#include <QPainter>
#include <QPalette>
#include <QStyleFactory>

namespace vh::look
{

namespace
{

Look& inForce()
{
    static Look look;
    return look;
}

QPalette qtPaletteOf(const Palette& p)
{
    QPalette qt;
    qt.setColor(QPalette::Window, p.paper);
    qt.setColor(QPalette::WindowText, p.ink);
    qt.setColor(QPalette::Base, p.sheet);
    qt.setColor(QPalette::AlternateBase, p.quiet);
    qt.setColor(QPalette::Text, p.ink);
    qt.setColor(QPalette::Button, p.sheet);
    qt.setColor(QPalette::ButtonText, p.deep);
    qt.setColor(QPalette::Highlight, p.deep);
    qt.setColor(QPalette::HighlightedText, p.onDeep);
    qt.setColor(QPalette::PlaceholderText, p.secondInk);
    qt.setColor(QPalette::Link, p.deep);
    qt.setColor(QPalette::LinkVisited, p.deep);
    qt.setColor(QPalette::ToolTipBase, p.sheet);
    qt.setColor(QPalette::ToolTipText, p.ink);
    return qt;
}

} // namespace

const Look& Look::current()
{
    return inForce();
}

bool Look::applyTo(QApplication& app) const
{
    if (!loadTypeface())
        return false;
    inForce() = *this;
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    QApplication::setPalette(qtPaletteOf(palette()));
    QApplication::setFont(font(Type::body));
    app.setStyleSheet(styleSheetOf(*this)); // last: it sends every widget the StyleChange
    return true;
}

LookOf::LookOf(TextSize size) : m_before(inForce())
{
    inForce() = Look(m_before.ground(), size);
}

LookOf::~LookOf()
{
    inForce() = m_before;
}

void paintSheet(QPainter& painter, const QRectF& where, const QColor& fill)
{
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(Look::current().palette().line, 1));
    painter.setBrush(fill);
    painter.drawRoundedRect(where.adjusted(0.5, 0.5, -0.5, -0.5), Space::corner, Space::corner);
    painter.restore();
}

} // namespace vh::look
