#pragma once
// A label for text that may come from outside: shown as it is, never read as markup. GUI thread.
#include "app/look/look.h"

#include <QLabel>

namespace vh
{

/// `role`: one of look::kRoleProperty's for text, or null for running text. Wraps at word ends.
inline QLabel* plainLabel(QWidget* parent, const char* role = nullptr, const QString& text = {})
{
    auto* label = new QLabel(text, parent);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    if (role)
        label->setProperty(look::kRoleProperty, role);
    return label;
}

} // namespace vh
