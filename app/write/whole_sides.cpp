#include "app/write/whole_sides.h"

#include "app/write/page_parts.h"
#include "common/script/limits.h"

#include <QComboBox>
#include <QIntValidator>
#include <QVBoxLayout>

namespace vh::write
{

using look::Space;

namespace
{

constexpr int kKinds = static_cast<int>(SectionKind::closing) + 1;

QVBoxLayout* columnOf(QWidget* side)
{
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::hair);
    return column;
}

void add(QVBoxLayout* column, QWidget* field, const QString& words)
{
    column->addWidget(labelFor(field, words, column->parentWidget()));
    column->addWidget(field);
    column->addSpacing(Space::small);
}

} // namespace

QString wordsOf(SectionKind kind)
{
    switch (kind) {
    case SectionKind::opening:
        return PartSide::tr("Opening");
    case SectionKind::warmUp:
        return PartSide::tr("Warm-up");
    case SectionKind::sustainedVowel:
        return PartSide::tr("Long vowels");
    case SectionKind::pitchGlide:
        return PartSide::tr("Glides");
    case SectionKind::counting:
        return PartSide::tr("Counting");
    case SectionKind::phrases:
        return PartSide::tr("Phrases");
    case SectionKind::categoryNaming:
        return PartSide::tr("Groups of things to name");
    case SectionKind::backOfTongue:
        return PartSide::tr("Back of the tongue");
    case SectionKind::passage:
        return PartSide::tr("Passage to read");
    case SectionKind::openTalk:
        return PartSide::tr("Open talk");
    case SectionKind::pause:
        return PartSide::tr("Water pause");
    case SectionKind::closing:
        return PartSide::tr("Closing");
    }
    return {};
}

ClassSide::ClassSide(QWidget* parent)
    : QWidget(parent), m_title(lineField(this)), m_theme(lineField(this)), m_minutes(lineField(this)),
      m_language(lineField(this))
{
    auto* column = columnOf(this);
    add(column, m_title, tr("Title, as people see it"));
    add(column, m_theme, tr("Theme, in a word or two"));
    add(column, m_minutes, tr("Minutes that it is to take"));
    add(column, m_language, tr("Language: en, de, pt-BR\u2026"));
    column->addStretch(1);
    m_minutes->setValidator(new QIntValidator(1, limits::kMaxMinutes, m_minutes));
    m_minutes->setMaximumWidth(120);
    m_language->setMaximumWidth(200);
    connect(m_title, &QLineEdit::textEdited, this, &ClassSide::titleTyped);
    connect(m_theme, &QLineEdit::textEdited, this, &ClassSide::themeTyped);
    connect(m_language, &QLineEdit::textEdited, this, &ClassSide::languageTyped);
    connect(m_minutes, &QLineEdit::textEdited, this, [this](const QString& text) {
        if (m_minutes->hasAcceptableInput())
            emit minutesTyped(text.toInt());
    });
}

void ClassSide::setState(const ClassFields& fields)
{
    putInto(*m_title, fields.title);
    putInto(*m_theme, fields.theme);
    putInto(*m_language, fields.language);
    if (!m_minutes->hasFocus() || m_minutes->hasAcceptableInput()) // an empty field on the way to another number stays
        putInto(*m_minutes, QString::number(fields.minutes));
}

void ClassSide::toTitle()
{
    m_title->setFocus(Qt::OtherFocusReason);
    m_title->end(false);
}

PartSide::PartSide(QWidget* parent) : QWidget(parent), m_title(lineField(this)), m_kind(new QComboBox(this))
{
    auto* column = columnOf(this);
    add(column, m_title, tr("Title of this part, as people see it"));
    for (int kind = 0; kind < kKinds; ++kind)
        m_kind->addItem(wordsOf(static_cast<SectionKind>(kind)));
    add(column, m_kind, tr("What kind of part it is"));
    column->addStretch(1);
    connect(m_title, &QLineEdit::textEdited, this, &PartSide::titleTyped);
    connect(m_kind, &QComboBox::activated, this,
            [this](int index) { emit kindChosen(static_cast<SectionKind>(index)); });
}

void PartSide::setState(const PartFields& fields)
{
    putInto(*m_title, fields.title);
    m_kind->setCurrentIndex(static_cast<int>(fields.kind));
}

void PartSide::toTitle()
{
    m_title->setFocus(Qt::OtherFocusReason);
    m_title->end(false);
}

} // namespace vh::write
